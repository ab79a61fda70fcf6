#include "geometry/reeving/balance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/reeving/table_slope.hpp"

namespace fairlead::reeving {
namespace {

/// Turned axes drift from unit by rounding; they are made right again once a pose.
void straighten(Placement& p) {
  p.turned_x = unit(p.turned_x);
  p.turned_y = unit(p.turned_y - dot(p.turned_y, p.turned_x) * p.turned_x);
  p.turned_z = cross(p.turned_x, p.turned_y);
}

void turn(Placement& p, Vec3 by) {
  const double angle = norm(by);
  if (!(angle > 0)) return;
  const Vec3 axis = (1 / angle) * by;
  const double c = std::cos(angle), s = std::sin(angle);
  for (Vec3* v : {&p.turned_x, &p.turned_y, &p.turned_z})
    *v = c * *v + s * cross(axis, *v) + ((1 - c) * dot(axis, *v)) * axis;
}

}  // namespace

std::optional<Unsolved> unfit(const Inputs& in) {
  const auto rests =
      std::count_if(in.blocks.begin(), in.blocks.end(), [](const Block& b) { return b.rest_m.has_value(); });
  const auto closed = std::count_if(in.lines.begin(), in.lines.end(),
                                    [](const Line& l) { return l.closing == Closing::block_at_rest; });
  if (rests != closed)
    return Unsolved{
        fmt::format("{} blocks have a place at rest, and {} lines take their length from one", rests, closed),
        double(rests), 0};
  std::size_t unknowns = 1 + in.lines.size();
  for (const Block& b : in.blocks) unknowns += static_cast<std::size_t>((b.shifts() ? 3 : 0) + b.turns());
  const bool short_enough =
      std::all_of(in.lines.begin(), in.lines.end(), [](const Line& l) { return l.sheaves <= most_on_a_line; });
  if (short_enough && in.blocks.size() <= most_blocks && unknowns <= Square::most) return std::nullopt;
  return Unsolved{
      fmt::format("a reeving of {} blocks and {} lines is more than is solved for", in.blocks.size(), in.lines.size()),
      double(unknowns), 0};
}

Balance::Balance(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, double travel_m, Station& at)
    : in_(in), sweep_(sweep), outlet_(outlet), travel_m_(travel_m), at_(at) {
  const bool apart = travel_m < 0 && sweep.rider_weight_N > 0;
  if (apart) load_[loads_++] = {in.rest_m + travel_m, sweep.rider_weight_N};
  weight_N_ = sweep.trolley_weight_N + (apart ? 0 : sweep.rider_weight_N);
  load_[loads_++] = {apart ? in.rest_m : in.rest_m + travel_m, weight_N_};

  force_N_ = outlet.held_tension_N ? *outlet.held_tension_N : in.unit.retraction_N(in.rest_extension_m);
  force_N_ = std::max(force_N_, 1e-3 * weight_N_);
  for (const Block& block : in.blocks) force_N_ = std::max(force_N_, block.weight_N);

  Reeved& lines = at_.lines;
  lines.blocks.resize(in.blocks.size());
  lines.tension.resize(in.lines.size());
  lines.legs.resize(in.legs());
  lines.leg_tension.resize(in.legs());
  lines.tension_ratio = outlet.tension_ratio;
  lines.wrap_rad.resize(in.sheaves.size());
  lines.length_m.resize(in.lines.size());
  lines.unstretched_m.resize(in.lines.size());
  at_.fleet_rad.resize(in.sheaves.size());
  at_.held_N.resize(in.blocks.size());
  at_.held_couple_N_m.resize(in.blocks.size());
  at_.rates.tension_N_per_m.resize(in.lines.size());
  at_.rates.blocks.resize(in.blocks.size());
  for (Placement& block : lines.blocks) straighten(block);
  shift_places(Point3{} - in.origin);
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    lines.tension[l].datum = in.lines[l].to.body == on_trolley ? in.origin : in.lines[l].to.at;
  for (Tension& t : lines.tension) t.datum = t.datum - lines.counted_from;
  count(1);
  release(true);
}

void Balance::count(double share) {
  share_ = share;
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const Line& line = in_.lines[l];
    const Vec3 full = line.diameter_m * sweep_.wind_Pa - line.weight_N_per_m * in_.up;
    load(at_.lines.tension[l], share * full, in_.up);
  }
}

void Balance::release(bool turning) {
  turning_ = turning;
  int next = 1;
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    first_[b] = next;
    next += freedoms(static_cast<int>(b));
  }
  size_ = next + static_cast<int>(in_.lines.size());
}

