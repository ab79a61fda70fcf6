// One leg of a line, hanging between two points under a load w per metre of it: its weight, and the wind on it. "Up" is
// against the load, "level" square to it; without wind they are the site's.
//
// Its tension anywhere is T = T0 + w (z - z0), z upward, so the tension at mid height fixes it. With h = w d / 2H (d
// the level distance of its ends, H the level tension), A = cosh h, S = h / sinh h, rho = 1 / (A sqrt(d^2 + S^2
// rise^2)):
//     h rho = w / 2 Tm,   H = Tm d rho,   L = 1 / (A S rho),   V = Tm rise / L -+ w L / 2 at its two ends.
// 1/(h rho)^2 is a sum of convex functions of h, so there are at most two roots; the left one is the taut leg. Nothing
// here cancels for a weightless line (h = 0: L = chord) or a plumb one (d = 0: H = 0).
#pragma once

#include <optional>
#include <vector>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::reeving {

struct Leg;

/// A leg's statics. Forces in N, lengths in m, site frame.
struct Catenary {
  Vec3 span;  ///< from one end to the other
  double weight_N_per_m{};
  Vec3 up{0, 0, 1};                   ///< unit, against the load
  double rise_m{};                    ///< of the span, upward
  double mid_tension_N{};             ///< mean of the two end tensions
  double h{}, A{}, S{}, rho_per_m{};  ///< as above
  double fold{};                      ///< d ln(h rho) / d ln h: 1 for a straight leg, 0 where taut and slack roots meet
  double length_m{};
  double from_V_N{}, to_V_N{};  ///< H times the slope toward `to` at each end

  Vec3 level() const { return span - rise_m * up; }

  Vec3 from_pull_N() const;  ///< force of the leg on whatever holds its first end
  Vec3 to_pull_N() const;    ///< the same at its other end
  double from_tension_N() const { return mid_tension_N - weight_N_per_m * rise_m / 2; }
  double to_tension_N() const { return mid_tension_N + weight_N_per_m * rise_m / 2; }
  double horizontal_N() const;  ///< the level tension H
  /// Anywhere along it: at its lowest point where that lies between the ends, else at the lower end.
  double least_tension_N() const;
  /// Greatest drop below the chord, in the direction of the load.
  double sag_m() const;
};

/// The taut leg over `span` with that mean of end tensions, met to rounding; none where it cannot hang (no root, or a
/// tension that is not > 0 at an end).
std::optional<Catenary> hang_leg(Vec3 span, double mid_tension_N, double weight_N_per_m, Vec3 up = {0, 0, 1});

/// First-order change of a leg for a change of its span and mid tension: exact.
struct LegChange {
  double length_m{};
  Vec3 from_pull_N, to_pull_N;
};
LegChange vary(const Catenary&, Vec3 span_change, double mid_tension_change_N);

/// Points along a hanging leg, ends included, by equal shares of the chord. At least 2.
std::vector<Point3> hanging_curve(const Leg&, int points);

}  // namespace fairlead::reeving
