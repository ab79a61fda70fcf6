#include "geometry/reeving/between.hpp"

#include <limits>
#include <numbers>

#include "geometry/reeving/interval_rates.hpp"
#include "geometry/reeving/table_slope.hpp"
#include "geometry/reeving/wheels_between.hpp"

namespace fairlead::reeving {
namespace {

constexpr double margin = 1e-9;
constexpr double unknown = std::numeric_limits<double>::infinity();
constexpr Band anything{-unknown, unknown};

double turned(Vec3 from_e, Vec3 to_e, Vec3 axle) {
  return std::atan2(dot(cross(from_e, to_e), axle), dot(from_e, to_e));
}

/// The turn from one attitude to another as a vector, right for small ones to third order.
Vec3 turn_between(const Placement& a, const Placement& b) {
  return 0.5 * (cross(a.turned_x, b.turned_x) + cross(a.turned_y, b.turned_y) + cross(a.turned_z, b.turned_z));
}

class Interval {
 public:
  Interval(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, const Station& a, const Station& b)
      : in_(in),
        sweep_(sweep),
        outlet_(outlet),
        a_(a),
        b_(b),
        step_m_(b.pose.travel_m - a.pose.travel_m),
        moving_(a.pose.travel_m >= 0),
        legs_(in, sweep, a, moving_ ? step_m_ : 0),
        equations_(in, moving_),
        back_(in) {}

  Between bound();

 private:
  /// Whether a box is proven; it is in `box` then.
  bool enclose(Box& box);
  bool bob_and_enclose(Box& box);
  double carried_stray_N() const;
  Box guess() const;
  /// What follows from the box, in `next`; false where nothing does.
  bool follow(Box& box, Box& next);
  bool follow_wheel(Box& box, Box& next, WheelResponse<Band>& wheel) const;
  void go_on(Box& next);
  double stray_at(double width, double greatest) const;
  double stray_at(const Band3& rate) const;
  void measure_fleet(int sheave, const LegAnswer::End&, const Band3& pull_rate, Between& out) const;
  void measure_lead(const LegAnswer::End&, const Band3& pull_rate, Between& out) const;
  Band measure_leg(std::size_t leg, Between& out) const;
  bool measure_friction(const std::vector<Band>& grows_m, Box& box, Between& out) const;
  Between measure(Box& box) const;
  Between nothing_known() const;

  double height(const Station& s) const { return dot(s.pose.trolley - in_.origin, in_.up); }
  /// Of the trolley's height while it rests.
  Band bobbing() const { return wider(band_of(height(a_), height(b_)), trolley_bobs_m_); }
  /// How far the rates' own measure runs from the first pose: the travel, or upstream the trolley's rise.
  Band ahead() const { return moving_ ? Band(0, step_m_) : bobbing() - height(a_); }

  const Inputs& in_;
  const SweepInputs& sweep_;
  const Outlet& outlet_;
  const Station &a_, &b_;
  double step_m_;
  bool moving_;
  double trolley_bobs_m_ = 0, rider_bobs_m_ = 0;  ///< off straight interpolation, upstream of the mark
  double carried_off_N_ = 0;  ///< the weight on the resting trolley's wheel, at most off its even change
  IntervalLegs legs_;
  IntervalRates equations_;
  BandRates rates_;
  Band wheel_rate_N_;
  bool reaches_ = false;  ///< what follows holds the second pose
  Box back_;
};

Box Interval::guess() const {
  // Little more than the two poses: what follows from it is about what can be proven.
  const auto spread = [](double p, double q, double least) {
    return wider(band_of(p, q), 0.1 * std::abs(q - p) + least + margin);
  };
  const double rough = 1e-3 * step_m_;
  Box box(in_);
  box.fill({-1, 1});  // of no use where it stays so: the main line upstream of the mark, turns that are held
  box.extension_m() = spread(a_.pose.extension_m, b_.pose.extension_m, rough);
  box.height_m() = wider(bobbing(), margin);
  if (moving_) {
    const mainline::Wheel &p = a_.shape.wheels[0], &q = b_.shape.wheels[0];
    box.height_m() = spread(height(a_), height(b_), rough);
    box.wheel_N() = spread(p.tension_N, q.tension_N, rough * p.tension_N);
    const auto side_slopes = [&](auto side) {
      const LineSide<double> s = side(sweep_.state.cable, a_.shape, 0), t = side(sweep_.state.cable, b_.shape, 0);
      return spread(s.t_z / s.t_x, t.t_z / t.t_x, rough);
    };
    box.up_slope() = side_slopes(side_up);
    box.down_slope() = side_slopes(side_down);
  }
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const double p = a_.lines.tension[l].at_N, q = b_.lines.tension[l].at_N;
    box.tension_N(l) = spread(p, q, rough * p);
  }
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const Placement &p = a_.lines.blocks[b], &q = b_.lines.blocks[b];
    const Vec3 shift = legs_.axes().in(q.at - p.at), turn = legs_.axes().in(turn_between(p, q));
    const double shifts[3] = {shift.x, shift.y, shift.z}, turns[3] = {turn.x, turn.y, turn.z};
    for (int i = 0; i < 3; ++i) {
      box.shift_m(b)[i] = spread(0, shifts[i], rough);
      if (in_.blocks[b].turns() > 0) box.turn_rad(b)[i] = spread(0, turns[i], rough);
    }
  }
  for (std::size_t i = 0; i < 2 * in_.sheaves.size(); ++i) {
    if (in_.sheaves[i / 2].radius_m == 0) continue;
    const Vec3 axle = legs_.axes().in(placed(in_, a_.lines, static_cast<int>(i / 2)).axle);
    box.contact_rad(i) = spread(0, turned(legs_.contact_e(a_, i), legs_.contact_e(b_, i), axle), rough);
  }
  return box;
}

