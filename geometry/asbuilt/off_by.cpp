#include <cmath>

#include "geometry/asbuilt/as_built.hpp"

namespace fairlead {

Vec3 off_by(const AsBuilt& as_built, std::size_t point) {
  const Frame& frame = as_built.design.rig.frame;
  const PlacedPoint& placed = as_built.placing.points.at(point);
  const Vec3 off = placed.at - placed.design;
  return {dot(off, frame.along), dot(off, frame.across), dot(off, frame.up)};
}

Verdict in_box(const AsBuilt& as_built, std::size_t point) {
  constexpr double guard = 1.645;
  const int mark = as_built.placing.points.at(point).mark;
  if (!as_built.placement || !as_built.placement->box || mark < 0) return Verdict::not_judged;
  // What was not measured is within nothing, though it be said to stand as drawn.
  if (!as_built.placing.doubt.empty() || as_built.placing.points.at(point).held) return Verdict::undetermined;
  const auto allowed_m = as_built.placement->allowed_m(static_cast<std::size_t>(mark));
  const Vec3 by = off_by(as_built, point), u = as_built.place_uncertainty_m.at(point);
  const double off_m[] = {std::abs(by.x), std::abs(by.y), std::abs(by.z)}, u_m[] = {u.x, u.y, u.z};
  bool within = true, outside = false, any = false;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if (!allowed_m[axis]) continue;
    any = true;
    within = within && off_m[axis] + guard * u_m[axis] <= *allowed_m[axis];
    outside = outside || off_m[axis] - guard * u_m[axis] > *allowed_m[axis];
  }
  if (!any) return Verdict::not_judged;
  return within ? Verdict::pass : outside ? Verdict::fail : Verdict::undetermined;
}

}  // namespace fairlead
