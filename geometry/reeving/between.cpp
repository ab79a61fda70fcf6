#include "geometry/reeving/between.hpp"

#include <array>
#include <limits>
#include <numbers>

namespace fairlead::reeving {
namespace {

constexpr double margin = 1e-9;
constexpr double unknown = std::numeric_limits<double>::infinity();
constexpr Band anything{-unknown, unknown};

/// Every unknown's band. Contacts: angle about the axle from where the contact stands at the first pose.
struct Box {
  Band height_m, wheel_N, up_slope, down_slope, extension_m;
  std::vector<Band> contact_rad;  // on and off of every sheave
};

bool encloses(const Box& box, const Box& inner) {
  bool all = box.height_m.encloses(inner.height_m) && box.wheel_N.encloses(inner.wheel_N) &&
             box.up_slope.encloses(inner.up_slope) && box.down_slope.encloses(inner.down_slope) &&
             box.extension_m.encloses(inner.extension_m);
  for (std::size_t i = 0; i < box.contact_rad.size(); ++i)
    all = all && box.contact_rad[i].encloses(inner.contact_rad[i]);
  return all;
}

template <class Do>
Box each(const Box& a, const Box& b, Do combine) {
  Box r{combine(a.height_m, b.height_m),     combine(a.wheel_N, b.wheel_N),         combine(a.up_slope, b.up_slope),
        combine(a.down_slope, b.down_slope), combine(a.extension_m, b.extension_m), a.contact_rad};
  for (std::size_t i = 0; i < r.contact_rad.size(); ++i) r.contact_rad[i] = combine(r.contact_rad[i], b.contact_rad[i]);
  return r;
}

/// Values and slopes of a table over a band, its end segments continued.
struct TableBand {
  Band value, slope;
};
TableBand table_between(const Curve& curve, Band x) {
  TableBand r{band_of(curve(x.low), curve(x.high)), slope_after(curve, x.low)};
  for (const CurvePoint& p : curve.points()) {
    if (!(p.x > x.low && p.x < x.high)) continue;
    r.value = hull(r.value, p.y);
    r.slope = hull(r.slope, slope_after(curve, p.x));
  }
  return r;
}

double turned(Vec3 from_e, Vec3 to_e, Vec3 axle) {
  return std::atan2(dot(cross(from_e, to_e), axle), dot(from_e, to_e));
}

Vec3 rotated(Vec3 e, Vec3 axle, double angle_rad) {
  return std::cos(angle_rad) * e + std::sin(angle_rad) * cross(axle, e);
}

class Interval {
 public:
  Interval(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, const Station& a, const Station& b)
      : in_(in),
        sweep_(sweep),
        outlet_(outlet),
        a_(a),
        b_(b),
        sheaves_(in.sheaves.size()),
        step_m_(b.pose.travel_m - a.pose.travel_m),
        moving_(a.pose.travel_m >= 0) {}

  Between bound();

 private:
  Box guess() const;
  /// What follows from the box; out_ is filled on the way.
  Box follow(const Box&);
  void place_ends(const Box&);
  void hang_legs(Band outlet_N);
  Band contact(const LegBand&, Band rise, const LegEnd&, std::size_t which) const;
  void measure_fleet(std::size_t sheave, const LegBand&, Band rise);
  void measure_lead(const LegBand&);
  Between nothing_known() const;

