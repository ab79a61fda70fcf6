// A leg whose ends stay in boxes and whose tension stays in a band: what its hanging line can be.
//
// The parameter h of leg.hpp rises with the plan distance d and with |rise| and falls with the mean tension Tm, so its
// band runs between two extreme legs. With x = S rise and Q = hypot(d, x):
//     L = hypot(rise, d/S);   at its ends the line runs in the direction (along, across, A x -+ Q sinh h),
//     p = 1 - h tanh h <= q = S/A,   fold = q - (d/Q)^2 (q - p),
//     dL/dalong = along / (Q A fold), dL/dacross likewise, dL/drise = S x / (Q A fold),
//     dL/dTm = -(L/Tm) k / (1 - k),  k = (d/Q)^2 (1 - p/q).
// p and q fall with h, 1 - p/q rises; each band is taken at the ends of its monotone parts. A plumb leg (d = 0) is no
// exception.
#pragma once

#include "geometry/reeving/band.hpp"
#include "geometry/reeving/leg.hpp"

namespace fairlead::reeving {

struct LegBand {
  Band along, across, rise;              ///< from its first end to its second, m
  Band from_rise, to_rise;               ///< with along and across: the line's direction at each end toward the second
  Band per_along, per_across, per_rise;  ///< of its length, at constant Tm
  Band per_mid_m_per_N;                  ///< dL/dTm
  Band from_V_N;                         ///< the leg's upward pull on its first end
  Band V_per_along, V_per_up;  ///< of from_V_N for a metre the first end moves, the tension's law T(z) held, N/m
  Band V_per_N;                ///< of from_V_N for a newton more everywhere
  double V_per_to_N_per_m{};   ///< most of from_V_N for a metre the second end moves anywhere, T(z) held
  double swing_rad_per_m{};    ///< most an end's direction turns for a metre either end moves, T(z) held
  double swing_rad_per_N{};    ///< and for a newton more everywhere
  double curving_rad_per_m{};  ///< most the line turns along itself
  double greatest_tension_N{};
  bool hangs = false;
};

/// The leg between boxes `span` apart; mid_N: mean of its end tensions. hangs is false where some leg of the band has
/// no taut root: nothing is known then.
LegBand leg_between(Band along, Band across, Band rise, Band mid_N, double weight_N_per_m);

}  // namespace fairlead::reeving
