#include "geometry/studies/lie.hpp"

#include <numbers>

namespace fairlead {
namespace {

/// Of a unit vector: what rounding leaves of a direction that was written square to another.
constexpr double nothing = 1e-9;

}  // namespace

Lie lie_of(const Frame& frame, Vec3 direction) {
  const Vec3 d = unit(direction);
  const double level = std::hypot(d.x, d.y);
  Lie lie;
  lie.tilt_rad = std::atan2(d.z, level);
  if (!(level > nothing)) return lie;
  const double bearing = std::atan2(d.x, d.y);
  lie.bearing_rad = bearing < 0 ? bearing + 2 * std::numbers::pi : bearing;
  lie.off_line_rad = std::atan2(dot(d, frame.across), dot(d, frame.along));
  return lie;
}

Vec3 left_end(const Frame& frame, Vec3 axle) {
  const Vec3 d = unit(axle);
  for (const Vec3 toward : {frame.across, frame.along, frame.up})
    if (const double share = dot(d, toward); std::abs(share) > nothing) return share > 0 ? d : -d;
  return d;
}

}  // namespace fairlead