  Vec3 first_e(std::size_t which) const { return contact_e(a_, which); }
  static Vec3 contact_e(const Station& s, std::size_t which) {
    return which % 2 == 0 ? s.lines.legs[which / 2].to_e : s.lines.legs[which / 2 + 1].from_e;
  }
  const Sheave& sheave_of(std::size_t which) const { return in_.sheaves[which / 2]; }
  double height(const Station& s) const { return dot(s.pose.trolley - in_.origin, in_.up); }
  /// What is taken of the trolley's height while it rests.
  Band bobbing() const { return wider(band_of(height(a_), height(b_)), std::abs(height(b_) - height(a_)) + margin); }
  Band along_rig(Vec3 v, Vec3 axis, const Swept& p, const Swept& q) const {
    return around(dot(v, axis), p.half_width(axis) + q.half_width(axis));
  }
  /// Dot and cross product of the line's direction at an end with a vector; the latter's parts in the rig's axes.
  Band with(const LegBand& leg, Band rise, Vec3 v) const {
    return leg.along * dot(v, in_.along) + leg.across * dot(v, in_.across) + rise * dot(v, in_.up);
  }
  std::array<Band, 3> square_to(const LegBand& leg, Band rise, Vec3 v) const {
    const double x = dot(v, in_.along), y = dot(v, in_.across), z = dot(v, in_.up);
    return {leg.across * z - rise * y, rise * x - leg.along * z, leg.along * y - leg.across * x};
  }

