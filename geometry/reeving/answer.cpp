// How the balance answers every unknown: exact first-order changes of what balance.cpp sums up.
#include <algorithm>
#include <cmath>

#include "geometry/reeving/balance.hpp"

namespace fairlead::reeving {

Balance::Freedoms Balance::freedoms_of(Body body) const {
  Freedoms f;
  if (body == on_trolley) {
    f.each[f.count++] = {0, {wheel_gives_.dz_dW_m_per_N * in_.up, {}}};
    f.each[f.count++] = {along_travel, {in_.along + wheel_gives_.dz_dx * in_.up, {}}};
  }
  if (body < 0) return f;
  constexpr Vec3 axes[] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  for (int i = 0; i < shifts(body); ++i, ++f.count) f.each[f.count] = {first_[body] + f.count, {axes[i], {}}};
  for (int i = 0; i < turns(body); ++i, ++f.count) f.each[f.count] = {first_[body] + f.count, {{}, turn_axis(body, i)}};
  return f;
}

void Balance::vary_force(int column, const Applied& a, Vec3 turn, Vec3 arm_change, Vec3 force_change) {
  if (a.body == on_trolley) entry(0, column) += dot(force_change, in_.up);
  if (a.body < 0) return;
  const int row = first_[a.body];
  if (shifts(a.body) > 0) {
    entry(row, column) += force_change.x;
    entry(row + 1, column) += force_change.y;
    entry(row + 2, column) += force_change.z;
  }
  if (turns(a.body) == 0) return;
  const Vec3 moment = cross(cross(turn, a.arm) + arm_change, a.force_N) + cross(a.arm, force_change);
  for (int i = 0; i < turns(a.body); ++i) entry(row + shifts(a.body) + i, column) += dot(turn_axis(a.body, i), moment);
}

void Balance::answer_leg(int line, int k) {
  const Line& l = in_.lines[line];
  const Tension& tension = at_.lines.tension[line];
  const MetLeg& leg = at_.lines.legs[static_cast<std::size_t>(l.first_sheave + line + k)];
  LegEnd from = from_end(in_, at_.lines, line, k), to = to_end(in_, at_.lines, line, k);
  from.radius_m *= share_;
  to.radius_m *= share_;
  const Body a = from_body(in_, line, k), b = to_body(in_, line, k);
  const Applied from_pull{a, (from.centre - own_point(a)) + from.radius_m * leg.from_e, leg.hang.from_pull_N()};
  const Applied to_pull{b, (to.centre - own_point(b)) + to.radius_m * leg.to_e, leg.hang.to_pull_N()};
  const int row = tension_of(line);
  const double c = l.compliance_per_N, share = 1 - c * leg.hang.mid_tension_N;
  Wrap before, after;
  const bool off = from.radius_m > 0, on = to.radius_m > 0;
  if (off) before = wrap(line, l.first_sheave + k - 1);
  if (on) after = wrap(line, l.first_sheave + k);

  // One side's turn lengthens the arc and shifts its middle by half.
  const auto slide = [&](int column, const Wrap& w, double turn, double side) {
    const double r = w.placed.radius_m, longer = side * w.placed.sense * turn;
    entry(row, column) += r * w.unstretched_share * longer;
    const Vec3 arm_change =
        r * (w.toward * turn / 2 * cross(w.placed.axle, w.middle) + w.toward_half * longer / 2 * w.middle);
    vary_force(column, w.load, {}, arm_change, -(tension.weight_N_per_m * r * longer) * tension.up);
  };
  const auto change = [&](int column, const Move& from_move, const Move& to_move, double tension_N) {
    const MetLegChange d = vary(leg, from, to, from_move, to_move, tension_N);
    entry(row, column) += share * d.length_m - c * leg.hang.length_m * d.mid_tension_N;
    vary_force(column, from_pull, from_move.turn, from.radius_m * d.from_turn_rad * leg.from_slide.tangent,
               d.from_pull_N);
    vary_force(column, to_pull, to_move.turn, to.radius_m * d.to_turn_rad * leg.to_slide.tangent, d.to_pull_N);
    if (off) slide(column, before, d.from_turn_rad, 1);
    if (on) slide(column, after, d.to_turn_rad, -1);
  };
  const auto at_end = [&](const Move& body, Body of, Point3 centre) {
    return Move{body.shift + cross(body.turn, centre - own_point(of)), body.turn};
  };
  const Level level = level_of(in_, at_.lines, line, k);
  change(row, {}, {}, level.carried);
  // With friction a sheave's height counts on every leg on its `from` side.
  for (int j = k; j < l.sheaves && !at_.lines.tension_ratio.empty(); ++j) {
    const int sheave = l.first_sheave + j;
    const Body body = in_.sheaves[sheave].body;
    if (body < 0 || level.raised_N_per_m[j] == 0) continue;
    const Point3 centre = placed(in_, at_.lines, sheave).centre;
    const Freedoms of = freedoms_of(body);
    for (int i = 0; i < of.count; ++i)
      change(of.each[i].column, {}, {},
             level.raised_N_per_m[j] * dot(at_end(of.each[i].move, body, centre).shift, tension.up));
  }
  const Freedoms of_a = freedoms_of(a), of_b = freedoms_of(b);
  for (int i = 0; i < of_a.count; ++i) change(of_a.each[i].column, at_end(of_a.each[i].move, a, from.centre), {}, 0);
  for (int i = 0; i < of_b.count; ++i) change(of_b.each[i].column, {}, at_end(of_b.each[i].move, b, to.centre), 0);
}

/// What a wrap answers by itself, its contacts held: it goes along with its body, and its tension changes.
void Balance::answer_wrap(int line, int sheave) {
  const double compliance = in_.lines[line].compliance_per_N, wrap_rad = at_.lines.wrap_rad[sheave];
  if (in_.sheaves[sheave].radius_m == 0 || (compliance == 0 && in_.sheaves[sheave].body < 0)) return;
  const Wrap w = wrap(line, sheave);
  const Tension& tension = at_.lines.tension[line];
  const int row = tension_of(line), k = sheave - in_.lines[line].first_sheave;
  const double per_N = -compliance * w.placed.radius_m * wrap_rad;
  const Level on = level_of(in_, at_.lines, line, k), off = level_of(in_, at_.lines, line, k + 1);
  (*jacobian_)(row, row) += per_N * ((on.carried + off.carried) / 2);
  const auto rises = [&](Body body, Point3 centre, double N_per_m) {
    const Freedoms of = freedoms_of(body);
    for (int i = 0; i < of.count; ++i) {
      const auto& [column, move] = of.each[i];
      const Vec3 shift = move.shift + cross(move.turn, centre - own_point(body));
      entry(row, column) += per_N * N_per_m * dot(shift, tension.up);
    }
  };
  rises(w.placed.body, w.placed.centre, tension.weight_N_per_m);
  for (int j = k; j < in_.lines[line].sheaves && !at_.lines.tension_ratio.empty(); ++j) {
    const int other = in_.lines[line].first_sheave + j;
    rises(in_.sheaves[other].body, placed(in_, at_.lines, other).centre,
          (on.raised_N_per_m[j] + off.raised_N_per_m[j]) / 2);
  }
  const Freedoms of = freedoms_of(w.placed.body);
  for (int i = 0; i < of.count; ++i) vary_force(of.each[i].column, w.load, of.each[i].move.turn, {}, {});
}

void Balance::close_rows(bool lengths_found) {
  const int lines = static_cast<int>(in_.lines.size());
  Square& J = *jacobian_;
  for (int l = 0; l < lines; ++l) {
    const int row = tension_of(l);
    if (l == in_.braking) {
      std::copy_n(J.row(row).begin(), size_, drawn_.begin());
      drawn_per_travel_ = per_travel_[row];
      for (double& x : J.row(row)) x *= -at_.retraction_slope;
      per_travel_[row] *= -at_.retraction_slope;
      J(row, row) += 1;
    } else if (const int b = lengths_found ? -1 : rest_block(l); b >= 0) {
      for (double& x : J.row(row)) x = 0;
      per_travel_[row] = 0;
      J(row, first_[b]) = in_.along.x;
      J(row, first_[b] + 1) = in_.along.y;
      J(row, first_[b] + 2) = in_.along.z;
    }
  }
}

void Balance::scale() {
  Square& J = *jacobian_;
  const auto by_force = [&](int row) { return row < tension_of(0) || row == tension_of(in_.braking); };
  for (int i = 0; i < size_; ++i) {
    const double unit_of_row = by_force(i) ? force_N_ : 1;
    per_travel_[i] /= unit_of_row;
    for (int j = 0; j < size_; ++j) J(i, j) *= (j == 0 || j >= tension_of(0) ? force_N_ : 1) / unit_of_row;
  }
  for (int j = 0; j < size_; ++j)
    if (j == 0 || j >= tension_of(0)) drawn_[j] *= force_N_;
}

void Balance::answer(Square& jacobian, bool lengths_found) {
  jacobian_ = &jacobian;
  jacobian.clear(size_);
  std::fill_n(per_travel_.begin(), size_, 0.0);
  wheel_gives_ = respond(sweep_.state.cable, at_.shape, loads_ - 1);
  jacobian(0, 0) = 1;
  const int lines = static_cast<int>(in_.lines.size());
  for (int l = 0; l < lines; ++l) {
    const Line& line = in_.lines[l];
    for (int k = 0; k <= line.sheaves; ++k) answer_leg(l, k);
    for (int k = 0; k < line.sheaves; ++k) answer_wrap(l, line.first_sheave + k);
  }
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const Block& block = in_.blocks[b];
    const int body = static_cast<int>(b);
    const Applied weight{body, at_.lines.blocks[b].turn(block.centre_of_mass - block.drawn), -block.weight_N * in_.up};
    const Freedoms of = freedoms_of(body);
    for (int i = shifts(body); i < of.count; ++i) vary_force(of.each[i].column, weight, of.each[i].move.turn, {}, {});
  }
  close_rows(lengths_found);
  scale();
}

double Balance::drawn(std::span<const double> change, double travel_m) const {
  double sum = travel_m * drawn_per_travel_;
  for (int j = 0; j < size_; ++j) sum += drawn_[j] * change[j];
  return sum;
}

}  // namespace fairlead::reeving
