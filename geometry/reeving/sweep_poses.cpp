#include "geometry/reeving/sweep_poses.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/reeving/between.hpp"

namespace fairlead::reeving {
namespace {

constexpr double first_step_m = 1.0, least_step_m = 1e-3;

/// Travels from the upstream beginning through 0 to full travel, no step longer than first_step_m.
std::vector<double> even_travels(double upstream_m, double travel_m) {
  const auto steps = [](double length) { return static_cast<int>(std::ceil(length / first_step_m)); };
  std::vector<double> travels;
  const int before = steps(-upstream_m), after = steps(travel_m);
  for (int i = 0; i < before; ++i) travels.push_back(upstream_m * (before - i) / before);
  for (int i = 0; i <= after; ++i) travels.push_back(travel_m * i / after);
  return travels;
}

struct Seen {
  std::vector<double> fleet_rad;
  double least_pay_out = std::numeric_limits<double>::infinity(), extension_m = -least_pay_out;
};

Seen look(const std::vector<Station>& stations) {
  Seen seen;
  seen.fleet_rad.assign(stations.front().line.wrap_rad.size(), 0);
  for (const Station& s : stations) {
    for (std::size_t i = 0; i < seen.fleet_rad.size(); ++i)
      seen.fleet_rad[i] = std::max(seen.fleet_rad[i], s.fleet_rad[i]);
    if (s.pose.travel_m >= 0) seen.least_pay_out = std::min(seen.least_pay_out, s.pose.pay_out);
    seen.extension_m = std::max(seen.extension_m, s.pose.extension_m);
  }
  return seen;
}

/// How many times the resolution the bounds of an interval stand above what all poses show; at most 1 is good enough.
double coarseness(const Inputs& in, const Seen& seen, const Station& a, const Station& b) {
  const Between gap = between(in, a, b);
  double worst = 0;
  for (std::size_t i = 0; i < seen.fleet_rad.size(); ++i)
    worst = std::max(worst, (gap.fleet_rad[i] - seen.fleet_rad[i]) / in.angle_resolution_rad);
  worst = std::max(worst, 2 * gap.up_m * (a.pose.travel_m < 0 ? 1 : 0) / in.length_resolution_m);
  if (a.pose.travel_m >= 0) {
    // A pay-out is known well enough when its sign is: a quarter of what the poses show.
    worst =
        std::max(worst, (seen.least_pay_out - gap.pay_out.low) / std::max(0.25 * std::abs(seen.least_pay_out), 1e-3));
    const double high = std::max(std::abs(a.pose.pay_out), std::abs(b.pose.pay_out));
    worst = std::max(worst, (gap.pay_out.high - high) / std::max(0.05 * high, 1e-3));
  }
  return worst;
}

}  // namespace

Solved<std::vector<Station>> solve_stations(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet) {
  std::vector<Station> stations;
  const bool with_rider = sweep.rider_weight_N > 0 && sweep.running == Running::at_rest;
  for (const double travel_m : even_travels(with_rider ? in.upstream_m : 0, in.travel_m)) {
    const bool warm = !stations.empty() && (stations.back().pose.travel_m < 0) == (travel_m < 0);
    auto station = solve_pose(in, sweep, outlet, travel_m, warm ? &stations.back() : nullptr);
    if (!station) return tl::unexpected(station.error());
    stations.push_back(std::move(*station));
  }
  // Halve every interval that is too coarse, all of a round at once: the poses do not depend on the order.
  for (bool halved = true; halved;) {
    halved = false;
    const Seen seen = look(stations);
    std::vector<Station> finer;
    for (std::size_t p = 0; p < stations.size(); ++p) {
      finer.push_back(stations[p]);
      if (p + 1 == stations.size()) break;
      const Station &a = stations[p], &b = stations[p + 1];
      const double step_m = b.pose.travel_m - a.pose.travel_m;
      if (step_m <= least_step_m || coarseness(in, seen, a, b) <= 1) continue;
      auto station = solve_pose(in, sweep, outlet, a.pose.travel_m + step_m / 2, &a);
      if (!station) return tl::unexpected(station.error());
      finer.push_back(std::move(*station));
      halved = true;
    }
    stations = std::move(finer);
  }
  // A held tension is the most the unit could pull anywhere; where it takes out more sag than there is line in the unit,
  // the unit simply never pulls so hard.
  for (const Station& station : stations)
    if (!outlet.held_tension_N && !(station.pose.extension_m >= 0))
      return unsolved(fmt::format("at travel {:.3f} m the line would have to run {:.3f} m into the brake unit: it is "
                                  "slack there; a greater brake_unit.rest_extension keeps it taut",
                                  station.pose.travel_m, -station.pose.extension_m),
                      station.pose.extension_m);
  return stations;
}

}  // namespace fairlead::reeving