  const Inputs& in_;
  const SweepInputs& sweep_;
  const Outlet& outlet_;
  const Station &a_, &b_;
  std::size_t sheaves_;
  double step_m_;
  bool moving_;
  std::vector<LegBand> legs_;
  Box back_;
  Between out_;
};

Box Interval::guess() const {
  // Generous enough to be proven at once as a rule; what is proven is then narrowed.
  const auto spread = [](double p, double q, double least) { return wider(band_of(p, q), std::abs(q - p) + least); };
  const double rough = 3e-3 * step_m_;
  Box box;
  box.wheel_N = box.up_slope = box.down_slope = {-1, 1};  // of no use upstream of the mark
  box.extension_m = spread(a_.pose.extension_m, b_.pose.extension_m, rough + margin);
  box.height_m = wider(bobbing(), margin);
  if (moving_) {
    const mainline::Wheel &p = a_.shape.wheels[0], &q = b_.shape.wheels[0];
    const Band ahead = wider(hull(a_.rates.slope, b_.rates.slope), std::abs(a_.rates.slope - b_.rates.slope) + 3e-3) *
                       Band{0, step_m_};
    box.height_m = wider(height(a_) + ahead, margin);
    box.wheel_N = spread(p.tension_N, q.tension_N, (rough + margin) * p.tension_N);
    const auto slopes = [&](auto side) {
      const LineSide<double> s = side(sweep_.state.cable, a_.shape, 0), t = side(sweep_.state.cable, b_.shape, 0);
      return spread(s.t_z / s.t_x, t.t_z / t.t_x, rough + 1e-3);
    };
    box.up_slope = slopes(side_up);
    box.down_slope = slopes(side_down);
  }
  for (std::size_t i = 0; i < 2 * sheaves_; ++i) {
    const double turn = turned(first_e(i), contact_e(b_, i), sheave_of(i).axle);
    box.contact_rad.push_back(spread(0, turn, rough + margin));
  }
  return box;
}

void Interval::place_ends(const Box& box) {
  const Point3 first = a_.pose.attachment;
  const double ahead_m = moving_ ? step_m_ : 0;
  const Band risen = box.height_m - height(a_);
  out_.attachment = {first + (ahead_m / 2) * in_.along + ((risen.low + risen.high) / 2) * in_.up,
                     (ahead_m / 2) * in_.along, (risen.width() / 2) * in_.up};
  out_.contacts.resize(2 * sheaves_);
  for (std::size_t i = 0; i < 2 * sheaves_; ++i) {
    const Sheave& s = sheave_of(i);
    const Band turn = box.contact_rad[i];
    const double half = turn.width() / 2;
    const Vec3 e = rotated(first_e(i), s.axle, (turn.low + turn.high) / 2);
    out_.contacts[i] = {s.centre + s.radius_m * e, (s.radius_m * half) * cross(s.axle, e),
                        (s.radius_m * half * half / 2) * e};
  }
}

void Interval::hang_legs(Band outlet_N) {
  legs_.resize(sheaves_ + 1);
  for (std::size_t i = 0; i <= sheaves_; ++i) {
    const Swept from = i == 0 ? out_.attachment : out_.contacts[2 * i - 1];
    const Swept to = i == sheaves_ ? Swept{in_.outlet(), {}, {}} : out_.contacts[2 * i];
    const Vec3 span = to.middle - from.middle;
    const double level_m = dot((from.middle + 0.5 * span) - in_.outlet(), in_.up);
    const double level_half_m = (from.half_width(in_.up) + to.half_width(in_.up)) / 2;
    const double w = in_.lines.front().weight_N_per_m;
    legs_[i] = leg_between(along_rig(span, in_.along, from, to), along_rig(span, in_.across, from, to),
                           along_rig(span, in_.up, from, to), outlet_N + w * around(level_m, level_half_m), w);
  }
}

/// The contact's angle from its first place: the leg's direction in the groove's plane is turn (axle x e).
Band Interval::contact(const LegBand& leg, Band rise, const LegEnd& end, std::size_t which) const {
  const Vec3 e = first_e(which);
  const double into = which % 2 == 0 ? -1 : 1;  // from the contact into its leg
  const Band ahead = (into * end.turn) * with(leg, rise, cross(end.axle, e));
  const Band aside = (-into * end.turn) * with(leg, rise, e);
  if (!(ahead.low > 0)) return anything;
  return {std::atan2(aside.low, aside.low < 0 ? ahead.low : ahead.high),
          std::atan2(aside.high, aside.high > 0 ? ahead.low : ahead.high)};
}

void Interval::measure_fleet(std::size_t sheave, const LegBand& leg, Band rise) {
  const Vec3 axle = in_.sheaves[sheave].axle;
  double in_plane2 = 0;
  for (const Band part : square_to(leg, rise, axle)) in_plane2 += part.least_size() * part.least_size();
  const double fleet = std::atan2(with(leg, rise, axle).greatest_size(), std::sqrt(in_plane2)) + margin;
  if (!(fleet <= out_.fleet_rad[sheave])) out_.fleet_rad[sheave] = fleet;
}

void Interval::measure_lead(const LegBand& leg) {
  double aside2 = 0;
  for (const Band part : square_to(leg, leg.to_rise, in_.outlet_axis))
    aside2 += part.greatest_size() * part.greatest_size();
  // The axis points out of the unit, the leg's direction into it.
  out_.lead_rad = std::atan2(std::sqrt(aside2), -with(leg, leg.to_rise, in_.outlet_axis).high) + margin;
}

Box Interval::follow(const Box& box) {
  const double w = in_.lines.front().weight_N_per_m;
  const TableBand table = table_between(in_.unit.retraction_N, box.extension_m);
  const Band outlet_N =
      outlet_.held_tension_N ? Band(*outlet_.held_tension_N) : wider(table.value, margin * table.value.high);
  const Band spring = outlet_.held_tension_N ? Band(0) : table.slope;
  place_ends(box);
  hang_legs(outlet_N);
  out_.fleet_rad.assign(sheaves_, 0);
  Box next = box;
  next.height_m = next.wheel_N = next.extension_m = anything;
  for (const LegBand& leg : legs_)
    if (!leg.hangs) return next;
  for (std::size_t i = 0; i < sheaves_; ++i) {
    const Sheave& s = in_.sheaves[i];
    next.contact_rad[2 * i] = wider(contact(legs_[i], legs_[i].to_rise, arriving(s), 2 * i), margin / 2);
    next.contact_rad[2 * i + 1] =
        wider(contact(legs_[i + 1], legs_[i + 1].from_rise, leaving(s), 2 * i + 1), margin / 2);
    measure_fleet(i, legs_[i], legs_[i].to_rise);
    measure_fleet(i, legs_[i + 1], legs_[i + 1].from_rise);
  }
  measure_lead(legs_.back());

  // Length per newton, and what a turning contact adds to it; `slide` per radian is at most r times this.
  const auto slide = [&](std::size_t sheave, const LegBand& leg) {
    const double f = out_.fleet_rad[sheave];
    return in_.sheaves[sheave].radius_m *
           (1 - std::cos(f) + leg.greatest_tension_N * leg.swing_rad_per_N * std::tan(f));
  };
  // A contact that turns moves its end of the leg along the line itself, which leaves the leg on its own catenary, and
  // by tan f times as much square to it.
  const auto turns = [&](std::size_t at, double free) {
    double radii = 0, fleet = 0;
    for (const std::size_t sheave : {at - 1, at})
      if (sheave < sheaves_) {
        radii += in_.sheaves[sheave].radius_m;
        fleet = std::max(fleet, out_.fleet_rad[sheave]);
      }
    const LegBand& turning = legs_[at];
    const double left =
        std::cos(fleet) - radii * (turning.curving_rad_per_m + std::tan(fleet) * turning.swing_rad_per_m);
    return left > 0 ? free / left : unknown;
  };
  Band length_per_N = 0;
  for (std::size_t i = 0; i <= sheaves_; ++i) {
    double slides = 0;
    if (i > 0) slides += slide(i - 1, legs_[i]);
    if (i < sheaves_) slides += slide(i, legs_[i]);
    const double turn = turns(i, legs_[i].swing_rad_per_N);
    length_per_N = length_per_N + wider(legs_[i].per_mid_m_per_N, slides > 0 ? slides * turn : 0);
  }
  const Band answer = Band(1) - spring * length_per_N;
  if (!(answer.low > 0)) return next;

  // Length and upward pull for a metre along and a metre up, the contact on the first sheave following.
  const LegBand& leg = legs_.front();
  const double aside = in_.sheaves[0].radius_m * std::tan(out_.fleet_rad[0]) * leg.V_per_to_N_per_m;
  const double turn_per_m = turns(0, leg.swing_rad_per_m), slide_m = slide(0, leg) * turn_per_m;
  const Band length_x = wider(-leg.per_along, slide_m);
  const Band length_z = wider((w / 2) * leg.per_mid_m_per_N - leg.per_rise, slide_m);
  if (!moving_) {
    next.height_m = bobbing();
    next.wheel_N = next.up_slope = next.down_slope = 0;
    next.extension_m = wider(a_.pose.extension_m + length_z / answer * (box.height_m - height(a_)), margin / 2);
    return next;
  }
  const Band V_N = wider(leg.V_per_N, aside * turns(0, leg.swing_rad_per_N));
  const Band V_x = wider(leg.V_per_along, aside * turn_per_m) + V_N * spring / answer * length_x;
  const Band V_z = wider(leg.V_per_up, aside * turn_per_m) + V_N * spring / answer * length_z;

  const mainline::Cable& cable = sweep_.state.cable;
  const Band x{a_.shape.wheels[0].x_m, b_.shape.wheels[0].x_m};
  const SideBand up = side_between(x, -box.height_m, box.up_slope, box.wheel_N, cable);
  const SideBand down = side_between(cable.span_m - x, cable.rise_m - box.height_m, box.down_slope, box.wheel_N, cable);
  next.up_slope = wider(up.slope, margin / 2);
  next.down_slope = wider(down.slope, margin / 2);
  const Band carried = (sweep_.trolley_weight_N + sweep_.rider_weight_N) - leg.from_V_N;
  if (!(carried.low > 0)) return next;
  const WheelResponse<Band> wheel =
      respond(up.side, down.side, box.wheel_N, carried, cable, (a_.rates.slope + b_.rates.slope) / 2);
  const Band slope = (wheel.dz_dx - wheel.dz_dW_m_per_N * V_x) / (Band(1) + wheel.dz_dW_m_per_N * V_z);
  out_.pay_out = wider((length_x + length_z * slope) / answer, margin);
  const Band ahead{0, step_m_};
  next.height_m = wider(height(a_) + slope * ahead, margin / 2);
  next.wheel_N = wider(a_.shape.wheels[0].tension_N + wheel.tension_per_m(slope) * ahead,
                       margin / 2 * a_.shape.wheels[0].tension_N);
  next.extension_m = wider(a_.pose.extension_m + out_.pay_out * ahead, margin / 2);
  // Once the box is proven, the same rates lead back from the pose at the interval's end.
  back_.height_m = wider(height(b_) - slope * ahead, margin);
  back_.extension_m = wider(b_.pose.extension_m - out_.pay_out * ahead, margin);
  back_.wheel_N =
      wider(b_.shape.wheels[0].tension_N - wheel.tension_per_m(slope) * ahead, margin * b_.shape.wheels[0].tension_N);
  return next;
}

Between Interval::nothing_known() const {
  Between r;
  r.fleet_rad.assign(sheaves_, std::numbers::pi / 2);
  r.lead_rad = std::numbers::pi;
  r.pay_out = r.extension_m = anything;
  r.attachment.half_a = unknown * in_.along;
  return r;
}

Between Interval::bound() {
  Box box = guess();
  constexpr int tries = 10;
  for (int i = 0; i < tries; ++i) {
    const Box next = follow(box);
    if (encloses(box, next)) {
      // Proven: what follows and what leads back from the far end hold as well.
      Box tight = each(box, next, both);
      if (moving_) {
        tight.height_m = both(tight.height_m, back_.height_m);
        tight.wheel_N = both(tight.wheel_N, back_.wheel_N);
        tight.extension_m = both(tight.extension_m, back_.extension_m);
      }
      follow(tight);
      out_.extension_m = tight.extension_m;
      return out_;
    }
    // The next box is what followed, and a little: by turns the bands of a steady rig settle from any start.
    box = each(next, next, [](Band a, Band) { return wider(a, 0.05 * a.width() + margin); });
  }
  return nothing_known();
}

/// TRANSITION, not proven: what the two poses show, and half their difference, until several lines are bounded.
Between estimated(const Inputs& in, const Station& a, const Station& b) {
  Between r;
  const auto over = [](double p, double q) { return std::max(p, q) + std::abs(p - q) / 2; };
  for (std::size_t i = 0; i < a.fleet_rad.size(); ++i) r.fleet_rad.push_back(over(a.fleet_rad[i], b.fleet_rad[i]));
  r.lead_rad = over(a.pose.lead_rad, b.pose.lead_rad);
  if (a.pose.travel_m >= 0)
    r.pay_out = wider(band_of(a.pose.pay_out, b.pose.pay_out), std::abs(a.pose.pay_out - b.pose.pay_out) / 2);
  r.extension_m = band_of(a.pose.extension_m, b.pose.extension_m);
  const auto swept = [](Point3 p, Point3 q) { return Swept{p + 0.5 * (q - p), 0.5 * (q - p), {}}; };
  r.attachment = swept(a.pose.attachment, b.pose.attachment);
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    for (int k = 0; k < in.lines[l].sheaves; ++k) {
      const int sheave = in.lines[l].first_sheave + k;
      const std::size_t leg = in.legs_before(l) + static_cast<std::size_t>(k);
      const Sheave s = placed(in, a.lines, sheave), t = placed(in, b.lines, sheave);
      r.contacts.push_back(
          swept(s.centre + s.radius_m * a.lines.legs[leg].to_e, t.centre + t.radius_m * b.lines.legs[leg].to_e));
      r.contacts.push_back(swept(s.centre + s.radius_m * a.lines.legs[leg + 1].from_e,
                                 t.centre + t.radius_m * b.lines.legs[leg + 1].from_e));
    }
  return r;
}

}  // namespace

Between between(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, const Station& a, const Station& b) {
  Interval interval(in, sweep, outlet, a, b);
  const bool one_line = in.lines.size() == 1 && in.blocks.empty() && norm(sweep.wind_Pa) == 0;
  return one_line ? interval.bound() : estimated(in, a, b);
}

double fleet_bound(const Sheave& sheave, Point3 end, double ball_m) {
  const Vec3 d = end - sheave.centre;
  const double least_m = norm(d) - ball_m, leg2 = least_m * least_m - sheave.radius_m * sheave.radius_m;
  if (!(least_m > 0 && leg2 > 0)) return std::numbers::pi / 2;
  return std::asin(std::min(1.0, (std::abs(dot(d, sheave.axle)) + ball_m) / std::sqrt(leg2)));
}

}  // namespace fairlead::reeving
