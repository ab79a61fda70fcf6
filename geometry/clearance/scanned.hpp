// Pieces of what moves against scans.
#pragma once

#include <limits>
#include <span>

#include "geometry/sites/site.hpp"
#include "geometry/solids/hull.hpp"

namespace fairlead::clearance {

using solids::nearest;

/// Infinitely far where the scan is nowhere within within_m; 0 where they meet, however deep.
solids::Nearest nearest(const solids::Segment&, const sites::Site&,
                        double within_m = std::numeric_limits<double>::infinity());
solids::Nearest nearest(const solids::Box&, const sites::Site&,
                        double within_m = std::numeric_limits<double>::infinity());
solids::Nearest nearest(const solids::Hull&, const sites::Site&,
                        double within_m = std::numeric_limits<double>::infinity());
/// Of the hull of corners.
solids::Nearest nearest(std::span<const Point3> corners, const sites::Site&, double within_m);

}  // namespace fairlead::clearance
