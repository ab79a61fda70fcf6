// How a direction lies for those who turn something into it on site: by compass, by level, by the main line.
#pragma once

#include <optional>

#include "geometry/rig/rig.hpp"

namespace fairlead {

struct Lie {
  /// In plan, clockwise seen from above from the site's y axis (from north, where y is north): 0 to 2 pi. None where it
  /// stands upright.
  std::optional<double> bearing_rad;
  /// In plan, from the main line's direction toward the landing: positive to the left, -pi to pi. None likewise.
  std::optional<double> off_line_rad;
  double tilt_rad{};  ///< above level; negative below
};

/// Of a direction of any length > 0.
Lie lie_of(const Frame&, Vec3 direction);

/// Unit vector along an axle, out of the end that lies to the left looking toward the landing; of one that lies along
/// the main line out of its landing end, of an upright one out of its top.
Vec3 left_end(const Frame&, Vec3 axle);

}  // namespace fairlead