void Balance::shift_places(Vec3 by) {
  Reeved& lines = at_.lines;
  lines.counted_from = lines.counted_from - by;
  lines.attachment = lines.attachment + by;
  for (Placement& block : lines.blocks) block.at = block.at + by;
  for (Tension& t : lines.tension) t.datum = t.datum + by;
  for (Tension& t : lines.leg_tension) t.datum = t.datum + by;
}

Move Balance::move_of(int block, std::span<const double> change) const {
  const double* d = &change[first_[block]];
  Move move;
  if (shifts(block) > 0) move.shift = {d[0], d[1], d[2]};
  for (int i = 0; i < turns(block); ++i) move.turn += d[shifts(block) + i] * turn_axis(block, i);
  return move;
}

Unknowns Balance::unknowns() const {
  Unknowns u;
  u.carried_N = at_.carried_N;
  std::copy(at_.lines.blocks.begin(), at_.lines.blocks.end(), u.blocks.begin());
  for (std::size_t l = 0; l < in_.lines.size(); ++l) u.tension_N[l] = at_.lines.tension[l].at_N;
  return u;
}

void Balance::set(const Unknowns& u) {
  at_.carried_N = u.carried_N;
  std::copy_n(u.blocks.begin(), in_.blocks.size(), at_.lines.blocks.begin());
  for (std::size_t l = 0; l < in_.lines.size(); ++l) at_.lines.tension[l].at_N = u.tension_N[l];
}

void Balance::advance(std::span<const double> step, double part) {
  at_.carried_N += part * force_N_ * step[0];
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    Placement& p = at_.lines.blocks[b];
    const Move move = move_of(static_cast<int>(b), step);
    p.at = p.at + part * move.shift;
    turn(p, part * move.turn);
  }
  for (std::size_t l = 0; l < in_.lines.size(); ++l)
    at_.lines.tension[l].at_N += part * force_N_ * step[tension_of(static_cast<int>(l))];
}

double Balance::allowed(std::span<const double> step) const {
  constexpr double longest_m = 3, widest_rad = 0.5, keeps = 0.1;
  double part = 1;
  const auto keep = [&](double now, double change) {
    if (change < 0 && now > 0) part = std::min(part, (1 - keeps) * now / -change);
  };
  keep(at_.carried_N, force_N_ * step[0]);
  for (std::size_t l = 0; l < in_.lines.size(); ++l)
    keep(at_.lines.tension[l].at_N, force_N_ * step[tension_of(static_cast<int>(l))]);
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const Move move = move_of(static_cast<int>(b), step);
    part = std::min(part, longest_m / std::max(norm(move.shift), longest_m));
    part = std::min(part, widest_rad / std::max(norm(move.turn), widest_rad));
  }
  return part;
}

double Balance::own_length_m(int line) const {
  return in_.lines[line].closing == Closing::length ? sweep_.state.unstretched_m[line] : outlet_.unstretched_m[line];
}

double Balance::extension_m() const {
  return in_.rest_extension_m + (resting() ? 0 : at_.lines.unstretched_m[in_.braking] - own_length_m(in_.braking));
}

int Balance::rest_block(int line) const {
  const auto closes_so = [](const Line& l) { return l.closing == Closing::block_at_rest; };
  if (!resting() || !closes_so(in_.lines[line])) return -1;
  // The blocks with a place at rest, in order: one for each such line.
  auto which = std::count_if(in_.lines.begin(), in_.lines.begin() + line, closes_so);
  for (std::size_t b = 0; b < in_.blocks.size(); ++b)
    if (in_.blocks[b].rest_m && which-- == 0) return static_cast<int>(b);
  return -1;
}

tl::expected<void, Unsolved> Balance::stand() {
  load_[loads_ - 1].weight_N = at_.carried_N;
  const bool warm = at_.shape.loads == loads_;
  auto shape = mainline::hang_rolling(sweep_.state.cable, loads(), warm ? &at_.shape : nullptr);
  if (!shape) return tl::unexpected(shape.error());
  at_.shape = *shape;
  at_.lines.attachment = Point3{} + wheel().x_m * in_.along + wheel().z_m * in_.up + in_.attachment;
  residual_[0] = at_.carried_N - weight_N_;
  return {};
}

void Balance::add_force(const Applied& a) {
  if (a.body == on_trolley) residual_[0] += dot(a.force_N, in_.up);
  if (a.body < 0) return;
  pull_[a.body] += a.force_N;
  moment_[a.body] += cross(a.arm, a.force_N);
}

