#include "geometry/reeving/balance.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/reeving/pose.hpp"

namespace fairlead::reeving {
namespace {

constexpr int travel_column = -1, carried_column = 0;

}  // namespace

Balance::Balance(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, double travel_m, Station& at)
    : in_(in), sweep_(sweep), outlet_(outlet), travel_m_(travel_m), at_(at) {
  const bool apart = travel_m < 0 && sweep.rider_weight_N > 0;
  if (apart) load_[static_cast<std::size_t>(count_++)] = {in.rest_m + travel_m, sweep.rider_weight_N};
  weight_N_ = sweep.trolley_weight_N + (apart ? 0 : sweep.rider_weight_N);
  load_[static_cast<std::size_t>(count_++)] = {apart ? in.rest_m : in.rest_m + travel_m, weight_N_};
  size_ = 1;
  for (std::size_t b = 0; b < in.blocks.size(); ++b) {
    first_[b] = size_;
    size_ += freedoms(static_cast<int>(b));
  }
  size_ += static_cast<int>(in.lines.size());
  at_.lines.legs.resize(in.legs());
  at_.lines.wrap_rad.resize(in.sheaves.size());
  at_.lines.length_m.resize(in.lines.size());
  at_.lines.unstretched_m.resize(in.lines.size());
  force_N_ = weight_N_;
  for (const Tension& tension : at_.lines.tension) force_N_ = std::max(force_N_, tension.at_N);
}

Vec3 Balance::load_of(int line) const {
  const Line& l = in_.lines[static_cast<std::size_t>(line)];
  return l.diameter_m * sweep_.wind_Pa - l.weight_N_per_m * in_.up;
}

double Balance::own_length_m(int line) const {
  const auto l = static_cast<std::size_t>(line);
  return in_.lines[l].closing == Closing::length ? sweep_.state.unstretched_m[l] : outlet_.unstretched_m[l];
}

double Balance::extension_m() const {
  if (resting()) return in_.rest_extension_m;
  const auto l = static_cast<std::size_t>(in_.braking);
  return in_.rest_extension_m + at_.lines.unstretched_m[l] - outlet_.unstretched_m[l];
}

tl::expected<void, Unsolved> Balance::stand() {
  load_[static_cast<std::size_t>(count_ - 1)].weight_N = at_.carried_N;
  const bool warm = at_.shape.loads == count_;
  auto shape = mainline::hang_rolling(sweep_.state.cable, loads(), warm ? &at_.shape : nullptr);
  if (!shape) return tl::unexpected(shape.error());
  at_.shape = *shape;
  at_.lines.attachment = in_.origin + wheel().x_m * in_.along + wheel().z_m * in_.up + in_.attachment;
  return {};
}

tl::expected<void, Unsolved> Balance::hang() {
  if (auto stood = stand(); !stood) return stood;
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    load(at_.lines.tension[l], load_of(static_cast<int>(l)), in_.up);
    if (auto hung = hang_line(in_, static_cast<int>(l), at_.lines); !hung) return hung;
  }
  weigh();
  return {};
}

void Balance::pull(Body body, Point3 at, Vec3 force_N) {
  if (body == on_trolley) residual_[0] += dot(force_N, in_.up);
  if (body < 0) return;
  pull_N_[static_cast<std::size_t>(body)] += force_N;
  moment_N_m_[static_cast<std::size_t>(body)] += cross(at - point_of(body), force_N);
}

Balance::Wrap Balance::wrap_of(int line, const Sheave& s, int sheave) const {
  const double wrap = at_.lines.wrap_rad[static_cast<std::size_t>(sheave)], half = wrap / 2;
  const Vec3 on_e = at_.lines
                        .legs[in_.legs_before(static_cast<std::size_t>(line)) +
                              static_cast<std::size_t>(sheave - in_.lines[static_cast<std::size_t>(line)].first_sheave)]
                        .to_e;
  Wrap r;
  r.load_N = s.radius_m * wrap * load_of(line);
  r.middle_e = std::cos(half) * on_e + s.sense * std::sin(half) * cross(s.axle, on_e);
  r.toward = half > 0 ? std::sin(half) / half : 1;
  r.toward_per_half = half > 0 ? (std::cos(half) - r.toward) / half : 0;
  r.arm = s.radius_m * r.toward * r.middle_e;
  return r;
}

