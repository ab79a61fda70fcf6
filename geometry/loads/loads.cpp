#include "geometry/loads/loads.hpp"

#include <fmt/format.h>
#include <algorithm>

#include "geometry/loads/balance.hpp"
#include "geometry/mainline/names.hpp"
#include "geometry/mainline/worst.hpp"

namespace fairlead::loads {
namespace {

constexpr double closes = 1e-9;  ///< of the largest force: rounding of some hundred terms, not a force left out

/// How far the force on an anchor may rise above its greater end between two neighbouring poses: half the way at
/// the greatest rate. A leg of length l at tension T, one end moving by d, turns by at most d / (l - d), and its
/// own weight changes by w d (NOTATION.md, "Between poses").
double rise_between_N(const Inputs& in, int anchor, const reeving::Inputs& reeving, const reeving::Sweep& sweep,
                      std::size_t p) {
  const std::size_t sheaves = reeving.sheaves.size();
  const double moved_m = norm(sweep.poses[p + 1].attachment - sweep.poses[p].attachment);
  double rise_N = 0;
  for (std::size_t i = 0; i < sheaves; ++i) {
    if (in.sheave_anchor[i] != anchor) continue;
    const reeving::Leg &a = sweep.legs[p * (sheaves + 1) + i], &b = sweep.legs[(p + 1) * (sheaves + 1) + i];
    const double end_moves_m = i == 0 ? moved_m : norm(b.from - a.from) + norm(b.to - a.to);
    const double l = std::min(a.length_m, b.length_m);
    const double T = std::max({a.from_tension_N, a.to_tension_N, b.from_tension_N, b.to_tension_N});
    rise_N += l > end_moves_m
                  ? 0.5 * (T * end_moves_m / (l - end_moves_m) + reeving.lines.front().weight_N_per_m * end_moves_m)
                  : std::numeric_limits<double>::infinity();
  }
  return rise_N;
}

struct Worst {
  double force_N = -1, bound_N = 0;
  int sweep = -1, pose = -1;
};

class Accounts {
 public:
  Accounts(const Inputs& in, const mainline::MainLine& main_line, const reeving::Inputs& reeving_in,
           const reeving::Reeving& reeved)
      : in_(in), main_line_(main_line), reeving_in_(reeving_in), reeved_(reeved), worst_(in.anchors.size()) {}

  void walk_all_poses();
  Solved<Loads> close() &&;

 private:
  void walk(int sweep);
  int add_case(Action, int sweep, int pose);
  LoadCase span_case(std::size_t path, const mainline::SupportWorst&, const char* support);
  void note_residuals(const Balance&);
  int at_rest_sweep(std::size_t path) const;
  tl::expected<void, Unsolved> add_supports();