bool Interval::follow_wheel(Box& box, Box& next, WheelResponse<Band>& wheel) const {
  if (!moving_) return true;
  const mainline::Cable& cable = sweep_.state.cable;
  const Band x{a_.shape.wheels[0].x_m, b_.shape.wheels[0].x_m};
  const SideBand up = side_between(x, -box.height_m(), box.up_slope(), box.wheel_N(), cable);
  const SideBand down =
      side_between(cable.span_m - x, cable.rise_m - box.height_m(), box.down_slope(), box.wheel_N(), cable);
  next.up_slope() = wider(up.slope, margin / 2);
  next.down_slope() = wider(down.slope, margin / 2);
  const Band lift = legs_.leg(in_.legs_before(static_cast<std::size_t>(in_.pulling))).answer.from_end.pull_N.z;
  const Band carried = (sweep_.trolley_weight_N + sweep_.rider_weight_N) - lift;
  // Both poses' own, to the tolerance they are balanced to.
  const Band held = wider(carried, margin * carried.high);
  for (const Station* s : {&a_, &b_})
    if (!(carried.low > 0 && s->carried_N >= held.low && s->carried_N <= held.high)) return false;
  wheel = respond(up.side, down.side, box.wheel_N(), carried, cable, (a_.rates.slope + b_.rates.slope) / 2);
  return true;
}

/// The next box from the rates; and once the box is proven, what the same rates lead back to from the interval's end.
void Interval::go_on(Box& next) {
  reaches_ = true;
  const Band on = ahead(), from_end = moving_ ? -on : height(b_) - bobbing();
  const auto go = [&](Band& to, Band& back, double first, double last, Band rate, double rounding) {
    to = wider(first + rate * on, rounding / 2);
    reaches_ = reaches_ && last >= to.low && last <= to.high;
    back = wider(last + (moving_ ? rate * from_end : -(rate * from_end)), rounding);
  };
  if (moving_) {
    go(next.height_m(), back_.height_m(), height(a_), height(b_), rates_.height, margin);
    const double p = a_.shape.wheels[0].tension_N, q = b_.shape.wheels[0].tension_N;
    go(next.wheel_N(), back_.wheel_N(), p, q, wheel_rate_N_, margin * p);
  } else {
    next.height_m() = bobbing();
    next.wheel_N() = next.up_slope() = next.down_slope() = 0;
  }
  go(next.extension_m(), back_.extension_m(), a_.pose.extension_m, b_.pose.extension_m, rates_.extension, margin);
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const double p = a_.lines.tension[l].at_N, q = b_.lines.tension[l].at_N;
    go(next.tension_N(l), back_.tension_N(l), p, q, rates_.tension_N[l], margin * p);
  }
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const Vec3 moved = legs_.axes().in(b_.lines.blocks[b].at - a_.lines.blocks[b].at);
    const double last[3] = {moved.x, moved.y, moved.z};
    const Band shift[3] = {rates_.shift[b].x, rates_.shift[b].y, rates_.shift[b].z},
               turn[3] = {rates_.turn[b].x, rates_.turn[b].y, rates_.turn[b].z};
    // The rate v' of a turn as a vector v differs from the turning w by w x v / 2 and less than |w| |v|^2 / 10 where v
    // stays below one; |v| is nowhere above the integral of |w|.
    const double most = longest(rates_.turn[b]) * on.greatest_size();
    const double off = most < 1 ? most * most * (0.25 + most / 30) : unknown;
    for (int i = 0; i < 3; ++i) {
      go(next.shift_m(b)[i], back_.shift_m(b)[i], 0, last[i], shift[i], margin);
      next.turn_rad(b)[i] = in_.blocks[b].turns() > 0 ? wider(turn[i] * on, off + margin / 2) : Band(0);
    }
  }
}

