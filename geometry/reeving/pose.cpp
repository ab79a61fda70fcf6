#include "geometry/reeving/pose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "geometry/mainline/worst.hpp"
#include "geometry/reeving/balance.hpp"

namespace fairlead::reeving {
namespace {

constexpr int most_steps = 60;
constexpr double met = 1e-11, met_nearly = 1e-10;  ///< forces by the greatest one, lengths by a metre

/// Tension of a line of known length between its two ends as if nothing but its own weight hung on it.
Solved<double> bare_tension_N(const Inputs& in, const Line& line, double unstretched_m) {
  const Vec3 span = line.to.at - line.from.at;
  const double rise_m = dot(span, in.up), level_m = norm(span - rise_m * in.up);
  const auto shape = mainline::hang({level_m, rise_m, unstretched_m, line.weight_N_per_m, line.compliance_per_N});
  if (!shape) return tl::unexpected(shape.error());
  return shape->pieces[0].H_N;
}

double greatest_of(std::span<const double> residual) {
  double r = 0;
  for (const double x : residual) r = greater(r, std::abs(x));
  return r;
}

class PoseSolver {
 public:
  PoseSolver(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, double travel_m)
      : in_(in), sweep_(sweep), outlet_(outlet), travel_m_(travel_m) {}

  Solved<Station> solve(const Station* near);

 private:
  tl::expected<void, Unsolved> start_cold();
  void start_from(const Station& near);
  tl::expected<void, Unsolved> balance(Balance&);
  double longest(const Balance&, std::span<const double> step) const;
  tl::expected<void, Unsolved> shorten(Balance&, std::span<const double> step, double part, double& worst);
  tl::expected<void, Unsolved> finish(Balance&);
  void answer_travel(Balance&);
  void measure_fleet();
  double known_tension_N() const {
    return outlet_.held_tension_N ? *outlet_.held_tension_N : in_.unit.retraction_N(in_.rest_extension_m);
  }
  const Catenary& first_leg() const {
    return at_.lines.legs[in_.legs_before(static_cast<std::size_t>(in_.pulling))].hang;
  }

  const Inputs& in_;
  const SweepInputs& sweep_;
  const Outlet& outlet_;
  double travel_m_;
  Station at_;
  Square jacobian_;
};

tl::expected<void, Unsolved> PoseSolver::start_cold() {
  const bool apart = travel_m_ < 0 && sweep_.rider_weight_N > 0;
  at_.carried_N = sweep_.trolley_weight_N + (apart ? 0 : sweep_.rider_weight_N);
  for (const Block& block : in_.blocks) at_.lines.blocks.push_back({block.drawn});
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const Line& line = in_.lines[l];
    double T = known_tension_N();
    if (line.from.body == on_ground && line.to.body == on_ground) {
      const auto bare = bare_tension_N(in_, line, sweep_.state.unstretched_m[l]);
      if (!bare) return tl::unexpected(bare.error());
      T = *bare;
    } else if (static_cast<int>(l) != in_.braking) {
      T /= in_.nominal_ratio;
    }
    at_.lines.tension.push_back({.at_N = T, .datum = line.to.at});
  }
  return {};
}

void PoseSolver::start_from(const Station& near) {
  at_.lines = near.lines;
  at_.shape = near.shape;
  at_.carried_N = near.carried_N;
  const double from_m = near.pose.travel_m, ahead_m = travel_m_ - from_m;
  if (!(from_m >= 0 && travel_m_ >= 0)) return;
  // Both poses beyond the mark: on along the tangent.
  at_.carried_N += ahead_m * near.rates.carried_N_per_m;
  for (std::size_t l = 0; l < in_.lines.size(); ++l)
    at_.lines.tension[l].at_N += ahead_m * near.rates.tension_N_per_m[l];
  for (std::size_t b = 0; b < in_.blocks.size(); ++b)
    at_.lines.blocks[b].at = at_.lines.blocks[b].at + ahead_m * near.rates.blocks[b].shift;
}

/// The part of a step (up to 1) that a linear answer may be trusted for: no tension more than halved, no weight on the
/// wheel down to less than a tenth, no block moved by more than a quarter of the rig's shortest leg or turned by half a
/// radian.
double PoseSolver::longest(const Balance& b, std::span<const double> step) const {
  double part = 1;
  const auto keep = [&part](double change, double most) {
    if (std::abs(change) > most) part = std::min(part, most / std::abs(change));
  };
  double shortest_m = std::numeric_limits<double>::infinity();
  for (const MetLeg& leg : at_.lines.legs) shortest_m = std::min(shortest_m, leg.hang.length_m);
  if (step[0] < 0) keep(step[0] * b.force_N(), 0.9 * at_.carried_N);
  for (int k = 0; k < static_cast<int>(in_.blocks.size()); ++k)
    for (int i = 0; i < b.freedoms(k); ++i)
      keep(step[static_cast<std::size_t>(b.first_of(k) + i)], i < 3 ? std::max(0.25 * shortest_m, 0.02) : 0.5);
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const double change = step[static_cast<std::size_t>(b.tension_of(static_cast<int>(l)))] * b.force_N();
    keep(change, (change < 0 ? 0.5 : 2) * at_.lines.tension[l].at_N);
  }
  return part;
}

