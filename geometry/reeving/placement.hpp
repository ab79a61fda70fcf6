// Where a travelling block is: a rigid move from where it is drawn.
#pragma once

#include "geometry/quantity/vectors.hpp"

namespace fairlead::reeving {

/// Takes a point p of the drawn block to `at` + turn (p - drawn).
struct Placement {
  Point3 at;                                                     ///< of the block's own point
  Vec3 turned_x{1, 0, 0}, turned_y{0, 1, 0}, turned_z{0, 0, 1};  ///< where the site's axes are turned to; right-handed

  Vec3 turn(Vec3 v) const { return v.x * turned_x + v.y * turned_y + v.z * turned_z; }
  Point3 move(Point3 p, Point3 drawn) const { return at + turn(p - drawn); }
};

}  // namespace fairlead::reeving
