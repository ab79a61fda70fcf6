// Where the lines touch: every end and every contact on a sheave, numbered from the brake trolley on.
#pragma once

#include "report/tables/table.hpp"
#include "report/views/scene.hpp"

namespace fairlead::sheets {

struct ContactPoint {
  int number{};      ///< from 1
  int line{};        ///< index into the reeving's lines
  std::string what;  ///< "R1 on", "R1 off", "dead end", "brake unit"
  Point3 at;
};
/// Of one pose, support lines left out; the numbers mean the same at every pose.
std::vector<ContactPoint> contact_points(const Rig&, const views::RigPose&);

/// The same points at rest and at full travel, by chainage, across and height.
Table contact_table(const Rig&, const views::RigPose& rest, const views::RigPose& full);

}  // namespace fairlead::sheets