/// Takes as much of a step, `part` of it at most, as brings the rig nearer to balance. Where none does, the rig is left
/// as it was, and why the last one could not hang is returned if that was it.
tl::expected<void, Unsolved> PoseSolver::shorten(Balance& b, std::span<const double> step, double part, double& worst) {
  const double carried_N = at_.carried_N;
  std::array<Placement, most_blocks> blocks;
  std::array<double, most_lines> tension_N;
  std::copy(at_.lines.blocks.begin(), at_.lines.blocks.end(), blocks.begin());
  for (std::size_t l = 0; l < in_.lines.size(); ++l) tension_N[l] = at_.lines.tension[l].at_N;
  const auto restore = [&] {
    at_.carried_N = carried_N;
    std::copy_n(blocks.begin(), at_.lines.blocks.size(), at_.lines.blocks.begin());
    for (std::size_t l = 0; l < in_.lines.size(); ++l) at_.lines.tension[l].at_N = tension_N[l];
  };
  std::array<double, Square::most> shortened;
  tl::expected<void, Unsolved> hung;
  constexpr int most_halvings = 30;
  for (int h = 0; h < most_halvings; ++h, part /= 2) {
    for (std::size_t k = 0; k < step.size(); ++k) shortened[k] = part * step[k];
    b.advance({shortened.data(), step.size()});
    hung = b.hang();
    if (hung) {
      const double next = greatest_of(b.residual());
      if (next <= met || next < worst * (1 - 1e-3 * part)) {
        worst = next;
        return {};
      }
    }
    restore();
  }
  const auto as_it_was = b.hang();
  return hung ? as_it_was : hung;
}

tl::expected<void, Unsolved> PoseSolver::balance(Balance& b) {
  if (auto hung = b.hang(); !hung) return hung;
  std::array<double, Square::most> space;
  const std::span<double> step{space.data(), static_cast<std::size_t>(b.size())};
  double worst = greatest_of(b.residual());
  for (int i = 0; i < most_steps; ++i) {
    if (worst <= met) return {};
    b.answer(jacobian_);
    jacobian_.factor();
    for (std::size_t k = 0; k < step.size(); ++k) step[k] = -b.residual()[k];
    jacobian_.solve(step);
    const double part = longest(b, step), before = worst;
    // Below this the line as good as floats: no wheel stays on a line it presses with a millionth of its weight.
    if (part < 1 && step[0] < 0 && at_.carried_N < 1e-5 * b.weight_N()) {
      const double lift_N = dot(first_leg().from_pull_N(), in_.up);
      return unsolved(fmt::format("the braking line lifts the brake trolley off the main line at travel {:.3f} m: it "
                                  "pulls up with {:.4g} N on {:.4g} N",
                                  travel_m_, lift_N, b.weight_N()),
                      lift_N, i);
    }
    const auto nearer = shorten(b, step, part, worst);
    if (worst < before) continue;
    if (worst <= met_nearly) return {};
    if (!nearer) return nearer;
    break;
  }
  return unsolved(fmt::format("nothing balances at travel {:.3f} m", travel_m_), worst, most_steps);
}