Balance::Wrap Balance::wrap(int line, int sheave) const {
  const Tension& t = at_.lines.tension[line];
  Wrap w;
  w.placed = placed(in_, at_.lines, sheave);
  w.placed.radius_m *= share_;
  const double wrap_rad = at_.lines.wrap_rad[sheave], half = wrap_rad / 2, arc_m = w.placed.radius_m * wrap_rad;
  const Vec3 on_e = at_.lines.legs[sheave + line].to_e;
  w.middle = std::cos(half) * on_e + w.placed.sense * std::sin(half) * cross(w.placed.axle, on_e);
  const bool open = std::abs(half) > 1e-4;
  w.toward = open ? std::sin(half) / half : 1 - half * half / 6;
  w.toward_half = open ? (std::cos(half) - w.toward) / half : -half / 3;
  w.load = {w.placed.body, (w.placed.centre - own_point(w.placed.body)) + w.placed.radius_m * w.toward * w.middle,
            -(t.weight_N_per_m * arc_m) * t.up};
  w.unstretched_share =
      1 - in_.lines[line].compliance_per_N *
              wrap_tension_N(in_, at_.lines, line, sheave - in_.lines[line].first_sheave, w.placed.centre);
  return w;
}

void Balance::weigh(int line) {
  const Line& l = in_.lines[line];
  const Reeved& lines = at_.lines;
  for (int k = 0; k <= l.sheaves; ++k) {
    const MetLeg& leg = lines.legs[in_.legs_before(line) + k];
    const LegEnd from = from_end(in_, lines, line, k), to = to_end(in_, lines, line, k);
    const Body a = from_body(in_, line, k), b = to_body(in_, line, k);
    add_force({a, (from.centre - own_point(a)) + share_ * from.radius_m * leg.from_e, leg.hang.from_pull_N()});
    add_force({b, (to.centre - own_point(b)) + share_ * to.radius_m * leg.to_e, leg.hang.to_pull_N()});
    if (k > 0 && from.radius_m > 0 && a >= 0) add_force(wrap(line, l.first_sheave + k - 1).load);
  }
}

void Balance::close_line(int line) {
  double& r = residual_[tension_of(line)];
  const double T = at_.lines.tension[line].at_N;
  if (line == in_.braking) {
    const double E = extension_m();
    const Curve& retraction = in_.unit.retraction_N;
    const bool fixed = outlet_.held_tension_N.has_value() || resting();
    r = (T - (outlet_.held_tension_N ? *outlet_.held_tension_N : retraction(E))) / force_N_;
    at_.retraction_slope = fixed ? 0 : slope_after(retraction, E);
  } else if (rest_block(line) >= 0) {
    const int b = rest_block(line);
    r = dot(at_.lines.blocks[b].at - Point3{}, in_.along) - *in_.blocks[b].rest_m;
  } else {
    r = at_.lines.unstretched_m[line] - own_length_m(line);
  }
}

tl::expected<void, Unsolved> Balance::hang() {
  std::fill_n(residual_.begin(), size_, 0.0);
  std::fill(pull_.begin(), pull_.end(), Vec3{});
  std::fill(moment_.begin(), moment_.end(), Vec3{});
  if (auto stood = stand(); !stood) return stood;
  const int lines = static_cast<int>(in_.lines.size());
  for (int l = 0; l < lines; ++l) {
    if (auto hung = hang_legs(in_, l, at_.lines, share_); !hung) return hung;
    weigh(l);
  }
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const Block& block = in_.blocks[b];
    const Placement& p = at_.lines.blocks[b];
    add_force({static_cast<int>(b), p.turn(block.centre_of_mass - block.drawn), -block.weight_N * in_.up});
    double* r = &residual_[first_[b]];
    if (block.shifts()) {
      *r++ = pull_[b].x;
      *r++ = pull_[b].y;
      *r++ = pull_[b].z;
    }
    for (int i = 0, body = static_cast<int>(b); i < turns(body); ++i) *r++ = dot(turn_axis(body, i), moment_[b]);
  }
  for (int i = 0; i < tension_of(0); ++i) residual_[i] /= force_N_;
  for (int l = 0; l < lines; ++l) close_line(l);
  for (const double r : residual())
    if (!std::isfinite(r)) return unsolved("the lines' balance is not a number", r);
  return {};
}

}  // namespace fairlead::reeving