void Balance::weigh() {
  residual_.fill(0);
  pull_N_.fill({});
  moment_N_m_.fill({});
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const Block& block = in_.blocks[b];
    pull(static_cast<Body>(b), at_.lines.blocks[b].move(block.centre_of_mass, block.drawn), -block.weight_N * in_.up);
  }
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const int line = static_cast<int>(l);
    for (int k = 0; k <= in_.lines[l].sheaves; ++k) {
      const MetLeg& leg = at_.lines.legs[in_.legs_before(l) + static_cast<std::size_t>(k)];
      const LegEnd from = from_end(in_, at_.lines, line, k), to = to_end(in_, at_.lines, line, k);
      pull(from_body(in_, line, k), from.centre + from.radius_m * leg.from_e, leg.hang.from_pull_N());
      pull(to_body(in_, line, k), to.centre + to.radius_m * leg.to_e, leg.hang.to_pull_N());
    }
    for (int k = 0; k < in_.lines[l].sheaves; ++k) {
      const int sheave = in_.lines[l].first_sheave + k;
      const Sheave s = placed(in_, at_.lines, sheave);
      if (s.body < 0 || s.radius_m == 0) continue;
      const Wrap wrap = wrap_of(line, s, sheave);
      pull(s.body, s.centre + wrap.arm, wrap.load_N);
    }
  }
  residual_[0] = (residual_[0] + at_.carried_N - weight_N_) / force_N_;
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const auto put = [&](int row, Vec3 v) {
      const auto r = static_cast<std::size_t>(row);
      residual_[r] = v.x / force_N_;
      residual_[r + 1] = v.y / force_N_;
      residual_[r + 2] = v.z / force_N_;
    };
    put(first_[b], pull_N_[b]);
    if (freedoms(static_cast<int>(b)) == 6) put(first_[b] + 3, moment_N_m_[b]);
  }
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    double& row = residual_[static_cast<std::size_t>(tension_of(static_cast<int>(l)))];
    switch (in_.lines[l].closing) {
      case Closing::unit: {
        const double T = at_.lines.tension[l].at_N;
        row =
            (T - (outlet_.held_tension_N ? *outlet_.held_tension_N : in_.unit.retraction_N(extension_m()))) / force_N_;
        at_.retraction_slope =
            outlet_.held_tension_N || resting() ? 0 : slope_after(in_.unit.retraction_N, extension_m());
        break;
      }
      case Closing::block_at_rest:
        if (!resting()) {
          row = at_.lines.unstretched_m[l] - own_length_m(static_cast<int>(l));
        } else {
          // The lines that close on blocks and the blocks that rest somewhere stand in the same order.
          row = 0;
        }
        break;
      case Closing::length:
        row = at_.lines.unstretched_m[l] - own_length_m(static_cast<int>(l));
        break;
    }
  }
  if (!resting()) return;
  std::size_t block = 0;
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    if (in_.lines[l].closing != Closing::block_at_rest) continue;
    while (!in_.blocks[block].rest_m) ++block;
    residual_[static_cast<std::size_t>(tension_of(static_cast<int>(l)))] =
        dot(at_.lines.blocks[block].at - in_.origin, in_.along) - *in_.blocks[block].rest_m;
    ++block;
  }
}

