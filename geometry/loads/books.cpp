#include "geometry/loads/books.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>

#include "geometry/loads/leg_forces.hpp"
#include "geometry/loads/reeved.hpp"
#include "geometry/mainline/worst.hpp"

namespace fairlead::loads {

constexpr double rounding = 1e-9;  ///< of a block's largest force times its size: no lean

double greatest_group_N(const std::vector<Vec3>& forces_N) {
  if (forces_N.empty()) return 0;
  // The rest of a group sums to as much, so the first force may always be in it; the others come and go one by one.
  Vec3 sum = forces_N[0];
  double most = dot(sum, sum);
  const std::size_t groups = std::size_t{1} << (forces_N.size() - 1);
  for (std::size_t i = 1; i < groups; ++i) {
    const std::size_t gray = i ^ (i >> 1), which = static_cast<std::size_t>(std::countr_zero(i));
    if (gray >> which & 1)
      sum += forces_N[which + 1];
    else
      sum -= forces_N[which + 1];
    most = greater(most, dot(sum, sum));
  }
  return std::sqrt(most);
}

Books::Reeved::Reeved(const Books& books, const reeving::Sweep& sweep, int pose, Point3 trolley)
    : balance(books.in_.anchors.size(), books.reeving_.origin),
      books_(books),
      in_(books.reeving_),
      sweep_(sweep),
      pose_(static_cast<std::size_t>(pose)),
      trolley_(trolley) {
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const reeving::BlockPlace& place = sweep_.blocks[pose_ * in_.blocks.size() + b];
    const Vec3 weight_N = -in_.blocks[b].weight_N * in_.up;
    of_block_.push_back({Sum(place.placement.at), {weight_N}});
    of_block_.back().sum.add(place.centre_of_mass, weight_N);
    balance.act(place.centre_of_mass, weight_N);
  }
  for (std::size_t l = 0; l < in_.lines.size(); ++l) lead(l);
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) close(b);

  const Inputs& held = books.in_;
  const Point3 unit = held.anchors[static_cast<std::size_t>(held.unit_anchor)];
  balance.push(held.unit_anchor, unit, -held.unit_weight_N * in_.up);
  balance.act(unit, -held.unit_weight_N * in_.up);
}

Point3 Books::Reeved::centre_of(std::size_t sheave) const {
  const reeving::Sheave& s = in_.sheaves[sheave];
  if (s.body < 0) return s.centre;
  const auto b = static_cast<std::size_t>(s.body);
  return sweep_.blocks[pose_ * in_.blocks.size() + b].placement.move(s.centre, in_.blocks[b].drawn);
}

void Books::Reeved::pull(reeving::Body body, int anchor, Point3 at, Vec3 force_N) {
  if (body == reeving::on_ground) {
    balance.push(anchor, at, force_N);
  } else if (body == reeving::on_trolley) {
    // Off the wheel it tilts the trolley; the wheels on the main line take the couple.
    balance.act_couple(cross(trolley_ - at, force_N));
  } else {
    of_block_[static_cast<std::size_t>(body)].sum.add(at, force_N);
  }
}

void Books::Reeved::turn(const reeving::Sheave& sheave, int anchor, const reeving::Turn& turn, Vec3 load_N_per_m) {
  const Vec3 on_N = turn.on_tension_N * turn.on_leg, off_N = turn.off_tension_N * turn.off_leg;
  pull(sheave.body, anchor, turn.on, on_N);
  pull(sheave.body, anchor, turn.off, off_N);
  pull(sheave.body, anchor, turn.wrap_centre, turn.force_N - on_N - off_N);
  balance.act(turn.wrap_centre, sheave.radius_m * turn.wrap_rad * load_N_per_m);
  if (sheave.body >= 0) of_block_[static_cast<std::size_t>(sheave.body)].forces_N.push_back(turn.force_N);
}