void PoseSolver::answer_travel(Balance& b) {
  Pose& pose = at_.pose;
  pose.pay_out = pose.ratio = std::numeric_limits<double>::quiet_NaN();
  Rates& rates = at_.rates;
  rates.tension_N_per_m.assign(in_.lines.size(), 0);
  rates.blocks.assign(in_.blocks.size(), {});
  if (!b.moving()) return;
  b.answer(jacobian_);
  jacobian_.factor();
  std::array<double, Square::most> space;
  const std::span<double> rate{space.data(), static_cast<std::size_t>(b.size())};
  for (std::size_t k = 0; k < rate.size(); ++k) rate[k] = -b.per_travel()[k];
  jacobian_.solve(rate);
  rates.carried_N_per_m = rate[0] * b.force_N();
  rates.slope = b.slope_per_metre() + b.slope_per_newton() * rates.carried_N_per_m;
  const auto vector_at = [&](int i) {
    const auto k = static_cast<std::size_t>(i);
    return Vec3{rate[k], rate[k + 1], rate[k + 2]};
  };
  for (int k = 0; k < static_cast<int>(in_.blocks.size()); ++k) {
    Move& move = rates.blocks[static_cast<std::size_t>(k)];
    move.shift = vector_at(b.first_of(k));
    if (b.freedoms(k) == 6) move.turn = vector_at(b.first_of(k) + 3);
  }
  for (std::size_t l = 0; l < in_.lines.size(); ++l)
    rates.tension_N_per_m[l] = rate[static_cast<std::size_t>(b.tension_of(static_cast<int>(l)))] * b.force_N();
  pose.pay_out = b.drawn_out_m(rate, 1);
  pose.ratio = 1 / pose.pay_out;
}

void PoseSolver::measure_fleet() {
  at_.fleet_rad.assign(in_.sheaves.size(), 0);
  for (std::size_t l = 0; l < in_.lines.size(); ++l)
    for (int k = 0; k < in_.lines[l].sheaves; ++k) {
      const int sheave = in_.lines[l].first_sheave + k;
      const Sheave s = placed(in_, at_.lines, sheave);
      if (s.radius_m == 0) continue;
      const std::size_t leg = in_.legs_before(l) + static_cast<std::size_t>(k);
      at_.fleet_rad[static_cast<std::size_t>(sheave)] =
          std::max(std::abs(fleet_angle(at_.lines.legs[leg].hang.to_pull_N(), s.axle)),
                   std::abs(fleet_angle(at_.lines.legs[leg + 1].hang.from_pull_N(), s.axle)));
    }
}