/// Calls use(column, Move of `centre`) for everything that moves with the body.
template <class Use>
void Balance::each_freedom(Body body, Point3 centre, Use use) const {
  if (body == on_trolley) {
    use(carried_column, Move{wheel_gives_.dz_dW_m_per_N * in_.up, {}});
    if (moving()) use(travel_column, Move{in_.along + wheel_gives_.dz_dx * in_.up, {}});
  }
  if (body < 0) return;
  constexpr Vec3 axes[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  const int first = first_of(body);
  for (int i = 0; i < 3; ++i) use(first + i, Move{axes[i], {}});
  if (freedoms(body) == 3) return;
  for (int i = 0; i < 3; ++i) use(first + 3 + i, Move{cross(axes[i], centre - point_of(body)), axes[i]});
}

void Balance::vary_pull(Body body, int column, Vec3 arm, Vec3 arm_change, Vec3 force_N, Vec3 force_change) {
  if (body == on_trolley) entry(0, column) += dot(force_change, in_.up);
  if (body < 0) return;
  const int first = first_of(body);
  const auto add = [&](int row, Vec3 v) {
    entry(row, column) += v.x;
    entry(row + 1, column) += v.y;
    entry(row + 2, column) += v.z;
  };
  add(first, force_change);
  if (freedoms(body) == 6) add(first + 3, cross(arm, force_change) + cross(arm_change, force_N));
}

void Balance::vary_leg(int line, int leg, int column, const Move& from_move, const Move& to_move, double tension_N) {
  const auto l = static_cast<std::size_t>(line);
  const MetLeg& met = at_.lines.legs[in_.legs_before(l) + static_cast<std::size_t>(leg)];
  const LegEnd from = from_end(in_, at_.lines, line, leg), to = to_end(in_, at_.lines, line, leg);
  const MetLegChange change = vary(met, from, to, from_move, to_move, tension_N);
  const double c = in_.lines[l].compliance_per_N;
  length_row(line, column) +=
      change.length_m * (1 - c * met.hang.mid_tension_N) - c * met.hang.length_m * change.mid_tension_N;
  const auto end = [&](Body body, const LegEnd& e, Vec3 radius_e, const Move& move, double turn_rad, Vec3 force_N,
                       Vec3 force_change) {
    if (body == on_ground) return;
    if (body == on_trolley) return vary_pull(body, column, {}, {}, force_N, force_change);
    const Vec3 slid = (turn_rad * e.radius_m) * cross(e.axle, radius_e);
    const bool own = column >= first_of(body) + 3 && column < first_of(body) + 6;  // a turn of this very body
    const Vec3 arm = e.centre + e.radius_m * radius_e - point_of(body);
    vary_pull(body, column, arm, own ? cross(move.turn, arm) + slid : slid, force_N, force_change);
  };
  end(from_body(in_, line, leg), from, met.from_e, from_move, change.from_turn_rad, met.hang.from_pull_N(),
      change.from_pull_N);
  end(to_body(in_, line, leg), to, met.to_e, to_move, change.to_turn_rad, met.hang.to_pull_N(), change.to_pull_N);
  // The wraps at both ends follow their contacts.
  const int first = in_.lines[l].first_sheave;
  if (leg > 0) slide_wrap(line, first + leg - 1, column, change.from_turn_rad, change.from_turn_rad);
  if (leg < in_.lines[l].sheaves) slide_wrap(line, first + leg, column, -change.to_turn_rad, change.to_turn_rad);
}

/// The wrap grows by sense times the turn of its off contact less that of its on contact, and its middle turns by half
/// their sum.
void Balance::slide_wrap(int line, int sheave, int column, double off_less_on, double on_and_off) {
  const Sheave s = placed(in_, at_.lines, sheave);
  if (s.radius_m == 0) return;
  const auto l = static_cast<std::size_t>(line);
  const double wrap_change = s.sense * off_less_on;
  length_row(line, column) +=
      s.radius_m * wrap_change * (1 - in_.lines[l].compliance_per_N * at_.lines.tension[l](s.centre));
  if (s.body < 0) return;
  const Wrap wrap = wrap_of(line, s, sheave);
  const Vec3 arm_change = s.radius_m * (wrap.toward * (on_and_off / 2) * cross(s.axle, wrap.middle_e) +
                                        wrap.toward_per_half * (wrap_change / 2) * wrap.middle_e);
  vary_pull(s.body, column, s.centre + wrap.arm - point_of(s.body), arm_change, wrap.load_N,
            s.radius_m * wrap_change * load_of(line));
}

void Balance::answer_leg(int line, int leg) {
  const Move still;
  const LegEnd from = from_end(in_, at_.lines, line, leg), to = to_end(in_, at_.lines, line, leg);
  const Body from_on = from_body(in_, line, leg), to_on = to_body(in_, line, leg);
  vary_leg(line, leg, tension_of(line), still, still, 1);
  if (from_on == to_on && from_on >= 0) {
    // Both ends on one block: they move together.
    each_freedom(from_on, from.centre, [&](int column, const Move& move) {
      const Move other{move.shift + cross(move.turn, to.centre - from.centre), move.turn};
      vary_leg(line, leg, column, move, other, 0);
    });
    return;
  }
  each_freedom(from_on, from.centre,
               [&](int column, const Move& move) { vary_leg(line, leg, column, move, still, 0); });
  each_freedom(to_on, to.centre, [&](int column, const Move& move) { vary_leg(line, leg, column, still, move, 0); });
}

/// What a wrap itself answers: its tension, and its load's arm when its block turns.
void Balance::answer_wrap(int line, int sheave) {
  const Sheave s = placed(in_, at_.lines, sheave);
  if (s.radius_m == 0) return;
  const auto l = static_cast<std::size_t>(line);
  const double stretch =
      in_.lines[l].compliance_per_N * s.radius_m * at_.lines.wrap_rad[static_cast<std::size_t>(sheave)];
  const Tension& tension = at_.lines.tension[l];
  length_row(line, tension_of(line)) -= stretch;
  if (s.body < 0) return;
  const Wrap wrap = wrap_of(line, s, sheave);
  const Vec3 arm = s.centre + wrap.arm - point_of(s.body);
  each_freedom(s.body, s.centre, [&](int column, const Move& move) {
    length_row(line, column) -= stretch * tension.weight_N_per_m * dot(move.shift, tension.up);
    vary_pull(s.body, column, arm, cross(move.turn, arm), wrap.load_N, {});
  });
}

void Balance::answer(Square& jacobian) {
  jacobian_ = &jacobian;
  jacobian.clear(size_);
  per_travel_.fill(0);
  length_per_travel_.fill(0);
  for (std::size_t l = 0; l < in_.lines.size(); ++l) std::fill_n(length_per_[l].begin(), size_, 0.0);
  wheel_gives_ = respond(sweep_.state.cable, at_.shape, count_ - 1);
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    for (int k = 0; k <= in_.lines[l].sheaves; ++k) answer_leg(static_cast<int>(l), k);
    for (int k = 0; k < in_.lines[l].sheaves; ++k) answer_wrap(static_cast<int>(l), in_.lines[l].first_sheave + k);
  }
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    if (in_.blocks[b].attitude_held) continue;
    const Vec3 arm =
        at_.lines.blocks[b].move(in_.blocks[b].centre_of_mass, in_.blocks[b].drawn) - at_.lines.blocks[b].at;
    const Vec3 weight = -in_.blocks[b].weight_N * in_.up;
    each_freedom(static_cast<Body>(b), at_.lines.blocks[b].at, [&](int column, const Move& move) {
      vary_pull(static_cast<Body>(b), column, arm, cross(move.turn, arm), weight, {});
    });
  }
  entry(0, carried_column) += 1;
  // Forces in units of force_N_; a column of W or a tension is per force_N_ as well.
  const int tensions = tension_of(0);
  for (int row = 0; row < tensions; ++row) {
    per_travel_[static_cast<std::size_t>(row)] /= force_N_;
    for (int column = 0; column < size_; ++column)
      if (column != carried_column && column < tensions) jacobian(row, column) /= force_N_;
  }
  close_lines();
}