  const Inputs& in_;
  const mainline::MainLine& main_line_;
  const reeving::Inputs& reeving_in_;
  const reeving::Reeving& reeved_;
  std::vector<Worst> worst_;
  Loads loads_;
};

void Accounts::walk_all_poses() {
  for (int s = 0; s < static_cast<int>(reeved_.sweeps.size()); ++s) walk(s);
}

void Accounts::note_residuals(const Balance& balance) {
  loads_.worst_force_residual = greater(loads_.worst_force_residual, norm(balance.left_over_N()) / balance.largest_N());
  loads_.worst_moment_residual = greater(
      loads_.worst_moment_residual, norm(balance.left_over_N_m()) / (balance.largest_N() * balance.largest_arm_m()));
}

void Accounts::walk(int s) {
  const reeving::Sweep& sweep = reeved_.sweeps[static_cast<std::size_t>(s)];
  std::vector<double> before(in_.anchors.size(), -1);
  for (std::size_t p = static_cast<std::size_t>(sweep.rest_pose); p < sweep.poses.size(); ++p) {
    const Balance balance = balance_of(in_, reeving_in_, reeved_, s, static_cast<int>(p));
    note_residuals(balance);
    for (std::size_t a = 0; a < in_.anchors.size(); ++a) {
      const double force_N = norm(balance.on_anchor_N()[a]);
      Worst& worst = worst_[a];
      if (force_N > worst.force_N) {
        worst.force_N = force_N;
        worst.sweep = s;
        worst.pose = static_cast<int>(p);
      }
      double bound_N = force_N;
      if (before[a] >= 0)
        bound_N = std::max(force_N, before[a]) + rise_between_N(in_, static_cast<int>(a), reeving_in_, sweep, p - 1);
      worst.bound_N = greater(worst.bound_N, bound_N);
      before[a] = force_N;
    }
  }
}

int Accounts::add_case(Action action, int s, int p) {
  for (std::size_t i = 0; i < loads_.cases.size(); ++i)
    if (loads_.cases[i].sweep == s && loads_.cases[i].pose == p) return static_cast<int>(i);
  const reeving::Sweep& sweep = reeved_.sweeps[static_cast<std::size_t>(s)];
  const reeving::Pose& pose = sweep.poses[static_cast<std::size_t>(p)];
  const mainline::StatePath& path = main_line_.paths[static_cast<std::size_t>(sweep.path)];
  const Balance balance = balance_of(in_, reeving_in_, reeved_, s, p);
  LoadCase load_case;
  load_case.name = fmt::format(
      "{}, {}, {}, travel {:.2f} m", action == Action::at_rest ? "at rest" : "peak line tension",
      mainline::word_for(path.loading),
      mainline::name_of(main_line_, main_line_.states[static_cast<std::size_t>(path.state)]), pose.travel_m);
  load_case.action = action;
  load_case.sweep = s;
  load_case.pose = p;
  load_case.travel_m = pose.travel_m;
  load_case.on_anchor_N = balance.on_anchor_N();
  load_case.out_of_balance_N = balance.left_over_N();
  load_case.out_of_balance_N_m = balance.left_over_N_m();
  load_case.largest_N = balance.largest_N();
  loads_.cases.push_back(std::move(load_case));
  return static_cast<int>(loads_.cases.size()) - 1;
}

Solved<Loads> Accounts::close() && {
  for (int s = 0; s < static_cast<int>(reeved_.sweeps.size()); ++s) {
    const reeving::Sweep& sweep = reeved_.sweeps[static_cast<std::size_t>(s)];
    if (main_line_.paths[static_cast<std::size_t>(sweep.path)].loading == mainline::Loading::empty)
      add_case(Action::at_rest, s, sweep.rest_pose);
  }
  for (const Worst& worst : worst_) {
    Demand demand;
    demand.force_N = {worst.force_N, worst.bound_N, -1};
    if (worst.force_N > 0) {
      const bool at_rest =
          reeved_.sweeps[static_cast<std::size_t>(worst.sweep)].running != reeving::Running::paying_out;
      demand.force_N.pose = add_case(at_rest ? Action::at_rest : Action::peak_tension, worst.sweep, worst.pose);
    }
    loads_.demands.push_back(demand);
  }
  if (auto added = add_supports(); !added) return tl::unexpected(added.error());
  // NaN closes nothing: written so that it fails.
  if (!(loads_.worst_force_residual <= closes && loads_.worst_moment_residual <= closes))
    return unsolved("the forces on the anchors do not balance the weights",
                    std::max(loads_.worst_force_residual, loads_.worst_moment_residual));
  return std::move(loads_);
}

/// The case of a rider on the open span: the supports as given, everything else as the line at rest leaves it.
LoadCase Accounts::span_case(std::size_t path, const mainline::SupportWorst& worst, const char* support) {
  const mainline::StatePath& on = main_line_.paths[path];
  const mainline::State& state = main_line_.states[static_cast<std::size_t>(on.state)];
  const int s = at_rest_sweep(path);
  const reeving::Sweep& sweep = reeved_.sweeps[static_cast<std::size_t>(s)];
  const reeving::Pose& rest = sweep.poses[static_cast<std::size_t>(sweep.rest_pose)];
  const Balance at_rest = balance_of(in_, reeving_in_, reeved_, s, sweep.rest_pose);
  const Balance span = span_balance(in_, reeving_in_, state.cable, worst.shape);
  note_residuals(span);
  LoadCase load_case;
  load_case.name = fmt::format("{} on the open span, {}, worst for the {} support", mainline::word_for(on.loading),
                               mainline::name_of(main_line_, state), support);
  load_case.action = Action::rider_on_span;
  load_case.travel_m = worst.rider_x_m - reeving_in_.rest_m;
  load_case.on_anchor_N = at_rest.on_anchor_N();
  load_case.on_anchor_N[static_cast<std::size_t>(in_.start_anchor)] -= rest.start_support_N;
  load_case.on_anchor_N[static_cast<std::size_t>(in_.end_anchor)] -= rest.end_support_N;
  for (std::size_t i = 0; i < in_.anchors.size(); ++i) load_case.on_anchor_N[i] += span.on_anchor_N()[i];
  load_case.out_of_balance_N = span.left_over_N() + at_rest.left_over_N();
  load_case.out_of_balance_N_m = span.left_over_N_m() + at_rest.left_over_N_m();
  load_case.largest_N = span.largest_N();
  return load_case;
}

int Accounts::at_rest_sweep(std::size_t path) const {
  const auto found = std::find_if(reeved_.sweeps.begin(), reeved_.sweeps.end(), [&](const reeving::Sweep& s) {
    return s.path == static_cast<int>(path) && s.running == reeving::Running::at_rest;
  });
  return static_cast<int>(found - reeved_.sweeps.begin());
}

/// A rider on the open span loads the supports more than one in the arrest zone does.
tl::expected<void, Unsolved> Accounts::add_supports() {
  struct Governing {
    std::size_t path{};
    mainline::SupportWorst worst;
  } start, end;
  for (std::size_t p = 0; p < main_line_.paths.size(); ++p) {
    const mainline::StatePath& path = main_line_.paths[p];
    if (path.loading != mainline::Loading::heaviest) continue;
    const reeving::SweepInputs& carried = reeving_in_.sweeps[static_cast<std::size_t>(at_rest_sweep(p))];
    const auto worst = mainline::worst_rider(carried.state.cable, carried.rider_weight_N,
                                             {reeving_in_.rest_m, carried.trolley_weight_N}, path.path.from_m());
    if (!worst) return tl::unexpected(worst.error());
    if (worst->start.bound_N > start.worst.bound_N) start = {p, worst->start};
    if (worst->end.bound_N > end.worst.bound_N) end = {p, worst->end};
  }
  const auto add = [&](const Governing& governing, int anchor, const char* support) {
    Demand& demand = loads_.demands[static_cast<std::size_t>(anchor)];
    LoadCase load_case = span_case(governing.path, governing.worst, support);
    const double force_N = norm(load_case.on_anchor_N[static_cast<std::size_t>(anchor)]);
    // Other lines on this anchor shift the force by what they add to the bound as well.
    const double gap_N = governing.worst.bound_N - governing.worst.tension_N;
    demand.force_N.bound = greater(demand.force_N.bound, force_N + gap_N);
    if (!(force_N > demand.force_N.value)) return;
    demand.force_N.value = force_N;
    demand.force_N.pose = static_cast<int>(loads_.cases.size());
    loads_.cases.push_back(std::move(load_case));
  };
  add(start, in_.start_anchor, "start");
  add(end, in_.end_anchor, "landing");
  return {};
}

}  // namespace

Solved<Loads> solve(const Inputs& in, const mainline::MainLine& main_line, const reeving::Inputs& reeving_in,
                    const reeving::Reeving& reeved) {
  Accounts accounts(in, main_line, reeving_in, reeved);
  accounts.walk_all_poses();
  return std::move(accounts).close();
}

}  // namespace fairlead::loads