bool Interval::follow(Box& box, Box& next) {
  next.fill(0);
  const TableBand table = table_between(in_.unit.retraction_N, box.extension_m());
  const auto braking = static_cast<std::size_t>(in_.braking);
  const Band slope = outlet_.held_tension_N ? Band(0) : table.slope;
  if (!legs_.hang(box)) return false;
  for (std::size_t i = 0; i < 2 * in_.sheaves.size(); ++i)
    if (in_.sheaves[i / 2].radius_m > 0) next.contact_rad(i) = wider(legs_.contact(i), margin / 2);
  WheelResponse<Band> wheel;
  if (!follow_wheel(box, next, wheel) || !equations_.solve(legs_, box, wheel, slope, rates_)) return false;
  wheel_rate_N_ = wheel.tension_per_m(rates_.height);
  go_on(next);
  // The unit pulls as its table says, whatever its rate.
  if (!outlet_.held_tension_N)
    next.tension_N(braking) = both(next.tension_N(braking), wider(table.value, margin / 2 * table.value.high));
  return true;
}

/// A quantity whose rate lies in a band of width W over a step strays from straight interpolation by at most W step /
/// 4. Upstream of the mark the rates are by the trolley's rise, which strays itself.
double Interval::stray_at(double width, double greatest) const {
  return (moving_ ? width * step_m_ / 4 : width * ahead().greatest_size() + greatest * trolley_bobs_m_) + margin;
}

double Interval::stray_at(const Band3& rate) const { return stray_at(norm(rate.width()), longest(rate)); }

/// The fleet angle at a leg's end: what its direction over the box says, and its sine, u . k, by the rate.
void Interval::measure_fleet(int sheave, const LegAnswer::End& end, const Band3& pull_rate, Between& out) const {
  const auto s = static_cast<std::size_t>(sheave);
  const Band3 &axle = legs_.axle(s), u = end.unit(), level = cross(u, axle);
  const double in_plane = std::sqrt(squared(level.x).low + squared(level.y).low + squared(level.z).low);
  const double over_box = std::atan2(dot(u, axle).greatest_size(), in_plane) + margin;
  const Body on = in_.sheaves[s].body;
  Band rate = dot(end.unit_rate(u, pull_rate), axle);
  if (on >= 0) rate += dot(u, cross(rates_.turn[static_cast<std::size_t>(on)], axle));
  const double most = std::sin(std::max(a_.fleet_rad[s], b_.fleet_rad[s])),
               sine = most + stray_at(rate.width(), rate.greatest_size());
  out.fleet_rad[s] = greater(out.fleet_rad[s], sine < 1 ? std::min(over_box, std::asin(sine)) : over_box);
}

/// The lead angle likewise, by the part of u square to the outlet's axis.
void Interval::measure_lead(const LegAnswer::End& end, const Band3& pull_rate, Between& out) const {
  const Vec3 axis = legs_.axes().in(in_.outlet_axis);
  const Band3 u = end.unit();
  const double ahead = dot(axis, u).low;
  out.lead_rad = std::atan2(longest(cross(u, axis)), ahead) + margin;
  const double most = std::sin(std::max(a_.pose.lead_rad, b_.pose.lead_rad)),
               sine = most + stray_at(cross(end.unit_rate(u, pull_rate), axis));
  if (ahead > 0 && sine < 1) out.lead_rad = std::min(out.lead_rad, std::asin(sine));
}

