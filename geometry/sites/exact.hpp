// Distances of one triangle or point from a segment or a convex hull, in double.
//
// Differences of coordinates are taken first, so the distance from the datum costs nothing but the coordinates' own
// rounding. Every answer has two points that are really there: the distance is never less than the true one by more
// than rounding. Errors are less than 1e-12 of the size of item and shape together, needles and flat shapes included.
#pragma once

#include <span>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::sites {

/// 0, and the same point twice, where they meet or are apart by no more than rounding.
struct Apart {
  double distance{};
  Point3 on_shape, on_item;
};

/// `item`: one point or the three corners of a triangle, which may be flat.
Apart segment_to_item(Point3 from, Point3 to, std::span<const Point3> item);

/// `hull`: one point at least. What is farther than `most` is only said to be so: its distance is a lower bound of the
/// true one and more than `most`.
Apart hull_to_item(std::span<const Point3> hull, std::span<const Point3> item, double most);

}  // namespace fairlead::sites
