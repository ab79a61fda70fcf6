// Every check by name; each lives in the file of that name.
#pragma once

#include "geometry/checks/check.hpp"

namespace fairlead {

extern const Check pay_out, fleet_angle, lead_angle, coplanarity, across_offset, anchor_utilisation, extension_reserve,
    certificate_date, backup_brake;

}  // namespace fairlead
