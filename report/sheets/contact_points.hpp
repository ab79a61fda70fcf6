// Where the lines touch: every end and every contact on a sheave, numbered from the brake trolley on.
#pragma once

#include "report/views/scene.hpp"

namespace fairlead::sheets {

struct ContactPoint {
  int number{};      ///< from 1
  int line{};        ///< index into the reeving's lines
  std::string what;  ///< "R1 on", "R1 off", "dead end", "brake unit"
  Point3 at;
};
/// Of one pose, support lines left out. The numbers mean the same at every pose, and are those of the table of contact
/// points.
std::vector<ContactPoint> contact_points(const Rig&, const views::RigPose&);

}  // namespace fairlead::sheets
