// How high a rolling wheel stands on the main line when its place or the weight it carries changes.
//
// Each side of the line is described as its wheel sees it: x away from the wheel along the span, z up. A side of fixed
// unstretched length s answers a force at the wheel with the compliance f = integral of n n^T / T ds + s/EA (n square
// to the line at each point). With t the line's tangent at the wheel, n square to it, r = t - (f_tn / f_nn) n and
// 1/a = f_tt - f_tn^2 / f_nn, its stiffness is a r r^T + n n^T / f_nn. Letting the line slip through the wheel until
// both tensions agree leaves, with m = w W / (T (1 + T/EA)) and subscripts for the two sides,
//     -dW/dz = n1z^2/f1nn + n2z^2/f2nn + [a1 a2 (r1z + r2z)^2 + m (a1 r1z^2 + a2 r2z^2)] / (a1 + a2 + m)
//      dW/dx = n1x n1z/f1nn - n2x n2z/f2nn + [a1 a2 (r1x - r2x)(r1z + r2z) + m (a1 r1x r1z - a2 r2x r2z)] / (same)
// The stiff terms of a taut line have cancelled by hand, so bands may be put in. Own derivation; tests hold it against
// differences of the solved line.
#pragma once

#include "geometry/mainline/cable.hpp"
#include "geometry/reeving/band.hpp"

namespace fairlead::reeving {

template <class Number>
struct LineSide {
  Number t_x, t_z;      ///< unit tangent at the wheel, into the line
  Number nn_m_per_N;    ///< compliance in the direction of n = (-t_z, t_x)
  Number lean;          ///< f_tn / f_nn
  Number give_m_per_N;  ///< 1/a
};

template <class Number>
struct WheelResponse {
  Number dz_dx;                                         ///< slope of the path at constant weight
  Number dz_dW_m_per_N;                                 ///< < 0
  Number tension_level_N_per_m, tension_steep_N_per_m;  ///< of the line's tension at the wheel: along, and by slope
  /// Of the tension along a path of this slope.
  Number tension_per_m(Number slope) const { return tension_level_N_per_m - tension_steep_N_per_m * slope; }
};

/// up: the side toward the start support; down: toward the end support. tension: at the wheel; carried: weight W on the
/// wheel. The slope is a mean of slopes weighted with stiffnesses; in bands it is narrowest when taken from a reference
/// near it.
template <class Number>
WheelResponse<Number> respond(const LineSide<Number>& up, const LineSide<Number>& down, Number tension_N,
                              Number carried_N, const mainline::Cable& cable, double reference = 0) {
  struct Stiff {
    Number a, r_x, r_z;
  };
  const auto stiff = [](const LineSide<Number>& s) {
    return Stiff{Number(1) / s.give_m_per_N, s.t_x + s.lean * s.t_z, s.t_z - s.lean * s.t_x};
  };
  const Stiff a = stiff(up), b = stiff(down);
  const double w = cable.weight_N_per_m;
  const Number stretch = Number(1) + Number(cable.compliance_per_N) * tension_N;
  const Number m = Number(w) * carried_N / (tension_N * stretch);
  // a1 a2 / (a1 + a2 + m) and its like, each Number once.
  const Number pair = Number(1) / (up.give_m_per_N + down.give_m_per_N + m * up.give_m_per_N * down.give_m_per_N);
  const Number m_a = m * pair * down.give_m_per_N, m_b = m * pair * up.give_m_per_N;
  const Number bend = a.r_z + b.r_z, lead = a.r_x - b.r_x;
  const Number stiffness = up.t_x * up.t_x / up.nn_m_per_N + down.t_x * down.t_x / down.nn_m_per_N +
                           pair * bend * bend + m_a * a.r_z * a.r_z + m_b * b.r_z * b.r_z;
  const Number ref(reference);
  const Number rise = down.t_x / down.nn_m_per_N * (down.t_z - ref * down.t_x) -
                      up.t_x / up.nn_m_per_N * (up.t_z + ref * up.t_x) + pair * bend * (lead - ref * bend) +
                      m_a * a.r_z * (a.r_x - ref * a.r_z) - m_b * b.r_z * (b.r_x + ref * b.r_z);
  // Slip per metre along and per metre up: the unstretched length that passes the wheel to the upstream side.
  const Number slip_x = (down.give_m_per_N * a.r_x + up.give_m_per_N * b.r_x) * pair / stretch;
  const Number slip_z = (up.give_m_per_N * b.r_z - down.give_m_per_N * a.r_z) * pair / stretch;
  const Number weight_t = Number(w) * up.t_z;
  return {ref + rise / stiffness, Number(-1) / stiffness, pair * lead + m_a * a.r_x - weight_t * slip_x,
          pair * bend + m_a * a.r_z + weight_t * slip_z};
}

/// The two sides of a wheel of a solved line, and its response with every other wheel held where it is.
LineSide<double> side_up(const mainline::Cable&, const mainline::Shape&, int wheel);
LineSide<double> side_down(const mainline::Cable&, const mainline::Shape&, int wheel);
WheelResponse<double> respond(const mainline::Cable&, const mainline::Shape&, int wheel);

/// A side of the line in bands: `slope` (dz per metre away from the wheel) at the wheel as it was assumed, and what the
/// rest then says it is. Where the latter lies within the former for a continuous family of solved lines, one of which
/// begins there, all of the family do.
struct SideBand {
  LineSide<Band> side;
  Band slope;
};
/// The support lies reach_m away and rise_m up; tension_N at the wheel.
SideBand side_between(Band reach_m, Band rise_m, Band slope, Band tension_N, const mainline::Cable&);

}  // namespace fairlead::reeving
