// Layouts changed in ways that must not matter, or matter in a known way.
#pragma once

#include "geometry/layout/layout.hpp"

namespace fairlead::laws {

/// Mirrored in the plane y = 0 when asked, turned about the vertical, then shifted.
struct Motion {
  bool mirrors = false;
  double turn_rad = 0;
  Vec3 shift;

  Vec3 operator()(Vec3 v) const;
  Point3 operator()(Point3 p) const { return Point3{} + (*this)(p - Point3{}) + shift; }
};

/// The whole site moved. Seen in a mirror a sheave turns the other way, and left is right.
Layout moved(Layout, const Motion&);

/// Every line written from its other end.
Layout reversed(Layout);

/// Weights, tensions, stiffnesses and capacities doubled, and the wind's pressure.
Layout doubled(Layout);

}  // namespace fairlead::laws
