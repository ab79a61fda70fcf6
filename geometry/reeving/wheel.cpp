#include "geometry/reeving/wheel.hpp"

#include <cmath>

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
  return {t_x, t_z, t_x * t_x * xx + 2 * t_x * t_z * xz + t_z * t_z * zz,
          t_x * t_z * (zz - xx) + (t_x * t_x - t_z * t_z) * xz, t_z * t_z * xx - 2 * t_x * t_z * xz + t_x * t_x * zz};
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
  return respond(side_up(cable, shape, wheel), side_down(cable, shape, wheel), w.tension_N, w.force_z_N,
                 cable.weight_N_per_m, cable.compliance_per_N);
}

}  // namespace fairlead::reeving
