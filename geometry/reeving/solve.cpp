#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/reeving/at_rest.hpp"
#include "geometry/reeving/schedule.hpp"
#include "geometry/reeving/sweep_poses.hpp"

namespace fairlead::reeving {
namespace {

/// Lengths at rest on every distinct reference, one a sweep.
Solved<std::vector<Outlet>> rest_outlets(const Inputs& in) {
  std::vector<Outlet> outlets;
  for (std::size_t i = 0; i < in.sweeps.size(); ++i) {
    const SweepInputs& sweep = in.sweeps[i];
    const auto same = std::find_if(in.sweeps.begin(), in.sweeps.begin() + static_cast<std::ptrdiff_t>(i),
                                   [&](const SweepInputs& s) { return s.reference == sweep.reference; });
    if (same != in.sweeps.begin() + static_cast<std::ptrdiff_t>(i)) {
      outlets.push_back(outlets[static_cast<std::size_t>(same - in.sweeps.begin())]);
      continue;
    }
    const auto outlet = rest_outlet(in, sweep.reference, sweep.trolley_weight_N);
    if (!outlet) return tl::unexpected(outlet.error());
    outlets.push_back(*outlet);
  }
  return outlets;
}

/// K of every sheave at its wrap in the rest position.
std::vector<double> friction_at(const Inputs& in, const Station& rest) {
  std::vector<double> friction;
  for (std::size_t i = 0; i < in.sheaves.size(); ++i) {
    const Sheave& s = in.sheaves[i];
    const double share =
        s.friction_wrap_rad > 0 ? std::sin(rest.lines.wrap_rad[i] / 2) / std::sin(s.friction_wrap_rad / 2) : 1;
    friction.push_back(1 + (s.friction - 1) * share);
  }
  return friction;
}

/// The empty trolley in every state, as measured first. `outlets`: one a sweep.
std::vector<RestPosition> rest_positions(const Inputs& in, const std::vector<Outlet>& outlets,
                                         const std::vector<double>& friction) {
  std::vector<SweepInputs> seen;
  std::vector<RestPosition> positions;
  for (const bool measured : {true, false})
    for (std::size_t i = 0; i < in.sweeps.size(); ++i) {
      const SweepInputs sweep = standing(in, static_cast<int>(i), measured);
      if (sweep.rider_weight_N > 0 || sweep.running != Running::at_rest || sweep.wind_Pa != Vec3{}) continue;
      if (measured) {
        if (std::find(seen.begin(), seen.end(), sweep) != seen.end()) continue;
        seen.push_back(sweep);
      }
      RestPosition position{.sweep = static_cast<int>(i), .measured = measured};
      if (const auto outlet = with_friction(in, sweep, outlets[i], friction))
        position.rest = rest_of(in, sweep, *outlet);
      else
        position.rest = tl::unexpected(outlet.error());
      positions.push_back(std::move(position));
    }
  return positions;
}

/// Solves the sweeps of one way of running, each into its own slot.
tl::expected<void, Unsolved> solve_all(const Inputs& in, bool paying_out, const std::vector<Outlet>& outlets,
                                       const std::vector<double>& friction, const Work& work,
                                       std::vector<Solved<Sweep>>& sweeps) {
  std::vector<int> wanted;
  for (std::size_t i = 0; i < in.sweeps.size(); ++i)
    if ((in.sweeps[i].running == Running::paying_out) == paying_out) wanted.push_back(static_cast<int>(i));
  for_each_index(work, static_cast<int>(wanted.size()), [&](int i) {
    const int index = wanted[static_cast<std::size_t>(i)];
    const auto i_sweep = static_cast<std::size_t>(index);
    const auto outlet = with_friction(in, in.sweeps[i_sweep], outlets[i_sweep], friction);
    sweeps[i_sweep] = outlet ? solve_sweep(in, index, *outlet) : tl::unexpected(outlet.error());
  });
  for (const int index : wanted)
    if (const auto& sweep = sweeps[static_cast<std::size_t>(index)]; !sweep) return tl::unexpected(sweep.error());
  return {};
}

struct Peak {
  double tension_N{}, line_speed_m_per_s{}, retraction_N{};
};

/// The most the unit can pull, from the solved sweeps that carry a rider: drag over every line speed up to the fastest
/// arrival at the greatest rate of paying out, on top of the greatest retraction on the way.
Peak peak_of(const Inputs& in, const std::vector<Solved<Sweep>>& sweeps) {
  double pay_out = 0, extension_m = 0;
  for (std::size_t i = 0; i < sweeps.size(); ++i) {
    if (!sweeps[i] || !(in.sweeps[i].rider_weight_N > 0)) continue;
    pay_out = greater(pay_out, sweeps[i]->greatest_pay_out);
    extension_m = greater(extension_m, sweeps[i]->greatest_extension_m.bound);
  }
  Peak peak;
  peak.line_speed_m_per_s = in.speed_m_per_s * pay_out;
  peak.retraction_N = in.unit.retraction_N.greatest(0, extension_m);
  peak.tension_N = in.unit.greatest_magnetic(peak.line_speed_m_per_s) + peak.retraction_N;
  return peak;
}

}  // namespace

Solved<Reeving> solve(const Inputs& in, const Work& work) {
  auto rested = rest_outlets(in);
  if (!rested) return tl::unexpected(rested.error());
  std::vector<Outlet> outlets = std::move(*rested);
  const auto rest = solve_rest(in, in.reference, in.sweeps.front().trolley_weight_N);
  if (!rest) return tl::unexpected(rest.error());
  const std::vector<double> friction = friction_at(in, *rest);
  for (const double K : friction)
    if (!(K >= 1)) return unsolved("the friction of a sheave is not known: K below 1, or a line that lifts off it", K);
  std::vector<Solved<Sweep>> sweeps(in.sweeps.size(), unsolved("not solved"));
  if (auto done = solve_all(in, false, outlets, friction, work, sweeps); !done) return tl::unexpected(done.error());

  // The peak tension lifts the trolley, which changes how fast it pays out, which changes the peak: until it no longer
  // grows. It may only grow, so that every sweep is solved at a tension it cannot exceed.
  Peak peak = peak_of(in, sweeps);
  constexpr int most_rounds = 20;
  for (int round = 0;; ++round) {
    if (!std::isfinite(peak.tension_N))
      return unsolved(
          "nothing bounds how fast the line is paid out between two poses, so nor its peak tension: on the way a leg "
          "hangs plumb or a floating block rolls over");
    if (round == most_rounds) return unsolved("the unit's peak tension does not settle", peak.tension_N, round);
    for (Outlet& outlet : outlets) outlet.held_tension_N.reset();
    for (std::size_t i = 0; i < outlets.size(); ++i)
      if (in.sweeps[i].running == Running::paying_out) outlets[i].held_tension_N = peak.tension_N;
    if (auto done = solve_all(in, true, outlets, friction, work, sweeps); !done) return tl::unexpected(done.error());
    const Peak next = peak_of(in, sweeps);
    if (next.tension_N <= peak.tension_N) break;
    peak = next;
    peak.tension_N *= 1 + 1e-6;  // so that the last rounds' crawl ends
  }

  Reeving reeving;
  for (Solved<Sweep>& sweep : sweeps) reeving.sweeps.push_back(std::move(*sweep));
  for (Outlet& outlet : outlets) outlet.held_tension_N.reset();
  reeving.rest = rest_positions(in, outlets, friction);
  reeving.resting_legs = resting_legs(in, reeving.sweeps);
  reeving.stretch = stretches(in, rest->lines, reeving.sweeps);
  reeving.peak_tension_N = peak.tension_N;
  reeving.peak_line_speed_m_per_s = peak.line_speed_m_per_s;
  reeving.retraction_at_full_N = peak.retraction_N;
  reeving.friction = friction;
  reeving.finished_length_m = rest->lines.length_m;
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    reeving.rest_tension_N.push_back(
        rest->lines.legs[in.legs_before(l) + static_cast<std::size_t>(in.lines[l].sheaves)].hang.to_tension_N());
  reeving.unloaded_length_m = rest->lines.unstretched_m;
  reeving.needed_m = lengths_needed(in, *rest, in.sweeps.front().trolley_weight_N);
  return reeving;
}

}  // namespace fairlead::reeving
