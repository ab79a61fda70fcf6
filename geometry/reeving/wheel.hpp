// How high a rolling wheel stands on the main line when its place or the weight it carries changes.
//
// Each side of the line is described as its wheel sees it: x away from the wheel along the span, z up. A side of fixed
// unstretched length answers a force at the wheel with the compliance f = integral of n n^T / T ds + s/EA (n square to
// the line at each point). With t the line's tangent at the wheel, n square to it, r = t - (f_tn / f_nn) n and
// a = f_nn / det f, its stiffness is a r r^T + n n^T / f_nn. Letting the line slip through the wheel until both
// tensions agree leaves, with m = w W / (T (1 + T/EA)) and subscripts for the two sides,
//     -dW/dz = n1z^2/f1nn + n2z^2/f2nn + [a1 a2 (r1z + r2z)^2 + m (a1 r1z^2 + a2 r2z^2)] / (a1 + a2 + m)
//      dW/dx = n1x n1z/f1nn - n2x n2z/f2nn + [a1 a2 (r1x - r2x)(r1z + r2z) + m (a1 r1x r1z - a2 r2x r2z)] / (same)
// The stiff terms of a taut line have cancelled by hand, so intervals may be put in. Own derivation; tests hold it
// against differences of the solved line.
#pragma once

#include "geometry/mainline/cable.hpp"

namespace fairlead::reeving {

template <class Number>
struct LineSide {
  Number t_x, t_z;    ///< unit tangent at the wheel, into the line
  Number tt, tn, nn;  ///< compliance in the directions of t and n = (-t_z, t_x), m/N
};

template <class Number>
struct WheelResponse {
  Number dz_dx;          ///< slope of the path at constant weight
  Number dz_dW_m_per_N;  ///< < 0
};

/// up: the side toward the start support; down: toward the end support. tension: at the wheel; carried: weight W on the
/// wheel; line_weight: w per unstretched metre; compliance: 1/EA.
template <class Number>
WheelResponse<Number> respond(const LineSide<Number>& up, const LineSide<Number>& down, Number tension_N,
                              Number carried_N, double line_weight_N_per_m, double compliance_per_N) {
  struct Stiff {
    Number a, r_x, r_z;
  };
  const auto stiff = [](const LineSide<Number>& s) {
    const Number lean = s.tn / s.nn;
    return Stiff{Number(1) / (s.tt - s.tn * lean), s.t_x + lean * s.t_z, s.t_z - lean * s.t_x};
  };
  const Stiff a = stiff(up), b = stiff(down);
  const Number m =
      Number(line_weight_N_per_m) * carried_N / (tension_N * (Number(1) + Number(compliance_per_N) * tension_N));
  const Number all = a.a + b.a + m, both = a.a * b.a / all, share_a = m * a.a / all, share_b = m * b.a / all;
  const Number bend = a.r_z + b.r_z;
  const Number stiffness = up.t_x * up.t_x / up.nn + down.t_x * down.t_x / down.nn + both * bend * bend +
                           share_a * a.r_z * a.r_z + share_b * b.r_z * b.r_z;
  const Number rise = down.t_z * down.t_x / down.nn - up.t_z * up.t_x / up.nn + both * (a.r_x - b.r_x) * bend +
                      share_a * a.r_x * a.r_z - share_b * b.r_x * b.r_z;
  return {rise / stiffness, Number(-1) / stiffness};
}

/// The two sides of a wheel of a solved line, and its response with every other wheel held where it is.
LineSide<double> side_up(const mainline::Cable&, const mainline::Shape&, int wheel);
LineSide<double> side_down(const mainline::Cable&, const mainline::Shape&, int wheel);
WheelResponse<double> respond(const mainline::Cable&, const mainline::Shape&, int wheel);

}  // namespace fairlead::reeving
