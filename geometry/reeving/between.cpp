#include "geometry/reeving/between.hpp"

#include <limits>
#include <numbers>

namespace fairlead::reeving {
namespace {

constexpr double unbounded = std::numeric_limits<double>::infinity();

double over_sinh(double h) { return h == 0 ? 1 : h / std::sinh(h); }

/// A leg's two ends as boxes in the axes of the rig, and what its hanging line can be within them.
struct LegBands {
  Band along, across, rise;   ///< from its first end to its second
  Band from_slope, to_slope;  ///< dz per metre of plan toward the second end
  Band per_plan, per_rise;    ///< change of its length with plan distance and rise, the mean tension held
  Band per_mid_m_per_N;       ///< and with the mean tension
  bool hangs = false;
};

/// d: plan distance; mid: mean tension of the ends.
void hang_between(LegBands& leg, Band mid_N, double weight_N_per_m) {
  const Band d{std::hypot(leg.along.least_size(), leg.across.least_size()),
               std::hypot(leg.along.greatest_size(), leg.across.greatest_size())};
  if (!(d.low > 0 && mid_N.low > 0)) return;
  const auto slackest = hang_leg({d.high, 0, leg.rise.greatest_size()}, mid_N.low, weight_N_per_m);
  const auto tautest = hang_leg({d.low, 0, leg.rise.least_size()}, mid_N.high, weight_N_per_m);
  if (!slackest || !tautest) return;
  const Band h{tautest->h, slackest->h}, S{over_sinh(h.high), over_sinh(h.low)};
  const Band chord = leg.rise * Band{1 / d.high, 1 / d.low}, leaned = chord * S;
  const Band middle{std::asinh(leaned.low), std::asinh(leaned.high)};
  leg.from_slope = {std::sinh(middle.low - h.high), std::sinh(middle.high - h.low)};
  leg.to_slope = {std::sinh(middle.low + h.low), std::sinh(middle.high + h.high)};

  // The derivatives of `vary` in leg.hpp: of L by d: rho d/fold, by rise: rho S2 rise/fold, by Tm: (1 - S/(A fold))
  // L/Tm.
  const Band A{std::cosh(h.low), std::cosh(h.high)}, rise{leg.rise.least_size(), leg.rise.greatest_size()};
  const Band rho{1 / (A.high * std::hypot(d.high, S.high * rise.high)),
                 1 / (A.low * std::hypot(d.low, S.low * rise.low))};
  const auto level = [](double at) { return std::cosh(at) * (std::cosh(at) - at * std::sinh(at)); };  // falls with h
  const Band fold{
      rho.low * rho.low * (d.low * d.low * level(h.high) + rise.low * rise.low * A.low * std::pow(S.low, 3)),
      rho.high * rho.high * (d.high * d.high * level(h.low) + rise.high * rise.high * A.high * std::pow(S.high, 3))};
  if (!(fold.low > 0)) return;
  const Band per_fold{1 / fold.high, 1 / fold.low};
  leg.per_plan = rho * d * per_fold;
  leg.per_rise = rho * Band{S.low * S.low, S.high * S.high} * leg.rise * per_fold;
  const Band length{1 / (A.high * S.high * rho.high), 1 / (A.low * S.low * rho.low)};
  leg.per_mid_m_per_N =
      length * Band{1 / mid_N.high, 1 / mid_N.low} * (Band{1, 1} - S * Band{1 / A.high, 1 / A.low} * per_fold);
  leg.hangs = true;
}

/// sin of the angle between an axle and the hanging line, seen from the end of `slope`.
double across_axle_rad(const Inputs& in, const LegBands& leg, Band slope, Vec3 axle) {
  if (!leg.hangs) return std::numbers::pi / 2;
  const double a_along = dot(axle, in.along), a_across = dot(axle, in.across), a_up = dot(axle, in.up);
  const double level = std::hypot(a_along, a_across);
  Band sine = a_up * sine_of_slope(slope);
  if (level > 0) {
    // In plan, along the axle and square to it.
    const Band with = (a_along / level) * leg.along + (a_across / level) * leg.across;
    const Band square = (a_along / level) * leg.across - (a_across / level) * leg.along;
    sine = sine + level * (share(with, square) * cosine_of_slope(slope));
  }
  return std::asin(std::min(1.0, sine.greatest_size()));
}

Point3 contact(const LegEnd& end, Vec3 e) { return end.centre + end.radius_m * e; }
Point3 middle(Point3 a, Point3 b) { return a + 0.5 * (b - a); }

/// How far along its arc a contact may stand from the middle of its two places: half their distance, and as much
/// again on either side.
double arc_m(const LegEnd& end, Vec3 a, Vec3 b) { return end.radius_m * std::atan2(norm(cross(a, b)), dot(a, b)); }

/// Half-widths of a contact's box in the rig's axes: it stays in the groove's plane.
struct Box {
  double along{}, across{}, up{};
};
Box box_in_plane(const Inputs& in, const LegEnd& end, double half_m) {
  const auto of = [&](Vec3 axis) {
    const double off = dot(end.axle, axis);
    return half_m * std::sqrt(std::max(0.0, 1 - off * off));
  };
  return {of(in.along), of(in.across), of(in.up)};
}

}  // namespace

Between between(const Inputs& in, const Station& a, const Station& b) {
  const std::size_t sheaves = in.sheaves.size();
  Between result;
  result.fleet_rad.assign(sheaves, 0);
  result.contact_moves_m.assign(sheaves, 0);
  const Vec3 move = b.pose.attachment - a.pose.attachment;
  const double ahead = dot(move, in.along), risen = dot(move, in.up);
  // With slopes at most their difference outside their two values, the path leaves its chord by at most 3/4 of that
  // difference times the step. Upstream of the mark the trolley only bobs: its height leaves its two values by at most
  // half their difference.
  const bool moving = a.pose.travel_m >= 0;
  const double bend = std::abs(b.slope - a.slope);
  result.up_m = std::abs(risen) / 2 + (moving ? 0.75 * bend * std::abs(ahead) : std::abs(risen) / 2);

  const Band outlet_N = band_of(a.pose.outlet_tension_N, b.pose.outlet_tension_N);
  for (std::size_t i = 0; i <= sheaves; ++i) {
    const LegEnd from_a = first_end(in, a.pose.attachment, static_cast<int>(i)),
                 from_b = first_end(in, b.pose.attachment, static_cast<int>(i)),
                 to = second_end(in, static_cast<int>(i));
    const MetLeg &leg_a = a.line.legs[i], &leg_b = b.line.legs[i];
    const Point3 from = middle(contact(from_a, leg_a.from_e), contact(from_b, leg_b.from_e));
    const Point3 onto = middle(contact(to, leg_a.to_e), contact(to, leg_b.to_e));
    const double from_arc = arc_m(from_a, leg_a.from_e, leg_b.from_e), to_arc = arc_m(to, leg_a.to_e, leg_b.to_e);
    const Box from_box = i == 0 ? Box{std::abs(ahead) / 2, 0, result.up_m} : box_in_plane(in, from_a, from_arc);
    const Box to_box = i == sheaves ? Box{} : box_in_plane(in, to, to_arc);
    const Vec3 span = onto - from;
    LegBands leg;
    leg.along = around(dot(span, in.along), from_box.along + to_box.along);
    leg.across = around(dot(span, in.across), from_box.across + to_box.across);
    leg.rise = around(dot(span, in.up), from_box.up + to_box.up);
    const double level_m = dot(middle(from, onto) - in.outlet, in.up);
    const Band mid_N = outlet_N + in.line_weight_N_per_m * around(level_m, 0.5 * (from_box.up + to_box.up));
    hang_between(leg, mid_N, in.line_weight_N_per_m);

    if (i > 0) {
      result.fleet_rad[i - 1] =
          std::max(result.fleet_rad[i - 1], across_axle_rad(in, leg, leg.from_slope, in.sheaves[i - 1].axle));
      result.contact_moves_m[i - 1] = std::max(result.contact_moves_m[i - 1], from_arc);
    }
    if (i < sheaves) {
      result.fleet_rad[i] = std::max(result.fleet_rad[i], across_axle_rad(in, leg, leg.to_slope, in.sheaves[i].axle));
      result.contact_moves_m[i] = std::max(result.contact_moves_m[i], to_arc);
    }
    if (i == 0) {
      // The leg lengthens as its first end moves off, and the contact's slide adds r (1 - cos fleet) a radian; the
      // unit's spring answers the sag that a greater tension takes out.
      const Band slope{std::min(a.slope, b.slope) - bend, std::max(a.slope, b.slope) + bend};
      const auto answer = [](const Station& s) { return 1 - s.retraction_slope * s.line.length_per_N; };
      const Band spring = around((answer(a) + answer(b)) / 2, std::abs(answer(a) - answer(b)));
      const double slide_m = to_arc * (1 - std::cos(result.fleet_rad.front()));
      const Band drawn = around(0, ahead > 0 ? slide_m / ahead : unbounded) -
                         leg.per_plan * share(leg.along, leg.across) - leg.per_rise * slope +
                         0.5 * in.line_weight_N_per_m * (leg.per_mid_m_per_N * slope);
      result.pay_out =
          leg.hangs && spring.low > 0 ? drawn * Band{1 / spring.high, 1 / spring.low} : Band{-unbounded, unbounded};
    }
    // The line at the outlet swings in one vertical plane as its slope changes; the angle to a fixed axis is greatest
    // at an end of such an arc.
    if (i == sheaves) {
      result.lead_rad = std::max(a.pose.lead_rad, b.pose.lead_rad);
      if (sheaves > 0 && !leg.hangs) result.lead_rad = std::numbers::pi;
    }
  }
  return result;
}

double fleet_bound(const Sheave& sheave, Point3 end, double ball_m) {
  const Vec3 d = end - sheave.centre;
  const double least_m = norm(d) - ball_m, leg2 = least_m * least_m - sheave.radius_m * sheave.radius_m;
  if (!(least_m > 0 && leg2 > 0)) return std::numbers::pi / 2;
  return std::asin(std::min(1.0, (std::abs(dot(d, sheave.axle)) + ball_m) / std::sqrt(leg2)));
}

}  // namespace fairlead::reeving