/// Also by how much the leg and what it gives to its wraps grow, per metre of travel.
Band Interval::measure_leg(std::size_t i, Between& out) const {
  const LegOver& leg = legs_.leg(i);
  const LegAnswer& answer = leg.answer;
  const LegReply reply = answer.reply(equations_.motion_of(leg, rates_), equations_.tension_rate(leg, legs_, rates_));
  double ends_m = 0;
  // An end's own rate, its contact's turn with it. On the way its angles, by the rate of the leg's pull alone: without
  // what the wrap gains.
  const auto end_rate = [&](bool first) {
    const EndBand& at = first ? leg.from : leg.to;
    const LegAnswer::End& pull = first ? answer.from_end : answer.to_end;
    const LegAnswer::Slide& slide = first ? answer.from : answer.to;
    const int sheave = first ? leg.from_sheave : leg.to_sheave;
    const Band turn = first ? reply.from_turn_rad : reply.to_turn_rad;
    Band3 rate = equations_.shift_of(first ? leg.from_on : leg.to_on, at.arm, rates_),
          pull_rate = first ? reply.from_pull_N : reply.to_pull_N;
    if (slide.slides) {
      rate += turn * slide.move;
      pull_rate += (answer.load_N_per_m * slide.gain_m * turn) * Band3(answer.against_load);
      measure_fleet(sheave, pull, pull_rate, out);
    }
    if (sheave >= 0) {
      const auto part = [&](Band b) { return stray_at(b.width(), b.greatest_size()) - margin; };
      out.contacts_m[static_cast<std::size_t>(2 * sheave + (first ? 1 : 0))] = {part(rate.x), part(rate.y),
                                                                                part(rate.z)};
    } else if (!first && leg.line == in_.braking) {
      measure_lead(pull, pull_rate, out);
    }
    ends_m = greater(ends_m, stray_at(rate));
    return rate;
  };
  out.least_tension_N[i] =
      least_tension_N(answer.leg, std::min(answer.from_end.tension_N.low, answer.to_end.tension_N.low));
  const Band3 from_rate = end_rate(true), span_rate = end_rate(false) - from_rate;
  const SagRate sag =
      sag_rate(answer.leg, legs_.in_line_axes(leg.line, span_rate), reply.mid_N, ahead().greatest_size());
  out.stray.legs_m[i] = ends_m + stray_at(sag.width, sag.greatest);
  return reply.length_m;
}

/// What the sheaves take of the reduction's work; false where one of them may turn against what its friction supposes.
bool Interval::measure_friction(const std::vector<Band>& grows_m, Box& box, Between& out) const {
  const std::vector<double>& ratios = a_.lines.tension_ratio;
  out.efficiency = anything;
  if (ratios.empty() || !moving_) return true;
  const bool out_of_unit = sweep_.friction == Friction::paying_out;
  Band lost_N(0);
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    Band flow(0);
    for (int k = 0; k < in_.lines[l].sheaves; ++k) {
      const std::size_t on = in_.legs_before(l) + static_cast<std::size_t>(k);
      flow += grows_m[on];
      const int sheave = in_.lines[l].first_sheave + k;
      const double ratio = ratios[static_cast<std::size_t>(sheave)];
      if (ratio == 1) continue;
      const bool toward_from = (ratio > 1) == out_of_unit;
      if (!(toward_from ? flow.low > 0 : flow.high < 0)) return false;
      const Band tension_N = legs_.tension_N(legs_.leg(on + 1), legs_.centre(sheave).at, box);
      lost_N += std::abs(ratio - 1) * (tension_N * size_of(flow));
    }
  }
  const Band3& pull_N = legs_.leg(in_.legs_before(static_cast<std::size_t>(in_.pulling))).answer.from_end.pull_N;
  const Band work_N = -(pull_N.x + pull_N.z * rates_.height);
  if (!(work_N.low > 0)) return true;
  // Work comes with its share lost: both forms fall with the loss and rise with the work.
  const auto share = [&](double work, double lost) { return out_of_unit ? 1 - lost / work : work / (work + lost); };
  out.efficiency = wider({share(work_N.low, lost_N.high), share(work_N.high, lost_N.low)}, margin);
  return true;
}

