#include "geometry/clearance/rider_drawn.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/clearance/movers.hpp"

namespace fairlead::clearance {

std::vector<std::vector<Point3>> leaning_rider(const Inputs& in, const reeving::Inputs& rig, reeving::Running running,
                                               double travel_m, Point3 wheel) {
  if (!in.rider) return {};
  const Swing swing = in.swing.value_or(Swing{});
  Leans leans;
  if (running != reeving::Running::at_rest) {
    const double last = static_cast<double>(swing.leans.size()) - 1;
    leans = swing.leans[static_cast<std::size_t>(std::clamp(std::floor(travel_m / swing.step_m), 0., last))];
  }
  // A ball about each corner, by the directions of a cube's faces and corners.
  std::vector<Vec3> about{{}};
  if (in.rider->margin_m > 0)
    for (const double x : {-1., 0., 1.})
      for (const double y : {-1., 0., 1.})
        for (const double z : {-1., 0., 1.})
          if (const Vec3 way{x, y, z}; !(way == Vec3{})) about.push_back(in.rider->margin_m * unit(way));
  const int steps = leans.forward_rad > leans.back_rad ? 4 : 0, sides = swing.sideways_rad > 0 ? 4 : 0;
  std::vector<std::vector<Point3>> all;
  for (int k = 0; k <= steps; ++k) {
    const double lean = steps > 0 ? leans.back_rad + (leans.forward_rad - leans.back_rad) * k / steps : 0;
    std::vector<Point3>& corners = all.emplace_back();
    for (int s = 0; s <= sides; ++s) {
      const double side = sides > 0 ? swing.sideways_rad * (2. * s / sides - 1) : 0;
      for (const Vec3& c : corners_of(*in.rider))
        for (const Vec3& off : about) {
          const double y = c.y * std::cos(side) - c.z * std::sin(side), z = c.y * std::sin(side) + c.z * std::cos(side);
          const double x = c.x * std::cos(lean) - z * std::sin(lean), up = c.x * std::sin(lean) + z * std::cos(lean);
          corners.push_back(wheel + (x + off.x) * rig.along + (y + off.y) * rig.across + (up + off.z) * rig.up);
        }
    }
  }
  return all;
}

}  // namespace fairlead::clearance
