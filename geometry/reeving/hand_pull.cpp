#include "geometry/reeving/hand_pull.hpp"

#include <cmath>

namespace fairlead::reeving {
namespace {

Solved<double> held_at(const Inputs& in, const SweepInputs& sweep, const Solved<Outlet>& outlet, double travel_m) {
  if (!outlet) return tl::unexpected(outlet.error());
  const auto station = solve_pose(in, sweep, *outlet, travel_m);
  if (!station) return tl::unexpected(station.error());
  return along_track_N(in, station->pose);
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
      pulls.at.push_back({travel_m, held_at(in, sweep, outlet, travel_m)});
    all.push_back(std::move(pulls));
  }
  return all;
}

}  // namespace fairlead::reeving
