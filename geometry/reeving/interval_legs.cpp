#include "geometry/reeving/interval_legs.hpp"

#include <limits>

namespace fairlead::reeving {
namespace {

constexpr double unknown = std::numeric_limits<double>::infinity();

}  // namespace

IntervalLegs::IntervalLegs(const Inputs& in, const SweepInputs& sweep, const Station& a, double step_m)
    : in_(in), a_(a), trolley_moves_m_(step_m), axes_{in.origin, in.along, in.across, in.up} {
  axle_.resize(in.sheaves.size());
  first_e_now_.resize(2 * in.sheaves.size());
  first_t_now_.resize(2 * in.sheaves.size());
  centre_.resize(in.sheaves.size());
  leg_at_contact_.resize(2 * in.sheaves.size());
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const Line& line = in.lines[l];
    const Vec3 load = axes_.in(line.diameter_m * sweep.wind_Pa) - Vec3{0, 0, line.weight_N_per_m};
    line_axes_.push_back(LineAxes::against(load));
    load_N_per_m_.push_back(norm(load));
    datum_.push_back(axes_.in(a.lines.tension[l].datum));
    for (int k = 0; k <= line.sheaves; ++k) {
      const int index = static_cast<int>(l);
      LegOver leg{
          index, from_body(in, index, k), to_body(in, index, k), -1, -1, level_of(in, a.lines, index, k), {}, {}, {}};
      if (k > 0) {
        leg.from_sheave = line.first_sheave + k - 1;
        leg_at_contact_[static_cast<std::size_t>(2 * leg.from_sheave + 1)] = legs_.size();
      }
      if (k < line.sheaves) {
        leg.to_sheave = line.first_sheave + k;
        leg_at_contact_[static_cast<std::size_t>(2 * leg.to_sheave)] = legs_.size();
      }
      legs_.push_back(leg);
    }
  }
  for (std::size_t i = 0; i < 2 * in.sheaves.size(); ++i) first_e_.push_back(contact_e(a, i));
  for (std::size_t i = 0; i < in.sheaves.size(); ++i)
    first_axle_.push_back(axes_.in(placed(in, a.lines, static_cast<int>(i)).axle));
}

Vec3 IntervalLegs::contact_e(const Station& s, std::size_t i) const {
  const MetLeg& leg = s.lines.legs[leg_at_contact_[i]];
  const Vec3 e = i % 2 == 0 ? leg.to_e : leg.from_e;
  const Body body = in_.sheaves[i / 2].body;
  if (body < 0) return axes_.in(e);
  // As seen from its block, turned as at the first pose.
  const Placement &p = s.lines.blocks[static_cast<std::size_t>(body)],
                  &first = a_.lines.blocks[static_cast<std::size_t>(body)];
  return axes_.in(first.turn({dot(e, p.turned_x), dot(e, p.turned_y), dot(e, p.turned_z)}));
}

Band3 IntervalLegs::point_of(std::size_t block, Box& box) const {
  const Band* shift = box.shift_m(block);
  return Band3(axes_.in(a_.lines.blocks[block].at)) + Band3{shift[0], shift[1], shift[2]};
}

Band3 IntervalLegs::turned(std::size_t block, Vec3 v, Box& box) const {
  if (in_.blocks[block].turns() == 0) return v;
  const Band* turn = box.turn_rad(block);
  const Band3 angle{turn[0], turn[1], turn[2]};
  const double most = longest(angle);
  // |R v - v - angle x v| <= |angle|^2 |v| / 2.
  return wider(Band3(v) + cross(angle, v), most * most / 2 * norm(v));
}

IntervalLegs::Place IntervalLegs::place_of(Body body, Point3 drawn, Box& box) const {
  if (body == on_ground) return {axes_.in(drawn), {}};
  const auto b = static_cast<std::size_t>(body);
  const Band3 arm = turned(b, axes_.in(a_.lines.blocks[b].turn(drawn - in_.blocks[b].drawn)), box);
  return {point_of(b, box) + arm, arm};
}

