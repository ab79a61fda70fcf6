#include "geometry/reeving/pose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/mainline/worst.hpp"
#include "geometry/reeving/search.hpp"

namespace fairlead::reeving {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

/// Of a block's joint on it: what keeps it from turning but about what it turns about.
Vec3 held_couple_N_m(const Block& block, Vec3 moment_N_m) {
  if (block.joint == Joint::carrier) return -moment_N_m;
  if (block.joint == Joint::hinge) return dot(moment_N_m, block.hinge_axis) * block.hinge_axis - moment_N_m;
  return {};
}

/// The pose's records, from a balance that is solved and answered.
tl::expected<void, Unsolved> finish(const Inputs& in, const SweepInputs& sweep, const Balance& balance, double travel_m,
                                    Station& at) {
  const mainline::Wheel& trolley = balance.wheel();
  const auto place = [&](const mainline::Wheel& w) { return in.origin + w.x_m * in.along + w.z_m * in.up; };
  const Reeved& lines = at.lines;
  Pose& pose = at.pose;
  pose.travel_m = travel_m;
  pose.trolley = place(trolley);
  pose.attachment = pose.trolley + in.attachment;
  pose.rider = place(at.shape.wheels[0]);
  pose.extension_m = balance.extension_m();
  pose.trolley_tension_N = lines.legs[in.legs_before(in.pulling)].hang.from_tension_N();
  pose.outlet_tension_N = lines.tension[in.braking].at_N;
  pose.pull_on_trolley_N = {};
  pose.line_weight_N = 0;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const Line& line = in.lines[l];
    const std::size_t first = in.legs_before(l);
    if (line.from.body == on_trolley) pose.pull_on_trolley_N += lines.legs[first].hang.from_pull_N();
    if (line.to.body == on_trolley) pose.pull_on_trolley_N += lines.legs[first + line.sheaves].hang.to_pull_N();
    pose.line_weight_N += line.weight_N_per_m * lines.length_m[l];
  }
  const Catenary& lead_leg = lines.legs[in.legs_before(in.braking) + in.lines[in.braking].sheaves].hang;
  pose.pull_on_unit_N = lead_leg.to_pull_N();
  const Vec3 lead = cross(pose.pull_on_unit_N, in.outlet_axis);
  pose.lead_rad = std::atan2(norm(lead), dot(pose.pull_on_unit_N, in.outlet_axis));
  pose.hold_N =
      balance.weight_N() * in.up - (trolley.force_x_N * in.along + trolley.force_z_N * in.up) - pose.pull_on_trolley_N;
  const mainline::SupportForces ends = mainline::support_forces(sweep.state.cable, at.shape);
  pose.start_support_N = ends.start_x_N * in.along + ends.start_z_N * in.up;
  pose.end_support_N = ends.end_x_N * in.along + ends.end_z_N * in.up;
  pose.main_line_moment_N_m = mainline::weight_moment_N_m(sweep.state.cable, at.shape);
  pose.main_line_weight_N = sweep.state.cable.weight_N_per_m * sweep.state.cable.unstretched_m;
  pose.tau_rad = trolley.tau_rad;
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    for (int k = 0; k < in.lines[l].sheaves; ++k) {
      const int s = in.lines[l].first_sheave + k;
      const Vec3 axle = placed(in, lines, s).axle;
      const std::size_t leg = s + l;
      at.fleet_rad[s] = in.sheaves[s].radius_m > 0
                            ? std::max(std::abs(fleet_angle(lines.legs[leg].hang.to_pull_N(), axle)),
                                       std::abs(fleet_angle(lines.legs[leg + 1].hang.from_pull_N(), axle)))
                            : 0;
    }
  for (std::size_t b = 0; b < in.blocks.size(); ++b) {
    at.held_N[b] = in.blocks[b].shifts() ? Vec3{} : -balance.pull_N(int(b));
    at.held_couple_N_m[b] = held_couple_N_m(in.blocks[b], balance.moment_N_m(int(b)));
  }

  std::array<mainline::Load, 2> loads;
  const std::size_t count = balance.loads().size();
  std::copy(balance.loads().begin(), balance.loads().end(), loads.begin());
  loads[count - 1].weight_N = balance.weight_N();
  const auto without = mainline::hang_rolling(sweep.state.cable, {loads.data(), count}, &at.shape);
  if (!without) return tl::unexpected(without.error());
  pose.lift_by_line_m = trolley.z_m - without->wheels[count - 1].z_m;
  return {};
}

/// What the unknowns do for a metre of travel.
void set_rates(const Balance& balance, const Square& factored, Station& at) {
  Pose& pose = at.pose;
  Rates& rates = at.rates;
  pose.pay_out = pose.ratio = nan;
  rates.slope = rates.carried_N_per_m = 0;
  std::fill(rates.tension_N_per_m.begin(), rates.tension_N_per_m.end(), 0.0);
  std::fill(rates.blocks.begin(), rates.blocks.end(), Move{});
  if (!balance.moving()) return;
  std::array<double, Square::most> store;
  const std::span<double> change{store.data(), std::size_t(balance.size())};
  for (int i = 0; i < balance.size(); ++i) change[i] = -balance.per_travel()[i];
  factored.solve(change);
  rates.carried_N_per_m = balance.force_N() * change[0];
  rates.slope = balance.wheel_gives().dz_dx + balance.wheel_gives().dz_dW_m_per_N * rates.carried_N_per_m;
  for (std::size_t l = 0; l < rates.tension_N_per_m.size(); ++l)
    rates.tension_N_per_m[l] = balance.force_N() * change[balance.tension_of(int(l))];
  for (std::size_t b = 0; b < rates.blocks.size(); ++b) {
    rates.blocks[b] = balance.move_of(int(b), change);
  }
  pose.pay_out = balance.drawn(change, 1);
  pose.ratio = 1 / pose.pay_out;
}

