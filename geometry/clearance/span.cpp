#include "geometry/clearance/span.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/clearance/blown.hpp"

namespace fairlead::clearance {
namespace {

/// From the push-off up to, and without, the place where the sweep begins.
std::vector<double> places_before(double push_off_m, double begins_m, double resolution_m) {
  constexpr double usual_m = 5e-3, of_the_way = 0.1;
  const double step_m = std::sqrt(resolution_m / usual_m);
  std::vector<double> places;
  for (double x = begins_m; x > push_off_m;) {
    x = std::max(push_off_m, x - std::min(step_m, of_the_way * x));
    places.push_back(x);
  }
  std::reverse(places.begin(), places.end());
  return places;
}

}  // namespace

Solved<WholeSpan> whole_span(const Inputs& in, const reeving::Inputs& rig, const reeving::Sweep& sweep,
                             const reeving::SweepInputs& given) {
  WholeSpan whole{{.running = sweep.running}};
  const bool at_rest = sweep.running == reeving::Running::at_rest;
  const std::size_t first = at_rest ? 0 : static_cast<std::size_t>(sweep.rest_pose);
  if (first >= sweep.poses.size()) return unsolved("a passage has no pose");
  const reeving::Pose& begins = sweep.poses[first];
  const auto along_m = [&](Point3 p) { return dot(p - rig.origin, rig.along); };
  if (at_rest && given.rider_weight_N > 0 && begins.travel_m < 0 && in.push_off_m > 0) {
    std::optional<mainline::Shape> near;
    for (const double x_m : places_before(in.push_off_m, along_m(begins.rider), in.resolution_m)) {
      const mainline::Load loads[2] = {{x_m, given.rider_weight_N},
                                       {rig.rest_m, given.trolley_weight_N - dot(begins.pull_on_trolley_N, rig.up)}};
      const auto shape = mainline::hang_rolling(given.state.cable, loads, near ? &*near : nullptr);
      if (!shape) return tl::unexpected(shape.error());
      near = *shape;
      const auto place = [&](const mainline::Wheel& wheel) {
        return rig.origin + wheel.x_m * rig.along + wheel.z_m * rig.up;
      };
      reeving::Pose pose;
      pose.travel_m = x_m - rig.rest_m;
      pose.rider = place(shape->wheels[0]);
      pose.trolley = place(shape->wheels[1]);
      pose.pull_on_trolley_N = begins.pull_on_trolley_N;
      whole.sweep.poses.push_back(pose);
    }
  }
  whole.added = static_cast<int>(whole.sweep.poses.size());
  const auto at = static_cast<std::ptrdiff_t>(first);
  whole.sweep.poses.insert(whole.sweep.poses.end(), sweep.poses.begin() + at, sweep.poses.end());
  if (whole.added > 0) {
    std::vector<double> travels_m;
    std::vector<Vec3> riders, trolleys;
    for (const reeving::Pose& pose : whole.sweep.poses) {
      travels_m.push_back(pose.travel_m);
      riders.push_back(pose.rider - rig.origin);
      trolleys.push_back(pose.trolley - rig.origin);
    }
    const std::vector<double> rider_m = bends_m(travels_m, riders), trolley_m = bends_m(travels_m, trolleys);
    for (std::size_t i = 0; i < static_cast<std::size_t>(whole.added); ++i)
      whole.sweep.strays.push_back({.trolley_m = trolley_m[i], .rider_m = rider_m[i], .blocks_m = {}, .legs_m = {}});
  }
  whole.sweep.strays.insert(whole.sweep.strays.end(), sweep.strays.begin() + at, sweep.strays.end());
  return whole;
}

}  // namespace fairlead::clearance