Between Interval::measure(Box& box) const {
  Between out = nothing_known();
  out.pay_out = moving_ ? wider(rates_.extension, margin) : anything;
  out.extension_m = box.extension_m();
  Stray& stray = out.stray;
  stray.trolley_m = moving_ ? stray_at(rates_.height.width(), 0) : trolley_bobs_m_;
  stray.rider_m = moving_ ? stray.trolley_m : rider_bobs_m_;
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    constexpr double reach_m = 0.5;
    // The arm of a point turns with the block.
    const double spin = longest(rates_.turn[b]), turned_rad = spin * ahead().greatest_size();
    stray.blocks_m[b] =
        stray_at(rates_.shift[b]) + reach_m * stray_at(norm(rates_.turn[b].width()) + spin * turned_rad, spin);
  }
  std::fill(out.fleet_rad.begin(), out.fleet_rad.end(), 0);
  for (std::size_t s = 0; s < in_.sheaves.size(); ++s)
    out.wrap_rad[s] = in_.sheaves[s].radius_m > 0 ? wider(legs_.wrap_rad(static_cast<int>(s), box), margin) : Band(0);
  std::vector<Band> grows_m;
  for (std::size_t i = 0; i < legs_.size(); ++i) grows_m.push_back(measure_leg(i, out));
  return measure_friction(grows_m, box, out) ? out : nothing_known();
}

Between Interval::nothing_known() const {
  Between r;
  for (const Sheave& s : in_.sheaves) r.fleet_rad.push_back(s.radius_m > 0 ? std::numbers::pi / 2 : 0);
  r.lead_rad = std::numbers::pi;
  r.pay_out = r.extension_m = r.efficiency = anything;
  r.wrap_rad.assign(in_.sheaves.size(), anything);
  r.least_tension_N.assign(in_.legs(), -unknown);
  r.contacts_m.assign(2 * in_.sheaves.size(), {unknown, unknown, unknown});
  r.stray = {unknown, unknown, std::vector<double>(in_.blocks.size(), unknown),
             std::vector<double>(in_.legs(), unknown)};
  return r;
}

/// How far the weight on the resting trolley's wheel can be off its even change, by its line's pull.
double Interval::carried_stray_N() const {
  const LegOver& leg = legs_.leg(in_.legs_before(static_cast<std::size_t>(in_.pulling)));
  const LegReply reply =
      leg.answer.reply(equations_.motion_of(leg, rates_), equations_.tension_rate(leg, legs_, rates_));
  return stray_at(reply.from_pull_N.z.width(), reply.from_pull_N.z.greatest_size());
}

bool Interval::enclose(Box& box) {
  box = guess();
  Box next(in_);
  constexpr int tries = 10;
  for (int i = 0; i < tries; ++i) {
    back_.fill(anything);
    if (!follow(box, next)) return false;
    if (i > 0 && reaches_ && box.encloses(next)) {
      // Proven: what follows and what leads back from the far end hold as well.
      const auto narrowed = [](Band a, Band b) { return both(a, b); };
      box.each(next, narrowed);
      if (moving_) box.each(back_, narrowed);
      return true;
    }
    // The next box is what followed, and a little: by turns the bands of a steady rig settle from any start.
    box = next;
    box.each(next, [](Band a, Band) { return wider(a, 0.15 * a.width() + margin); });
  }
  return false;
}

/// The wheels' heights follow from the weight they carry, and that from the trolley's height: a box is proven where the
/// weight that follows from it lies strictly within what its heights follow from.
bool Interval::bob_and_enclose(Box& box) {
  trolley_bobs_m_ = rider_bobs_m_ = margin;
  if (sweep_.rider_weight_N == 0) return enclose(box);
  const auto carried_N = [&](const Station& s) {
    return s.carried_N - (s.pose.travel_m < 0 ? 0 : sweep_.rider_weight_N);
  };
  carried_off_N_ = 0.1 * std::abs(carried_N(b_) - carried_N(a_)) + margin * carried_N(a_);
  constexpr int tries = 3;
  for (int i = 0; i < tries; ++i) {
    const auto bobs_m = wheels_between(sweep_.state.cable, a_.shape, b_.shape, {0, carried_off_N_}).wheel_m;
    rider_bobs_m_ = bobs_m[0], trolley_bobs_m_ = bobs_m[1];
    if (!(std::isfinite(rider_bobs_m_ + trolley_bobs_m_) && enclose(box))) return false;
    const double follows_N = carried_stray_N();
    if (follows_N < carried_off_N_) return true;
    carried_off_N_ = 2 * follows_N;
  }
  return false;
}

Between Interval::bound() {
  Box box(in_);
  return (moving_ ? enclose(box) : bob_and_enclose(box)) ? measure(box) : nothing_known();
}

}  // namespace

Between between(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, const Station& a, const Station& b) {
  return Interval(in, sweep, outlet, a, b).bound();
}

}  // namespace fairlead::reeving