/// What the sheaves take of the reduction's work, and whether all of them turn as their friction supposes.
tl::expected<void, Unsolved> set_efficiency(const Inputs& in, Friction friction, Station& at) {
  Pose& pose = at.pose;
  pose.efficiency = nan;
  const Reeved& lines = at.lines;
  if (lines.tension_ratio.empty() || pose.travel_m < 0) return {};
  at.flow = flow_of(in, at);
  double lost_N = 0;  // per metre of travel
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    for (int k = 0; k < in.lines[l].sheaves; ++k) {
      const int s = in.lines[l].first_sheave + k;
      const double ratio = lines.tension_ratio[s];
      if (ratio == 1) continue;
      const bool toward_from = (ratio > 1) == (friction == Friction::paying_out);
      if (!(toward_from ? at.flow[s] > 0 : at.flow[s] < 0))
        return unsolved(fmt::format("{}{} turns the other way at travel {:.3f} m than at the rest mark: its friction "
                                    "has no one direction",
                                    end_name(in, int(l), k + 1), of_line(in, int(l)), pose.travel_m),
                        at.flow[s]);
      const Point3 centre = placed(in, lines, s).centre;
      lost_N += std::abs(ratio - 1) * lines.leg_tension[in.legs_before(l) + k + 1](centre) * std::abs(at.flow[s]);
    }
  const double work_N = -dot(pose.pull_on_trolley_N, in.along + at.rates.slope * in.up);
  pose.efficiency = friction == Friction::paying_out ? 1 - lost_N / work_N : work_N / (work_N + lost_N);
  return {};
}

}  // namespace

std::vector<double> flow_of(const Inputs& in, const Station& at) {
  const Reeved& lines = at.lines;
  const auto move_of = [&](Body body) {
    if (body == on_trolley) return Move{in.along + at.rates.slope * in.up, {}};
    return body >= 0 ? at.rates.blocks[body] : Move{};
  };
  const auto at_centre = [&](Body body, Point3 centre) {
    const Move move = move_of(body);
    return body < 0 ? move : Move{move.shift + cross(move.turn, centre - lines.blocks[body].at), move.turn};
  };
  std::vector<double> flow(in.sheaves.size());
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const Line& line = in.lines[l];
    const int index = int(l);
    double on_from_side = 0;
    for (int k = 0; k < line.sheaves; ++k) {
      const LegEnd from = from_end(in, lines, index, k), to = to_end(in, lines, index, k);
      const Level level = level_of(in, lines, index, k);
      double tension_rate = level.carried * at.rates.tension_N_per_m[l];
      for (int j = k; j < line.sheaves; ++j) {
        const int s = line.first_sheave + j;
        const Vec3 shift = at_centre(in.sheaves[s].body, placed(in, lines, s).centre).shift;
        tension_rate += level.raised_N_per_m[j] * dot(shift, lines.tension[l].up);
      }
      const MetLegChange d =
          vary(lines.legs[in.legs_before(l) + k], from, to, at_centre(from_body(in, index, k), from.centre),
               at_centre(to_body(in, index, k), to.centre), tension_rate);
      // Contacts that turn give line to the wraps, or take it; counted from points of the sheave's carrier.
      const auto gain = [](const LegEnd& end, double turn_rad) { return end.radius_m * end.turn * turn_rad; };
      on_from_side += d.length_m + gain(from, d.from_turn_rad) + gain(to, d.to_turn_rad);
      flow[line.first_sheave + k] = on_from_side;
    }
  }
  return flow;
}

tl::expected<void, Unsolved> solve_pose(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet,
                                        double travel_m, Station& at) {
  if (auto no = unfit(in)) return tl::unexpected(*no);
  const double from_m = at.pose.travel_m;
  const bool warm = at.lines.legs.size() == in.legs();
  Balance balance(in, sweep, outlet, travel_m, at);
  Search search(in, sweep, outlet, travel_m, balance, at);
  if (!warm || !search.go_on(from_m))
    if (auto found = search.begin(); !found) return found;
  set_rates(balance, search.factored(), at);
  balance.to_site();
  for (int l = 0; l < int(in.lines.size()); ++l)
    if (auto on = stays_on(in, l, at.lines); !on) return on;
  if (auto finished = finish(in, sweep, balance, travel_m, at); !finished) return finished;
  return set_efficiency(in, sweep.friction, at);
}

Solved<Station> solve_pose(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, double travel_m,
                           const Station* near) {
  Station at = near ? *near : Station{};
  if (auto done = solve_pose(in, sweep, outlet, travel_m, at); !done) return tl::unexpected(done.error());
  return at;
}

Solved<Station> solve_rest(const Inputs& in, const State& state, double trolley_weight_N) {
  const SweepInputs rest{.path = 0, .state = state, .reference = state, .trolley_weight_N = trolley_weight_N};
  return solve_pose(in, rest, Outlet{{}, in.unit.retraction_N(in.rest_extension_m)}, 0);
}

Solved<Outlet> rest_outlet(const Inputs& in, const State& state, double trolley_weight_N) {
  const auto rest = solve_rest(in, state, trolley_weight_N);
  if (!rest) return tl::unexpected(rest.error());
  return Outlet{rest->lines.unstretched_m, {}};
}

}  // namespace fairlead::reeving
