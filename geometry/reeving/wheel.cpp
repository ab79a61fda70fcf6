#include "geometry/reeving/wheel.hpp"

#include <cmath>
#include <numbers>

namespace fairlead::reeving {
namespace {

/// A side of unstretched length s that begins at the wheel with (H, V), V upward, and reaches `reach` away.
LineSide<double> side(double H, double V, double s, double reach, const mainline::Cable& cable) {
  const double end_V = V + cable.weight_N_per_m * s;
  const double T = std::hypot(H, V), end_T = std::hypot(H, end_V);
  // Integrals of H2/T3, -HV/T3 and V2/T3 over the side; the last is reach/H less the first.
  const double level = (end_V / end_T - V / T) / cable.weight_N_per_m;
  const double zz = cable.compliance_per_N * s + level, xx = reach / H - level;
  const double xz = -H * s * (V + end_V) / ((T + end_T) * T * end_T);
  const double t_x = H / T, t_z = V / T;
  const double tt = t_x * t_x * xx + 2 * t_x * t_z * xz + t_z * t_z * zz;
  const double tn = t_x * t_z * (zz - xx) + (t_x * t_x - t_z * t_z) * xz;
  const double nn = t_z * t_z * xx - 2 * t_x * t_z * xz + t_x * t_x * zz;
  return {t_x, t_z, nn, tn / nn, tt - tn * tn / nn};
}

}  // namespace

LineSide<double> side_up(const mainline::Cable& cable, const mainline::Shape& shape, int wheel) {
  const mainline::Piece& piece = shape.pieces[wheel];
  return side(piece.H_N, piece.V_N - cable.weight_N_per_m * piece.unstretched_m, piece.unstretched_m,
              shape.wheels[wheel].x_m - piece.x_m, cable);
}

LineSide<double> side_down(const mainline::Cable& cable, const mainline::Shape& shape, int wheel) {
  const mainline::Piece& piece = shape.pieces[wheel + 1];
  const double end_x = wheel + 1 < shape.loads ? shape.wheels[wheel + 1].x_m : cable.span_m;
  return side(piece.H_N, -piece.V_N, piece.unstretched_m, end_x - piece.x_m, cable);
}

WheelResponse<double> respond(const mainline::Cable& cable, const mainline::Shape& shape, int wheel) {
  const mainline::Wheel& w = shape.wheels[wheel];
  return respond(side_up(cable, shape, wheel), side_down(cable, shape, wheel), w.tension_N, w.force_z_N, cable);
}

SideBand side_between(Band reach_m, Band rise_m, Band slope, Band tension_N, const mainline::Cable& cable) {
  const double w = cable.weight_N_per_m, c = cable.compliance_per_N;
  SideBand r;
  r.side.t_x = cosine_of_slope(slope);
  r.side.t_z = sine_of_slope(slope);
  // The tension is least where the line is level, H, and greatest at an end; it gains at most w for a metre of height.
  const Band H = tension_N * r.side.t_x;
  const Band T{H.low, tension_N.high + w * std::max(0.0, rise_m.high)};
  // V grows by w s along the side, and the chord's slope is its mean weighted with 1/T + 1/EA, over H: the centroid of
  // [0, s] under weights of ratio R lies between 1/(1 + sqrt R) and its complement.
  const double root = std::sqrt((1 / T.low + c) / (1 / T.high + c));
  const Band centroid{1 / (1 + root), root / (1 + root)};
  const Band chord = rise_m / reach_m;
  // The far end's slope follows from the chord's and this end's; arc and chord bound the length.
  const Band sag{std::max(0.0, (chord - slope).low), (chord - slope).high};
  const double steepest = std::max(slope.greatest_size(), std::abs(slope.high + sag.high / centroid.low));
  const Band s{length_of(reach_m, rise_m).low / (1 + c * T.high),
               reach_m.high * std::sqrt(1 + steepest * steepest) / (1 + c * T.low)};
  const Band turned = w * s / H;  // of the slope, end to end
  r.slope = chord - turned * centroid;

  // With d the angle turned at a point s' from the wheel, t . n = -(H w s' / T(0) T) and n . n(0) = cos d.
  const double cos_d = std::cos(std::min(turned.high, std::numbers::pi / 2));
  const Band per_T{1 / T.high, 1 / T.low}, cos_part{cos_d, 1};
  r.side.nn_m_per_N = s * (c + cos_part * cos_part * per_T);
  r.side.lean = -(r.side.t_x * (w / 2) * s * cos_part * per_T * per_T) / (c + cos_part * cos_part * per_T);
  // 1/a is the least over l of s/EA (1 + l^2) + integral of cos^2 d (tan d - l)^2 / T, and tan d grows by at least
  // w H/T^2 and at most that over cos^2 d per metre: the integral of (tan d - l)^2 is least between the two
  // rate^2 s^3 / 12.
  if (!(cos_d > 0)) return {r.side, {std::nan(""), std::nan("")}};
  const Band rate = w * H * per_T * per_T * Band{1, 1 / (cos_d * cos_d)};
  const double lean = r.side.lean.greatest_size();
  r.side.give_m_per_N =
      s * c * Band{1, 1 + lean * lean} + cos_part * cos_part * per_T * rate * rate * s * s * s * (1.0 / 12);
  return r;
}

}  // namespace fairlead::reeving
