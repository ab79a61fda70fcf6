// How far points stand off their common plane.
#pragma once

#include <optional>
#include <span>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::reeving {

/// The plane through the centroid with the least sum of squared distances (total least squares).
struct Plane {
  Point3 centroid;
  Vec3 normal;           ///< unit, up to sign
  double thickness_m{};  ///< peak to valley of the signed distances
};

/// None where the points name no plane: fewer than four (three always lie in one) or all along one line, which is
/// judged by the second singular value against 1e-9 of the first. Each point counts by its weight (> 0), once without.
std::optional<Plane> best_plane(std::span<const Point3>, std::span<const double> weights = {});

}  // namespace fairlead::reeving
