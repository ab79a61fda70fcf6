#include "geometry/layout/rider_shape.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fairlead {
namespace {

RiderShape shape_of(const Envelope& box) {
  RiderShape shape{{}, 0, box.sideways_rad};
  for (const double up : {-1 * box.below_m.value, box.above_m.value})
    for (const double across : {-0.5, 0.5})
      for (const double along : {-0.5, 0.5}) shape.corners.push_back({along * box.length_m, across * box.width_m, up});
  return shape;
}

// An eight-sided outline around a circle has its corners at tan(22.5 deg) of the radius from where its sides touch it:
// stretched per quarter it holds the quarter ellipses, and stood on edge the arms' sweep from straight out to straight
// up.
RiderShape shape_of(const RiderReach& reach) {
  const double corner = std::tan(std::numbers::pi / 8);
  RiderShape shape{{}, reach.margin_m, reach.sideways_rad};
  const auto outline = [&](double up_m, double size) {
    for (const double side : {-1., 1.})
      for (const double along_m : {-1 * reach.back_m.value, reach.forward_m.value})
        for (const auto& [x, y] : {std::pair{1., corner}, std::pair{corner, 1.}})
          shape.corners.push_back({size * x * along_m, size * y * side * reach.side_m, up_m});
  };
  const double arms_m = reach.up_m + reach.shoulders_m;
  outline(-reach.down_m, 1);
  outline(corner * arms_m - reach.shoulders_m, 1);
  outline(reach.up_m, corner);
  return shape;
}

RiderShape shape_of(const RiderBody& body) { return {*body.corners, body.margin_m + body.beyond_m, body.sideways_rad}; }

}  // namespace

std::optional<RiderShape> shape_of(const Riders& riders) {
  if (riders.envelope) return shape_of(*riders.envelope);
  if (riders.reach) return shape_of(*riders.reach);
  if (riders.body) return shape_of(*riders.body);
  return std::nullopt;
}

RiderExtents box_around(const RiderShape& shape) {
  RiderExtents box{0, 0, -HUGE_VAL, -HUGE_VAL};
  for (const Vec3& c : shape.corners) {
    box.width_m = std::max(box.width_m, 2 * (std::abs(c.y) + shape.margin_m));
    box.length_m = std::max(box.length_m, 2 * (std::abs(c.x) + shape.margin_m));
    box.above_m = std::max(box.above_m, c.z + shape.margin_m);
    box.below_m = std::max(box.below_m, shape.margin_m - c.z);
  }
  return box;
}

}  // namespace fairlead