void Balance::close_lines() {
  const int tensions = tension_of(0);
  Square& jacobian = *jacobian_;
  std::size_t block = 0;
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const int line = static_cast<int>(l), row = tension_of(line);
    Column& length = length_per_[l];
    length[carried_column] *= force_N_;
    for (int column = tensions; column < size_; ++column) length[static_cast<std::size_t>(column)] *= force_N_;
    if (in_.lines[l].closing == Closing::unit) {
      const double follow = at_.retraction_slope / force_N_;
      for (int column = 0; column < size_; ++column)
        jacobian(row, column) = -follow * length[static_cast<std::size_t>(column)];
      jacobian(row, row) += 1;
      per_travel_[static_cast<std::size_t>(row)] = -follow * length_per_travel_[l];
    } else if (in_.lines[l].closing == Closing::block_at_rest && resting()) {
      while (!in_.blocks[block].rest_m) ++block;
      const int first = first_[block++];
      jacobian(row, first) = in_.along.x;
      jacobian(row, first + 1) = in_.along.y;
      jacobian(row, first + 2) = in_.along.z;
    } else {
      for (int column = 0; column < size_; ++column) jacobian(row, column) = length[static_cast<std::size_t>(column)];
      per_travel_[static_cast<std::size_t>(row)] = length_per_travel_[l];
    }
  }
}

double Balance::drawn_out_m(std::span<const double> change, double travel_m) const {
  const auto l = static_cast<std::size_t>(in_.braking);
  double out_m = length_per_travel_[l] * travel_m;
  for (std::size_t i = 0; i < change.size(); ++i) out_m += length_per_[l][i] * change[i];
  return out_m;
}

void Balance::advance(std::span<const double> step) {
  at_.carried_N += step[0] * force_N_;
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const auto first = static_cast<std::size_t>(first_[b]);
    Placement& p = at_.lines.blocks[b];
    p.at = p.at + Vec3{step[first], step[first + 1], step[first + 2]};
    if (in_.blocks[b].attitude_held) continue;
    const Vec3 turn{step[first + 3], step[first + 4], step[first + 5]};
    const double angle = norm(turn);
    if (!(angle > 0)) continue;
    const Vec3 k = (1 / angle) * turn;
    const auto turned = [&](Vec3 v) {
      return std::cos(angle) * v + std::sin(angle) * cross(k, v) + (1 - std::cos(angle)) * dot(k, v) * k;
    };
    p.turned_x = unit(turned(p.turned_x));
    p.turned_y = turned(p.turned_y);
    p.turned_y = unit(p.turned_y - dot(p.turned_y, p.turned_x) * p.turned_x);
    p.turned_z = cross(p.turned_x, p.turned_y);
  }
  for (std::size_t l = 0; l < in_.lines.size(); ++l)
    at_.lines.tension[l].at_N += step[static_cast<std::size_t>(tension_of(static_cast<int>(l)))] * force_N_;
}

}  // namespace fairlead::reeving
