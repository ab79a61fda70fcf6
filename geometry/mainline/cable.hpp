// The main line as an elastic catenary in its vertical plane, bare or with loads on it.
// Irvine, Cable Structures (1981); symbols and signs in geometry/NOTATION.md.
#pragma once

#include <array>
#include <span>

#include "geometry/quantity/solved.hpp"

namespace fairlead::mainline {

/// One state of the main line. The plane frame: x horizontal from the start support toward the end
/// support, z up, the start support at (0, 0), the end support at (span_m, rise_m).
struct Cable {
  double span_m{};            ///< > 0
  double rise_m{};            ///< end support's height minus the start's
  double unstretched_m{};     ///< > 0, at this state's temperature
  double weight_N_per_m{};    ///< per unstretched metre at this state's temperature, > 0
  double compliance_per_N{};  ///< 1/EA; 0: inextensible
  bool operator==(const Cable&) const = default;
};

/// A weight on wheels at a stated place. weight_N is what the line carries there: weight of the load less
/// whatever lifts it (the braking line's upward pull). It must be > 0: the line cannot pull a wheel down.
struct Load {
  double x_m{};  ///< strictly inside the span
  double weight_N{};
};

/// A stretch of line between supports and wheels, described at its upstream end.
struct Piece {
  double unstretched_m{};
  double H_N{};         ///< horizontal tension, > 0
  double V_N{};         ///< H times the downward slope of the line there: positive where it falls toward the end
  double x_m{}, z_m{};  ///< the upstream end
};

/// A load's place on the line and what the line does to it.
struct Wheel {
  double x_m{}, z_m{};
  double s_m{};                     ///< unstretched length from the start support
  double tension_N{};               ///< equal on both sides for a rolling load; the larger one for a clamped load
  double force_x_N{}, force_z_N{};  ///< force of the line on the wheel; force_z_N = weight_N
  double tau_rad{};                 ///< atan(-force_x / force_z): the slope square to the bisector; rising is positive
};

/// The solved line: loads + 1 pieces in order.
struct Shape {
  std::array<Piece, 3> pieces{};
  std::array<Wheel, 2> wheels{};
  int loads{};
};

/// The bare line. Unsolved when the inputs are not finite and positive as stated, when an inextensible line
/// is shorter than the chord, or when Newton's iteration does not meet the span to 1e-12 of the line's length.
Solved<Shape> hang(const Cable&);

/// A bare line of which not the length but the tension at its start is known; its length comes back with it.
struct Pulled {
  Cable cable;
  Shape shape;
};
/// Of the two lengths that a tension holds, the tauter; the cable's own is not read. The far end meets its support to
/// 1e-12 of the length. Unsolved when the inputs are not finite and positive, or when the line's own weight needs more.
Solved<Pulled> hang_pulled(Cable, double start_tension_N);

/// A load fixed to the line at the unstretched length s_m from the start: tensions differ on its two sides. Any
/// finite weight, also an upward pull. `near` is a solved neighbour, as for hang_rolling.
Solved<Shape> hang_clamped(const Cable&, double s_m, double weight_N, const Shape* near = nullptr);

/// One or two loads free to roll but held at their x (loads in rising x): equal tension on both sides of each
/// wheel. `near` is a solved neighbour with as many loads to start from; the result does not depend on it
/// beyond rounding. Unsolved as above, or when a weight is not > 0.
Solved<Shape> hang_rolling(const Cable&, std::span<const Load>, const Shape* near = nullptr);

/// Height of the line at x (0..span), and its slope dz/dx there (the downstream one at a wheel).
struct LinePoint {
  double z_m{}, slope{};
};
LinePoint line_at(const Cable&, const Shape&, double x_m);

/// Force of the line on each support, in the plane frame, N.
struct SupportForces {
  double start_x_N{}, start_z_N{}, end_x_N{}, end_z_N{};
};
SupportForces support_forces(const Cable&, const Shape&);

/// Vertical drop of the line below the chord at mid-span, m.
double mid_span_sag(const Cable&, const Shape&);

/// How a main line's length was measured: bare, at one temperature.
enum class MeasuredAt { start, end, horizontal };
/// Unstretched length of a bare line from its mid-span sag (> 0), or from its tension at the named place.
/// Of two roots for a tension the taut one is returned; Unsolved when the line's own weight needs more.
Solved<double> length_from_sag(double span_m, double rise_m, double weight_N_per_m, double compliance_per_N,
                               double sag_m);
Solved<double> length_from_tension(double span_m, double rise_m, double weight_N_per_m, double compliance_per_N,
                                   double tension_N, MeasuredAt);

/// The same line warmer by delta_K: longer by (1 + expansion delta_K), lighter per metre by as much.
Cable at_temperature(const Cable&, double expansion_per_K, double delta_K);

}  // namespace fairlead::mainline