/// Along a line T + load . place is one number, over its sheaves too but for their friction; its own forces sum to
/// nothing.
void Books::Reeved::lead(std::size_t l) {
  const reeving::Line& line = in_.lines[l];
  const std::size_t sheaves = in_.sheaves.size(), first = static_cast<std::size_t>(line.first_sheave);
  const reeving::Leg* legs = &sweep_.legs[pose_ * in_.legs() + in_.legs_before(l)];
  const auto count = static_cast<std::size_t>(line.sheaves) + 1;
  const Vec3 load_N_per_m = legs->load_N_per_m;
  const Point3 origin = legs->from;

  OnLine on{legs[0].from_tension_N, legs[count - 1].to_tension_N};
  Vec3 left_N;
  double least_N = on.from_N, most_N = on.from_N;
  // What friction makes of a level on the sheaves passed so far.
  double share = 1, offset_N = 0;
  const auto level = [&](double tension_N, Point3 at) {
    const double level_N = share * (tension_N + dot(load_N_per_m, at - origin)) + offset_N;
    least_N = -greater(-least_N, -level_N);
    most_N = greater(most_N, level_N);
  };
  for (std::size_t k = 0; k < count; ++k) {
    const LegForces leg = forces_of(legs[k]);
    const double mean_N = (legs[k].from_tension_N + legs[k].to_tension_N) / 2;
    on.unstretched_m += legs[k].length_m * (1 - line.compliance_per_N * mean_N);
    level(legs[k].from_tension_N, legs[k].from);
    level(legs[k].to_tension_N, legs[k].to);
    balance.act(leg.load_at, leg.load_N);
    left_N -= leg.load_N;
    const bool braking_end = k + 1 == count && static_cast<int>(l) == in_.braking;
    if (k == 0) {
      const bool pulling = static_cast<int>(l) == in_.pulling;
      const Vec3 force_N = pulling ? sweep_.poses[pose_].pull_on_trolley_N : leg.on_from_N;
      pull(line.from.body, books_.in_.line_anchors[l].from, legs[k].from, force_N);
      if (line.from.body >= 0) of_block_[static_cast<std::size_t>(line.from.body)].forces_N.push_back(force_N);
      left_N += force_N;
    }
    if (k + 1 == count) {
      const Vec3 force_N = braking_end ? sweep_.poses[pose_].pull_on_unit_N : leg.on_to_N;
      pull(line.to.body, braking_end ? books_.in_.unit_anchor : books_.in_.line_anchors[l].to, legs[k].to, force_N);
      if (line.to.body >= 0) of_block_[static_cast<std::size_t>(line.to.body)].forces_N.push_back(force_N);
      left_N += force_N;
      continue;
    }
    const reeving::Sheave& sheave = in_.sheaves[first + k];
    const reeving::Turn& over = sweep_.turns[pose_ * sheaves + first + k];
    turn(sheave, books_.in_.sheave_anchor[first + k], over, load_N_per_m);
    on.unstretched_m +=
        sheave.radius_m * over.wrap_rad * (1 - line.compliance_per_N * (over.on_tension_N + over.off_tension_N) / 2);
    if (!sweep_.tension_ratio.empty()) {
      // Tensions as they would be at the sheave's centre are in this ratio.
      const double ratio = sweep_.tension_ratio[first + k];
      offset_N += share * (1 - ratio) * dot(load_N_per_m, centre_of(first + k) - origin);
      share *= ratio;
    }
    left_N += over.force_N - sheave.radius_m * over.wrap_rad * load_N_per_m;
  }
  on.residual = greater(size(left_N), most_N - least_N) / most_N;
  lines.push_back(on);
}

