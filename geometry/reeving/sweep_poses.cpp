#include "geometry/reeving/sweep_poses.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace fairlead::reeving {
namespace {

constexpr double least_step_m = 1e-3;
/// Steps of travel in lengths resolved, and in angles of the first leg: 0.5 m and 0.1 rad at 20 mm. The bounds here
/// need no more; but whoever bounds something else between poses, or draws, gains by halving the resolution.
constexpr double longest_step = 25, widest_step_per_m = 5;

/// Travels from the upstream beginning through 0 to full travel, no step longer than that.
std::vector<double> even_travels(double upstream_m, double travel_m, double step_m) {
  const auto steps = [step_m](double length) { return static_cast<int>(std::ceil(length / step_m)); };
  std::vector<double> travels;
  const int before = steps(-upstream_m), after = steps(travel_m);
  for (int i = 0; i < before; ++i) travels.push_back(upstream_m * (before - i) / before);
  for (int i = 0; i <= after; ++i) travels.push_back(travel_m * i / after);
  return travels;
}

struct Seen {
  std::vector<double> fleet_rad;
  double lead_rad = 0, greatest_pay_out = -std::numeric_limits<double>::infinity(), least_pay_out = -greatest_pay_out,
         extension_m = greatest_pay_out;
};

Seen look(const std::vector<Station>& stations) {
  Seen seen;
  seen.fleet_rad.assign(stations.front().lines.wrap_rad.size(), 0);
  for (const Station& s : stations) {
    for (std::size_t i = 0; i < seen.fleet_rad.size(); ++i)
      seen.fleet_rad[i] = std::max(seen.fleet_rad[i], s.fleet_rad[i]);
    seen.lead_rad = std::max(seen.lead_rad, s.pose.lead_rad);
    seen.extension_m = std::max(seen.extension_m, s.pose.extension_m);
    if (s.pose.travel_m < 0) continue;
    seen.least_pay_out = std::min(seen.least_pay_out, s.pose.pay_out);
    seen.greatest_pay_out = std::max(seen.greatest_pay_out, s.pose.pay_out);
  }
  return seen;
}

/// How many times the resolution the bounds of an interval stand above what all poses show; at most 1 is good enough. A
/// metre of travel that pays out wrong by the length resolution is as good as a length wrong by it, so that is the
/// resolution of the pay-out.
double coarseness(const Inputs& in, const Seen& seen, const Station& a, const Between& gap) {
  const double length_m = in.length_resolution_m, pay_out = in.length_resolution_m;
  double worst = 0;
  const auto count = [&](double excess, double resolution) {
    if (!(excess / resolution <= worst)) worst = excess / resolution;
  };
  count(gap.lead_rad - seen.lead_rad, in.angle_resolution_rad);
  for (std::size_t i = 0; i < seen.fleet_rad.size(); ++i)
    count(gap.fleet_rad[i] - seen.fleet_rad[i], in.angle_resolution_rad);
  count(gap.stray.trolley_m, length_m);
  for (const double stray_m : gap.stray.blocks_m) count(stray_m, length_m);
  for (const double stray_m : gap.stray.legs_m) count(stray_m, length_m);
  if (a.pose.travel_m < 0) {
    count(gap.extension_m.high - seen.extension_m, length_m);
  } else {
    count(seen.least_pay_out - gap.pay_out.low, pay_out);
    count(gap.pay_out.high - seen.greatest_pay_out, pay_out);
  }
  return worst;
}

/// Whether the first leg turns by more than a step may.
bool turns_far(const Inputs& in, const Station& a, const Station& b) {
  const double leg_m = a.lines.legs[in.legs_before(static_cast<std::size_t>(in.pulling))].hang.length_m;
  return norm(b.pose.attachment - a.pose.attachment) > widest_step_per_m * in.length_resolution_m * leg_m;
}

/// The poses a sweep begins with.
Solved<std::vector<Station>> walk(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet) {
  std::vector<Station> stations, ahead;
  const bool with_rider = sweep.rider_weight_N > 0 && sweep.running == Running::at_rest;
  for (const double travel_m :
       even_travels(with_rider ? in.upstream_m : 0, in.travel_m, longest_step * in.length_resolution_m)) {
    for (double next_m = travel_m;;) {
      const bool warm = !stations.empty() && (stations.back().pose.travel_m < 0) == (next_m < 0);
      auto station = solve_pose(in, sweep, outlet, next_m, warm ? &stations.back() : nullptr);
      if (!station) return tl::unexpected(station.error());
      ahead.push_back(std::move(*station));
      // As far as the leg has turned little; else a pose half way first.
      while (!ahead.empty()) {
        const double step_m = stations.empty() ? 0 : ahead.back().pose.travel_m - stations.back().pose.travel_m;
        if (step_m > least_step_m && stations.size() + ahead.size() < most_poses &&
            turns_far(in, stations.back(), ahead.back())) {
          next_m = stations.back().pose.travel_m + step_m / 2;
          break;
        }
        stations.push_back(std::move(ahead.back()));
        ahead.pop_back();
      }
      if (ahead.empty()) break;
    }
  }
  return stations;
}

}  // namespace

