#include "geometry/reeving/at_rest.hpp"

#include <fmt/format.h>

#include <cmath>

namespace fairlead::reeving {
namespace {

/// Moves the mark until the rest extension is out. `at`: the pose at the mark, on return that where the mark went.
Solved<double> shift_of(Inputs in, const SweepInputs& sweep, const Outlet& outlet, Station at) {
  constexpr double close_m = 1e-10;
  constexpr int most_steps = 30;
  const double mark_m = in.rest_m;
  const auto no = [&](const std::string& why, int steps) {
    return unsolved(fmt::format("near its mark the trolley stands nowhere with {:.3f} m of line out of the unit: {}",
                                in.rest_extension_m, why),
                    at.pose.extension_m - in.rest_extension_m, steps);
  };
  for (int step = 0; step < most_steps; ++step) {
    const double over_m = at.pose.extension_m - in.rest_extension_m, shift_m = in.rest_m - mark_m;
    if (std::abs(over_m) <= close_m) return shift_m;
    if (!(at.pose.pay_out > 0)) return no(fmt::format("no line is paid out at travel {:.3f} m", shift_m), step);
    in.rest_m -= over_m / at.pose.pay_out;
    if (auto done = solve_pose(in, sweep, outlet, 0, at); !done) return no(done.error().why, step);
  }
  return no("its place does not settle", most_steps);
}

double hanging_m(const Leg& leg, Vec3 along) {
  const double load = norm(leg.load_N_per_m);
  return load > 0 ? leg.sag_m * std::abs(dot(leg.load_N_per_m, along)) / load : 0;
}

/// Of its greatest sag, what is square to the chord.
double square_m(const Leg& leg) {
  const Vec3 chord = leg.to - leg.from;
  const double load = norm(leg.load_N_per_m);
  return load > 0 ? leg.sag_m * norm(cross(leg.load_N_per_m, chord)) / (load * norm(chord)) : 0;
}

void take_deepest(const Inputs& in, const Sweep& sweep, int index, std::vector<RestingLeg>& legs) {
  for (std::size_t p = 0; p < sweep.poses.size() && sweep.poses[p].travel_m <= 0; ++p)
    for (std::size_t i = 0; i < legs.size(); ++i) {
      const Leg& leg = sweep.legs[p * legs.size() + i];
      RestingLeg& deepest = legs[i];
      const auto pose = static_cast<int>(p);
      if (sweep.in_wind) {
        const double blow_out_m = hanging_m(leg, in.across);
        if (deepest.wind_sweep >= 0 && !(blow_out_m > deepest.blow_out_m)) continue;
        deepest.wind_sweep = index;
        deepest.wind_pose = pose;
        deepest.blow_out_m = blow_out_m;
        continue;
      }
      if (deepest.sweep >= 0 && !(leg.sag_m > deepest.sag_m)) continue;
      deepest.sweep = index;
      deepest.pose = pose;
      deepest.length_m = leg.length_m;
      deepest.horizontal_N = leg.H_N;
      deepest.sag_m = leg.sag_m;
      deepest.square_sag_m = square_m(leg);
    }
}

/// Of a line at a pose.
double stretch_m(const Inputs& in, const Sweep& sweep, std::size_t pose, std::size_t line) {
  const Line& given = in.lines[line];
  double sum_N_m = 0;
  for (int k = 0; k <= given.sheaves; ++k) {
    const auto of_line = static_cast<std::size_t>(k);
    const Leg& leg = sweep.legs[pose * in.legs() + in.legs_before(line) + of_line];
    sum_N_m += leg.length_m * (leg.from_tension_N + leg.to_tension_N) / 2;
    if (k == given.sheaves) break;
    const std::size_t sheave = static_cast<std::size_t>(given.first_sheave) + of_line;
    const Turn& turn = sweep.turns[pose * in.sheaves.size() + sheave];
    sum_N_m += in.sheaves[sheave].radius_m * turn.wrap_rad * (turn.on_tension_N + turn.off_tension_N) / 2;
  }
  return sum_N_m * given.compliance_per_N;
}

}  // namespace

SweepInputs standing(const Inputs& in, int index, bool measured) {
  SweepInputs sweep = in.sweeps[static_cast<std::size_t>(index)];
  if (!measured) return sweep;
  sweep.state = sweep.reference;
  sweep.path = 0;
  return sweep;
}

Solved<Outlet> with_friction(const Inputs& in, const SweepInputs& sweep, Outlet outlet,
                             const std::vector<double>& friction) {
  if (sweep.friction == Friction::none) return outlet;
  const auto mark = solve_pose(in, sweep, outlet, 0);
  if (!mark) return tl::unexpected(mark.error());
  const std::vector<double> flow = flow_of(in, *mark);
  constexpr double stands_still = 1e-6;
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    for (int k = 0; k < in.lines[l].sheaves; ++k) {
      const auto s = static_cast<std::size_t>(in.lines[l].first_sheave + k);
      const double K = friction[s];
      if (K != 1 && !(std::abs(flow[s]) > stands_still))
        return unsolved(fmt::format("the line stands still over {}{}: friction has no direction there",
                                    end_name(in, static_cast<int>(l), k + 1), of_line(in, static_cast<int>(l))),
                        flow[s]);
      outlet.tension_ratio.push_back((flow[s] > 0) == (sweep.friction == Friction::paying_out) ? K : 1 / K);
    }
  return outlet;
}

Solved<Rest> rest_of(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet) {
  const auto mark = solve_pose(in, sweep, outlet, 0);
  if (!mark) return tl::unexpected(mark.error());
  const auto shift_m = shift_of(in, sweep, outlet, *mark);
  if (!shift_m) return tl::unexpected(shift_m.error());
  return Rest{mark->pose.extension_m, mark->pose.outlet_tension_N, mark->pose.trolley_tension_N, *shift_m};
}

std::vector<RestingLeg> resting_legs(const Inputs& in, const std::vector<Sweep>& sweeps) {
  std::vector<RestingLeg> legs(in.legs());
  for (std::size_t s = 0; s < sweeps.size(); ++s)
    if (sweeps[s].running == Running::at_rest) take_deepest(in, sweeps[s], static_cast<int>(s), legs);
  return legs;
}

std::vector<Stretch> stretches(const Inputs& in, const Reeved& rest, const std::vector<Sweep>& sweeps) {
  std::vector<Stretch> all;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    Stretch stretch{.at_rest_m = rest.length_m[l] - rest.unstretched_m[l]};
    for (std::size_t s = 0; s < sweeps.size(); ++s)
      for (std::size_t p = 0; p < sweeps[s].poses.size(); ++p) {
        const double here_m = stretch_m(in, sweeps[s], p, l);
        if (stretch.sweep >= 0 && !(here_m > stretch.greatest_m)) continue;
        stretch.greatest_m = here_m;
        stretch.sweep = static_cast<int>(s);
        stretch.pose = static_cast<int>(p);
      }
    all.push_back(stretch);
  }
  return all;
}

}  // namespace fairlead::reeving
