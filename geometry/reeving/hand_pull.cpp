#include "geometry/reeving/hand_pull.hpp"

#include <cmath>

namespace fairlead::reeving {
namespace {

HandPull held_at(const Inputs& in, const SweepInputs& sweep, const Solved<Outlet>& outlet, double travel_m) {
  HandPull held{.travel_m = travel_m};
  const auto refuse = [&](const Unsolved& why) {
    held.along_N = tl::unexpected(why);
    return held;
  };
  if (!outlet) return refuse(outlet.error());
  const auto station = solve_pose(in, sweep, *outlet, travel_m);
  if (!station) return refuse(station.error());
  const Pose& pose = station->pose;
  held.along_N = along_track_N(in, pose);
  held.presses_N = (sweep.trolley_weight_N - dot(pose.pull_on_trolley_N, in.up)) * std::cos(pose.tau_rad) +
                   dot(pose.pull_on_trolley_N, in.along) * std::sin(pose.tau_rad);
  return held;
}

Solved<Outlet> outlet_of(const Inputs& in, const SweepInputs& sweep, const std::vector<double>& friction) {
  const auto settled = rest_outlet(in, sweep.reference, sweep.trolley_weight_N);
  if (!settled) return tl::unexpected(settled.error());
  return with_friction(in, sweep, *settled, friction);
}

}  // namespace

double along_track_N(const Inputs& in, const Pose& pose) {
  return dot(pose.hold_N, std::cos(pose.tau_rad) * in.along + std::sin(pose.tau_rad) * in.up);
}

std::vector<HandPulls> hand_pulls(const Inputs& in, const Reeving& reeving) {
  std::vector<HandPulls> all;
  for (std::size_t i = 0; i < reeving.rest.size(); ++i) {
    const SweepInputs sweep = standing(in, reeving.rest[i].sweep, reeving.rest[i].measured);
    const auto outlet = outlet_of(in, sweep, reeving.friction);
    HandPulls pulls{.position = static_cast<int>(i), .friction = sweep.friction, .at = {}};
    for (const double travel_m : {0.0, in.travel_m / 2, in.travel_m})
      pulls.at.push_back(held_at(in, sweep, outlet, travel_m));
    all.push_back(std::move(pulls));
  }
  return all;
}

}  // namespace fairlead::reeving
