// Distances between simple solids, each with its two nearest points.
//
// All shapes are finite and as shapes.hpp asks. Differences of coordinates are taken first, so 500 km from the datum
// costs no more than the coordinates' own rounding. Errors are a few units of rounding of the shapes' size.
#pragma once

#include <algorithm>

#include "geometry/solids/shapes.hpp"

namespace fairlead::solids {

/// 0 where solids meet; of a plane negative, by how deep the deepest point lies.
struct Nearest {
  double distance_m{};
  Point3 on_a, on_b;
};

Nearest nearest(const Segment&, const Segment&);
Nearest nearest(const Segment&, const Box&);
Nearest nearest(const Segment&, const Post&);
Nearest nearest(const Segment&, const Plane&);
Nearest nearest(const Box&, const Box&);
Nearest nearest(const Box&, const Post&);
Nearest nearest(const Box&, const Plane&);
Nearest nearest(const Segment&, const Shape&);
Nearest nearest(const Box&, const Shape&);

/// A range of places with edges along the site's axes.
struct Bounds {
  Point3 low, high;
};
Bounds bounds_of(const Segment&);
Bounds bounds_of(const Shape&);  ///< of a plane: infinite
inline Bounds hull(const Bounds& a, const Bounds& b) {
  return {{std::min(a.low.x, b.low.x), std::min(a.low.y, b.low.y), std::min(a.low.z, b.low.z)},
          {std::max(a.high.x, b.high.x), std::max(a.high.y, b.high.y), std::max(a.high.z, b.high.z)}};
}
/// No two points of them are nearer than this.
double gap_between(const Bounds&, const Bounds&);

/// How much of the segment lies within the box, m.
double length_within(const Segment&, const Box&);

}  // namespace fairlead::solids
