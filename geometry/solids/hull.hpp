// The convex hull of a few points: a rider in every attitude that swinging brings.
#pragma once

#include <span>

#include "geometry/solids/distance.hpp"

namespace fairlead::solids {

/// Hull of its corners, each from `at`. They may repeat, lie inside, or be few: two are a segment, one is a point. At
/// least one.
struct Hull {
  Point3 at;
  std::span<const Vec3> corners;
};

Bounds bounds_of(const Hull&);

/// Distances by Gilbert, Johnson and Keerthi's method [GJK1988]: each step lowers an upper bound, the distance of two
/// known points, and raises a lower one, that of two parallel planes with the solids outside. It ends when they meet to
/// `hull_precision` of the solids' size; the upper bound is what is told.
/// Where rounding keeps them apart, the upper one too.
Nearest nearest(const Segment&, const Hull&);
Nearest nearest(const Box&, const Hull&);
Nearest nearest(const Hull&, const Hull&);
Nearest nearest(const Hull&, const Box&);
Nearest nearest(const Hull&, const Post&);
/// Negative by how deep the deepest corner lies.
Nearest nearest(const Hull&, const Plane&);
Nearest nearest(const Hull&, const Shape&);

/// Over the greatest extent of the two solids together. A post is round, and is not met in finitely many steps.
inline constexpr double hull_precision = 1e-13, hull_precision_round = 1e-9;

}  // namespace fairlead::solids