/// What a mount holds goes on its anchor. What a carrier holds of a block's attitude it takes from the support line by
/// the difference of its two wheels. The line passes that couple on to its anchors as a pair of forces square to the
/// chord between them: so much follows from the line's equilibrium, whatever its shape. About the chord itself a line
/// can pass on nothing.
void Books::Reeved::close(std::size_t b) {
  const reeving::BlockPlace& place = sweep_.blocks[pose_ * in_.blocks.size() + b];
  const Vec3 couple_N_m = place.held_couple_N_m;
  OfBlock& of = of_block_[b];
  of.sum.add_couple(couple_N_m);
  if (!in_.blocks[b].shifts()) {
    of.sum.add(place.placement.at, place.held_N);
    of.forces_N.push_back(place.held_N);
    balance.push(books_.in_.block_anchor[b], place.placement.at, -place.held_N);
    balance.act_couple(couple_N_m);
  }
  OnBlock on{greatest_group_N(of.forces_N)};
  block_residual = greater(block_residual, greater(of.sum.force_residual(), of.sum.moment_residual()));
  if (const int support = books_.support_line_[b]; support >= 0) {
    const auto l = static_cast<std::size_t>(support);
    const reeving::Leg* legs = &sweep_.legs[pose_ * in_.legs() + in_.legs_before(l)];
    const Point3 from = legs[0].from, to = legs[in_.lines[l].sheaves].to;
    const Vec3 chord = to - from;
    const Vec3 force_N = (1 / dot(chord, chord)) * cross(chord, couple_N_m);
    balance.push(books_.in_.line_anchors[l].to, to, force_N);
    balance.push(books_.in_.line_anchors[l].from, from, -force_N);
    const Vec3 lean_N_m = (dot(chord, couple_N_m) / dot(chord, chord)) * chord;
    balance.act_couple(lean_N_m);
    const double size_N_m = of.sum.largest_N() * of.sum.largest_arm_m();
    if (size(lean_N_m) > rounding * size_N_m) on.lean_N_m = size(lean_N_m);
  }
  blocks.push_back(on);
}

Books::Books(const Inputs& in, const mainline::MainLine& main_line, const reeving::Inputs& reeving,
             const reeving::Reeving& reeved)
    : in_(in),
      main_line_(main_line),
      reeving_(reeving),
      reeved_(reeved),
      support_line_(reeving.blocks.size(), -1),
      bare_beside_(main_line.states.size()) {
  const auto need = [&](reeving::Body body, int anchor, const char* what, std::size_t i) {
    const bool held = anchor >= 0 && static_cast<std::size_t>(anchor) < in.anchors.size();
    if (body == reeving::on_ground && !held) refusal_ = fmt::format("{} {} is on no anchor", what, i + 1);
  };
  if (in.sheave_anchor.size() != reeving.sheaves.size() || in.line_anchors.size() != reeving.lines.size() ||
      in.block_anchor.size() != reeving.blocks.size()) {
    refusal_ = "the anchors of sheaves, lines and blocks are not those of the reeving";
    return;
  }
  for (std::size_t b = 0; b < reeving.blocks.size(); ++b)
    if (!reeving.blocks[b].shifts()) need(reeving::on_ground, in.block_anchor[b], "the mount of block", b);
  for (std::size_t i = 0; i < reeving.sheaves.size(); ++i)
    need(reeving.sheaves[i].body, in.sheave_anchor[i], "sheave", i);
  for (std::size_t l = 0; l < reeving.lines.size(); ++l) {
    const reeving::Line& line = reeving.lines[l];
    need(line.from.body, in.line_anchors[l].from, "the beginning of line", l);
    const bool braking = static_cast<int>(l) == reeving.braking;
    need(line.to.body, braking ? in.unit_anchor : in.line_anchors[l].to, "the end of line", l);
    if (line.from.body != reeving::on_ground || line.to.body != reeving::on_ground) continue;
    for (int k = 0; k < line.sheaves; ++k) {
      const reeving::Body body = reeving.sheaves[static_cast<std::size_t>(line.first_sheave + k)].body;
      if (body >= 0) support_line_[static_cast<std::size_t>(body)] = static_cast<int>(l);
    }
  }
  for (std::size_t state = 0; state < bare_beside_.size(); ++state)
    for (const Beside& line : in.beside) {
      auto hung = hang_between(anchor(line.from), anchor(line.to), line.in_state[state], {});
      if (!hung) refusal_ = "a parallel line does not hang: " + hung.error().why;
      bare_beside_[state].push_back(hung ? std::move(*hung) : HungForces{});
    }
  // Bare and slipping forward it is slackest.
  for (const mainline::State& state : main_line.states) {
    const HungForces line = forces_of(reeving.origin, reeving.along, reeving.up, state.cable, state.bare);
    for (const bool start : {true, false}) {
      if ((start ? in.start_back_anchor : in.end_back_anchor) == no_anchor) continue;
      const auto rest = behind({state.cable, {}, line.on_from_N, line.on_to_N}, start, Slip::forward);
      if (!rest) refusal_ = "the main line does not hang from a saddle to its back anchor: " + rest.error().why;
    }
  }
}

}  // namespace fairlead::loads
