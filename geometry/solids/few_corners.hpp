// The convex hull of many points by few of them.
#pragma once

#include <span>
#include <vector>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::solids {

struct FewCorners {
  std::vector<Vec3> corners;  ///< some of the points, in their order
  double beyond_m{};          ///< no point lies farther outside the corners' hull
};

/// The points that reach farthest along 26 directions, then one after the other the point farthest outside the hull so
/// far, until none is farther outside than within_m, or there are `most` corners. At least one point, `most` at least
/// 26. Equally far points: the first of them.
FewCorners few_corners(std::span<const Vec3> points, double within_m, std::size_t most);

}  // namespace fairlead::solids