Solved<Passage> pass(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet) {
  auto walked = walk(in, sweep, outlet);
  if (!walked) return tl::unexpected(walked.error());
  Passage passage;
  std::vector<Station>& stations = passage.stations;
  stations = std::move(*walked);
  const auto bound = [&](const Station& a, const Station& b) { return between(in, sweep, outlet, a, b); };
  for (std::size_t p = 0; p + 1 < stations.size(); ++p) passage.gaps.push_back(bound(stations[p], stations[p + 1]));
  // Halve every interval that is too coarse, all of a round at once: the poses do not depend on the order. Bounds that
  // halving no longer narrows (those of the main line's stiffness keep a percent or so) are left as they are.
  constexpr double unhalved = std::numeric_limits<double>::infinity(), narrows = 0.8;
  std::vector<double> before(passage.gaps.size(), unhalved);
  for (bool halved = true; halved;) {
    halved = false;
    const Seen seen = look(stations);
    Passage finer;
    std::vector<double> finer_before;
    for (std::size_t p = 0; p < stations.size(); ++p) {
      finer.stations.push_back(std::move(stations[p]));
      if (p + 1 == stations.size()) break;
      const Station &a = finer.stations.back(), &b = stations[p + 1];
      const double step_m = b.pose.travel_m - a.pose.travel_m, coarse = coarseness(in, seen, a, passage.gaps[p]);
      if (coarse <= 1 || (coarse > narrows * before[p] && before[p] < unhalved) || step_m <= least_step_m ||
          stations.size() >= most_poses) {
        finer.gaps.push_back(std::move(passage.gaps[p]));
        finer_before.push_back(before[p]);
        continue;
      }
      auto station = solve_pose(in, sweep, outlet, a.pose.travel_m + step_m / 2, &a);
      if (!station) return tl::unexpected(station.error());
      finer.gaps.push_back(bound(a, *station));
      finer.gaps.push_back(bound(*station, b));
      finer.stations.push_back(std::move(*station));
      finer_before.insert(finer_before.end(), 2, coarse);
      halved = true;
    }
    passage = std::move(finer);
    before = std::move(finer_before);
  }
  // A held tension is the most the unit could pull anywhere; where it takes out more sag than there is line in the
  // unit, the unit simply never pulls so hard.
  for (const Station& station : stations)
    if (!outlet.held_tension_N && !(station.pose.extension_m >= 0))
      return unsolved(fmt::format("at travel {:.3f} m the line would have to run {:.3f} m into the brake unit: it is "
                                  "slack there; a greater brake_unit.rest_extension keeps it taut",
                                  station.pose.travel_m, -station.pose.extension_m),
                      station.pose.extension_m);
  return passage;
}

}  // namespace fairlead::reeving
