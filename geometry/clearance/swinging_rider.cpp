#include <algorithm>
#include <cmath>

#include "geometry/clearance/movers.hpp"

namespace fairlead::clearance {
namespace {

/// Angles from one to another, so many that what turns at radius_m leaves the chords between them by no more than
/// bulge_m, unless that takes more than most_chords.
std::vector<double> turns(double from_rad, double to_rad, double radius_m, double bulge_m) {
  const double range = to_rad - from_rad;
  if (!(range > 0)) return {from_rad};
  const double widest = radius_m > bulge_m ? 2 * std::acos(1 - bulge_m / radius_m) : range;
  const int steps = static_cast<int>(std::clamp(std::ceil(range / widest), 1., double{most_chords}));
  std::vector<double> all;
  for (int i = 0; i <= steps; ++i) all.push_back(from_rad + range * i / steps);
  return all;
}

double bulge(const std::vector<double>& turns, double radius_m) {
  return turns.size() < 2 ? 0 : radius_m * (1 - std::cos((turns[1] - turns[0]) / 2));
}

}  // namespace

// First the lean sideways, about the line's direction, then the one along it. A hull holds two neighbouring leans along
// the line and all sideways: one of them all would reach far above a rider who leans forward.
MovingHulls swinging_rider(const Passage& passage) {
  const Envelope& reach = *passage.inputs.rider;
  const Swing swing = passage.inputs.swing.value_or(Swing{});
  const reeving::Inputs& rig = passage.rig;
  const bool in_contact = passage.sweep.running != reeving::Running::at_rest;
  const double half_length_m = reach.length_m / 2, half_width_m = reach.width_m / 2;
  const double farthest_m = std::max(std::abs(reach.above_m), std::abs(reach.below_m));
  const double wide_m = std::hypot(half_width_m, farthest_m), long_m = std::hypot(half_length_m, wide_m);
  const double bulge_m = chord_share * passage.inputs.resolution_m / 2;
  const std::vector<double> sideways = turns(-swing.sideways_rad, swing.sideways_rad, wide_m, bulge_m),
                            onward = in_contact ? turns(-swing.back_rad, swing.forward_rad, long_m, bulge_m)
                                                : std::vector<double>{0};
  const auto add_leaning = [&](double lean, std::vector<Vec3>& corners) {
    for (const double side : sideways)
      for (const double across : {-half_width_m, half_width_m})
        for (const double up : {-reach.below_m, reach.above_m})
          for (const double along : {-half_length_m, half_length_m}) {
            const double y = across * std::cos(side) - up * std::sin(side),
                         z = across * std::sin(side) + up * std::cos(side);
            const double x = along * std::cos(lean) - z * std::sin(lean),
                         top = along * std::sin(lean) + z * std::cos(lean);
            corners.push_back(x * rig.along + y * rig.across + top * rig.up);
          }
  };
  std::vector<std::vector<Vec3>> hulls(std::max<std::size_t>(1, onward.size() - 1));
  for (std::size_t i = 0; i < hulls.size(); ++i)
    for (std::size_t k = i; k < std::min(i + 2, onward.size()); ++k) add_leaning(onward[k], hulls[i]);
  std::vector<Point3> at;
  for (int i = 0; i < passage.poses; ++i) at.push_back(passage.pose(i).rider);
  MovingHulls rider(std::move(hulls), std::move(at));
  rider.slack_m = bulge(sideways, wide_m) + bulge(onward, long_m);
  for (int i = 0; i + 1 < passage.poses; ++i) rider.stray_m.push_back(passage.stray(i).rider_m);
  return rider;
}

}  // namespace fairlead::clearance
