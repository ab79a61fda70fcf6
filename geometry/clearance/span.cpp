#include "geometry/clearance/span.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/reeving/wheels_between.hpp"

namespace fairlead::clearance {
namespace {

/// From the push-off up to the place where the sweep begins; only that where the push-off is no nearer.
std::vector<double> places_to(double push_off_m, double begins_m, double resolution_m) {
  constexpr double usual_m = 5e-3;
  const double step_m = std::sqrt(resolution_m / usual_m), of_the_way = 0.1 * std::min(1., step_m);
  std::vector<double> places{begins_m};
  for (double x = begins_m; x > push_off_m;) {
    x = std::max(push_off_m, x - std::min(step_m, of_the_way * x));
    places.push_back(x);
  }
  std::reverse(places.begin(), places.end());
  return places;
}

/// The line under the rider at one place after the other, and how far the wheels stray to the next.
class Approach {
 public:
  Approach(const mainline::Cable& cable, double rider_N, mainline::Load trolley)
      : cable_(cable), rider_N_(rider_N), trolley_(trolley) {}

  struct Place {
    mainline::Shape shape;
    reeving::WheelsStray stray;
  };
  std::vector<Place> places;

  /// On to x_m; where nothing is proven of the way there, by its middle.
  tl::expected<void, Unsolved> go_to(double x_m, int halvings = 6) {
    const mainline::Load loads[] = {{x_m, rider_N_}, trolley_};
    const auto shape = mainline::hang_rolling(cable_, loads, places.empty() ? nullptr : &places.back().shape);
    if (!shape) return tl::unexpected(shape.error());
    if (!places.empty()) {
      Place& last = places.back();
      last.stray = reeving::wheels_between(cable_, last.shape, *shape);
      if (!std::isfinite(last.stray.wheel_m[0] + last.stray.wheel_m[1]) && halvings > 0) {
        const double middle_m = (last.shape.wheels[0].x_m + x_m) / 2;
        if (auto gone = go_to(middle_m, halvings - 1); !gone) return gone;
        return go_to(x_m, halvings - 1);
      }
    }
    places.push_back({*shape, {}});
    return {};
  }

 private:
  const mainline::Cable& cable_;
  double rider_N_;
  mainline::Load trolley_;
};

}  // namespace

Solved<WholeSpan> whole_span(const Inputs& in, const reeving::Inputs& rig, const reeving::Sweep& sweep,
                             const reeving::SweepInputs& given) {
  WholeSpan whole{{.running = sweep.running}};
  const bool at_rest = sweep.running == reeving::Running::at_rest;
  const std::size_t first = at_rest ? 0 : static_cast<std::size_t>(sweep.rest_pose);
  if (first >= sweep.poses.size()) return unsolved("a passage has no pose");
  const reeving::Pose& begins = sweep.poses[first];
  if (at_rest && given.rider_weight_N > 0 && begins.travel_m < 0 && in.push_off_m > 0) {
    const double begins_m = dot(begins.rider - rig.origin, rig.along);
    Approach approach(given.state.cable, given.rider_weight_N,
                      {rig.rest_m, given.trolley_weight_N - dot(begins.pull_on_trolley_N, rig.up)});
    for (const double x_m : places_to(in.push_off_m, begins_m, in.resolution_m))
      if (const auto gone = approach.go_to(x_m); !gone) return tl::unexpected(gone.error());
    for (const auto& [shape, stray] : approach.places) {
      const auto place = [&](const mainline::Wheel& wheel) {
        return rig.origin + wheel.x_m * rig.along + wheel.z_m * rig.up;
      };
      if (&shape == &approach.places.back().shape) break;  // the sweep's own
      reeving::Pose pose;
      pose.travel_m = shape.wheels[0].x_m - rig.rest_m;
      pose.rider = place(shape.wheels[0]);
      pose.trolley = place(shape.wheels[1]);
      pose.pull_on_trolley_N = begins.pull_on_trolley_N;
      whole.sweep.poses.push_back(pose);
      whole.sweep.strays.push_back(
          {.trolley_m = stray.wheel_m[1], .rider_m = stray.wheel_m[0], .blocks_m = {}, .legs_m = {}});
    }
  }
  whole.added = static_cast<int>(whole.sweep.poses.size());
  const auto at = static_cast<std::ptrdiff_t>(first);
  whole.sweep.poses.insert(whole.sweep.poses.end(), sweep.poses.begin() + at, sweep.poses.end());
  whole.sweep.strays.insert(whole.sweep.strays.end(), sweep.strays.begin() + at, sweep.strays.end());
  return whole;
}

}  // namespace fairlead::clearance
