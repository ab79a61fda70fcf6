// The distance of two convex hulls, exact to the last step: CGAL's, of rational numbers.
#pragma once

#include <span>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::sites {

double exact_distance(std::span<const Point3> one, std::span<const Point3> other);

/// True where the segment meets the triangle, flat or not, exactly.
bool exactly_meet(Point3 from, Point3 to, std::span<const Point3> triangle);

}  // namespace fairlead::sites
