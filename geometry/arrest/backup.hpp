// The backup brake by itself, and a brake trolley that was not at its mark.
#pragma once

#include "geometry/arrest/arrest.hpp"
#include "geometry/mainline/path.hpp"

namespace fairlead::arrest {

/// The primary lost at contact: nothing is lost in the impact and nothing in the swing, all that hangs on the line
/// arrives as one mass (that is the most it can bring), and the backup brake's force over its compression is all that
/// stops it. The path is that of both trolleys and the rider. Unsolved without force or stroke.
Solved<BackupAlone> backup_alone(const Inputs&, const mainline::Path&, double hanging_kg, double drag_kg_per_m,
                                 double wind_m_per_s, double rolling, double arrival_speed_m_per_s);

}  // namespace fairlead::arrest
