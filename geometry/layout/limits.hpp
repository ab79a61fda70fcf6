// The sections [limits] and [[waiver]]: what the checks judge against, and what was let pass by whom. Their tables:
// limits_fields.hpp.
#pragma once

#include "geometry/layout/given.hpp"

namespace fairlead {

struct Limits {
  std::optional<Limit> fleet_angle_rad;
  std::optional<Limit> plane_thickness_m;    ///< of the line's points about their best plane
  std::optional<Limit> across_offset_m;      ///< from the main line's vertical plane
  std::optional<Limit> anchor_utilisation;   ///< demand over capacity
  std::optional<Limit> design_factor;        ///< divides an mbs; never a wll
  std::optional<Limit> extension_reserve_m;  ///< least, of the brake unit
  Place place{};
};

struct Waiver {
  Words check;
  std::optional<std::string> subject;  ///< id; absent: every subject of the check
  std::string who, why;
  Given<Date> until;
  Place subject_place{}, place{};
};

}  // namespace fairlead