tl::expected<void, Unsolved> PoseSolver::finish(Balance& b) {
  const mainline::Wheel& trolley = b.wheel();
  const auto place = [&](const mainline::Wheel& w) { return in_.origin + w.x_m * in_.along + w.z_m * in_.up; };
  const Reeved& lines = at_.lines;
  const auto braking = static_cast<std::size_t>(in_.braking);
  const std::size_t last_leg = in_.legs_before(braking) + static_cast<std::size_t>(in_.lines[braking].sheaves);
  Pose& pose = at_.pose;
  pose.travel_m = travel_m_;
  pose.trolley = place(trolley);
  pose.attachment = lines.attachment;
  pose.rider = place(at_.shape.wheels[0]);
  pose.extension_m = b.extension_m();
  pose.trolley_tension_N = first_leg().from_tension_N();
  pose.outlet_tension_N = lines.tension[braking].at_N;
  pose.pull_on_trolley_N = first_leg().from_pull_N();
  pose.pull_on_unit_N = lines.legs[last_leg].hang.to_pull_N();
  const Vec3 lead = cross(pose.pull_on_unit_N, in_.outlet_axis);
  pose.lead_rad = std::atan2(norm(lead), dot(pose.pull_on_unit_N, in_.outlet_axis));
  pose.hold_N =
      b.weight_N() * in_.up - (trolley.force_x_N * in_.along + trolley.force_z_N * in_.up) - pose.pull_on_trolley_N;
  const mainline::Cable& cable = sweep_.state.cable;
  const mainline::SupportForces ends = mainline::support_forces(cable, at_.shape);
  pose.start_support_N = ends.start_x_N * in_.along + ends.start_z_N * in_.up;
  pose.end_support_N = ends.end_x_N * in_.along + ends.end_z_N * in_.up;
  pose.main_line_moment_N_m = mainline::weight_moment_N_m(cable, at_.shape);
  pose.main_line_weight_N = cable.weight_N_per_m * cable.unstretched_m;
  for (std::size_t l = 0; l < in_.lines.size(); ++l)
    pose.line_weight_N += in_.lines[l].weight_N_per_m * lines.length_m[l];
  pose.tau_rad = trolley.tau_rad;
  answer_travel(b);
  measure_fleet();
  at_.held_couple_N_m.assign(in_.blocks.size(), {});
  for (std::size_t k = 0; k < in_.blocks.size(); ++k)
    if (in_.blocks[k].attitude_held) at_.held_couple_N_m[k] = -b.moment_N_m(static_cast<int>(k));

  std::array<mainline::Load, 2> loads;
  std::copy(b.loads().begin(), b.loads().end(), loads.begin());
  const std::size_t count = b.loads().size();
  loads[count - 1].weight_N = b.weight_N();
  const auto without = mainline::hang_rolling(cable, {loads.data(), count}, &at_.shape);
  if (!without) return tl::unexpected(without.error());
  pose.lift_by_line_m = trolley.z_m - without->wheels[count - 1].z_m;
  return {};
}

Solved<Station> PoseSolver::solve(const Station* near) {
  if (near) {
    start_from(*near);
  } else if (auto started = start_cold(); !started) {
    return tl::unexpected(started.error());
  }
  Balance b(in_, sweep_, outlet_, travel_m_, at_);
  if (auto done = balance(b); !done) return tl::unexpected(done.error());
  if (auto done = finish(b); !done) return tl::unexpected(done.error());
  return std::move(at_);
}

}  // namespace

double slope_after(const Curve& curve, double x) {
  const auto& p = curve.points();
  if (p.size() < 2) return 0;
  const auto right =
      std::upper_bound(p.begin() + 1, p.end() - 1, x, [](double value, const CurvePoint& q) { return value < q.x; });
  return (right->y - (right - 1)->y) / (right->x - (right - 1)->x);
}

Solved<Station> solve_pose(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, double travel_m,
                           const Station* near) {
  return PoseSolver(in, sweep, outlet, travel_m).solve(near);
}

Solved<Station> solve_rest(const Inputs& in, const State& state, double trolley_weight_N) {
  const SweepInputs rest{.path = 0, .state = state, .reference = state, .trolley_weight_N = trolley_weight_N};
  return solve_pose(in, rest, {{}, in.unit.retraction_N(in.rest_extension_m)}, 0);
}

Solved<Outlet> rest_outlet(const Inputs& in, const State& state, double trolley_weight_N) {
  const auto rest = solve_rest(in, state, trolley_weight_N);
  if (!rest) return tl::unexpected(rest.error());
  return Outlet{rest->lines.unstretched_m, {}};
}

}  // namespace fairlead::reeving