EndBand IntervalLegs::contact_end(std::size_t i, Box& box) {
  const Sheave& s = in_.sheaves[i / 2];
  EndBand end;
  end.at = centre_[i / 2].at;
  end.arm = centre_[i / 2].arm;
  if (s.radius_m == 0) return end;
  end.radius_m = s.radius_m;
  end.turn = i % 2 == 0 ? -s.sense : s.sense;
  end.axle = axle_[i / 2];
  const Vec3 k = first_axle_[i / 2], first_t = cross(k, first_e_[i]);
  const Band angle = box.contact_rad(i);
  const double half = angle.width() / 2, aside = std::sin(std::min(half, 1.5));
  const Vec3 e = std::cos(angle.middle()) * first_e_[i] + std::sin(angle.middle()) * first_t, t = cross(k, e);
  const Band little{-aside, aside}, near{std::cos(std::min(half, 1.5)), 1};
  const auto now = [&](Vec3 v) { return s.body < 0 ? Band3(v) : turned(static_cast<std::size_t>(s.body), v, box); };
  const Band3 e_now = now(e), t_now = now(t);
  first_e_now_[i] = now(first_e_[i]);
  first_t_now_[i] = now(first_t);
  end.e = near * e_now + little * t_now;
  end.tangent = near * t_now - little * e_now;
  const Band3 radius = s.radius_m * end.e;
  end.at += radius;
  end.arm += radius;
  return end;
}

bool IntervalLegs::hang(Box& box) {
  for (std::size_t i = 0; i < in_.sheaves.size(); ++i) {
    const Sheave& s = in_.sheaves[i];
    centre_[i] = place_of(s.body, s.centre, box);
    axle_[i] = s.body < 0 ? Band3(first_axle_[i]) : turned(static_cast<std::size_t>(s.body), first_axle_[i], box);
    for (const std::size_t c : {2 * i, 2 * i + 1})
      if (s.radius_m > 0 && !(box.contact_rad(c).width() < 2)) return false;
  }
  const bool moving = a_.pose.travel_m >= 0;
  const Vec3 attachment = axes_.in(in_.attachment);
  const double along_m = in_.rest_m + (moving ? a_.pose.travel_m : 0);
  const Band3 on_trolley_now{Band(along_m, along_m + trolley_moves_m_) + attachment.x, attachment.y,
                             box.height_m() + attachment.z};
  for (LegOver& leg : legs_) {
    const auto l = static_cast<std::size_t>(leg.line);
    const Line& line = in_.lines[l];
    const auto end = [&](int sheave, const End& e, bool off) {
      if (sheave >= 0) return contact_end(static_cast<std::size_t>(2 * sheave + (off ? 1 : 0)), box);
      EndBand point;
      if (e.body == on_trolley) {
        point.at = on_trolley_now;
        return point;
      }
      const Place place = place_of(e.body, e.at, box);
      point.at = place.at;
      point.arm = place.arm;
      return point;
    };
    leg.from = end(leg.from_sheave, line.from, true);
    leg.to = end(leg.to_sheave, line.to, false);
    // Between two ends on one block only its turn counts.
    const bool together = leg.from_on >= 0 && leg.from_on == leg.to_on;
    const Band3 span = together ? leg.to.arm - leg.from.arm : leg.to.at - leg.from.at;
    const Band mid_N = tension_N(leg, 0.5 * (leg.from.at + leg.to.at), box);
    leg.answer = leg_answer(leg.from, leg.to, span, mid_N, load_N_per_m_[l], line_axes_[l]);
    if (!leg.answer.hangs) return false;
  }
  return true;
}

Band IntervalLegs::contact(std::size_t i) const {
  const LegOver& leg = legs_[leg_at_contact_[i]];
  const EndBand& end = i % 2 == 0 ? leg.to : leg.from;
  const Band3 u = (i % 2 == 0 ? leg.answer.to_end : leg.answer.from_end).unit();
  const Band ahead = end.turn * dot(u, first_t_now_[i]), aside = -end.turn * dot(u, first_e_now_[i]);
  if (!(ahead.low > 0)) return {-unknown, unknown};
  return {std::atan2(aside.low, aside.low < 0 ? ahead.low : ahead.high),
          std::atan2(aside.high, aside.high > 0 ? ahead.low : ahead.high)};
}

Band3 IntervalLegs::in_line_axes(int line, const Band3& v) const {
  const LineAxes& own = line_axes_[static_cast<std::size_t>(line)];
  return own.tilted ? Band3{dot(own.x, v), dot(own.y, v), dot(own.z, v)} : v;
}

Band IntervalLegs::wrap_rad(int sheave, Box& box) const {
  const auto s = static_cast<std::size_t>(sheave);
  return a_.lines.wrap_rad[s] + double(in_.sheaves[s].sense) * (box.contact_rad(2 * s + 1) - box.contact_rad(2 * s));
}

}  // namespace fairlead::reeving
