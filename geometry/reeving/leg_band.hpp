// A leg whose ends stay in boxes and whose tension stays in a band: what its hanging line can be and how it answers.
//
// In the leg's own axes z is against its load. The parameter h of leg.hpp rises with the plan distance d and with |z|
// and falls with the mean tension Tm, so its band runs between two extreme legs. With Q = hypot(d, S z), the unit
// vector (cx, cy, s) = (x, y, S z) / Q, C = hypot(cx, cy), p = 1 - h tanh h <= q = S/A,
//     fold = q - C^2 (q - p), k = C^2 (1 - p/q):
//     L = Q / S,   pulls on the two ends = +- Tm (cx/A, cy/A, s -+ tanh h),
//     dL/dspan = (cx/A, cy/A, s q) / fold,   dL/dTm = -(L/Tm) k / (1 - k),
// and the mean of the pulls toward the second end, Tm (cx/A, cy/A, s), changes with the span by
//     Tm/(A Q) [1 - cx^2/fold, -cx cy/fold, -S cx s/fold; ... ; A S C^2 p/fold]   (symmetric)
// and with Tm by dL/dspan, for it is the gradient of the integral of tension over length, whose change with Tm is L.
// p and q fall with h, 1 - p/q rises; each band is taken at the ends of its monotone parts. A plumb leg (d = 0) is no
// exception.
#pragma once

#include "geometry/reeving/band.hpp"

namespace fairlead::reeving {

struct LegBand {
  Band3 from_way, to_way;           ///< pulls of the leg on its ends, in shares of mid_N
  Band3 per_span;                   ///< dL/dspan at constant Tm
  Band per_mid_m_per_N;             ///< dL/dTm
  BandStiffness stiffness_N_per_m;  ///< of the mean pull toward the second end for the span, at constant Tm
  Band length_m;
  Band mid_N, rise_m;
  Band h, S, AS, fold, Q_m;
  Band3 lean;  ///< (cx, cy, s)
  bool hangs = false;
};

/// The leg over `span`; mid_N: mean of its end tensions. hangs is false where some leg of the band has no taut root:
/// nothing is known then.
LegBand leg_between(const Band3& span, Band mid_N, double weight_N_per_m);

/// The least its tension can be anywhere, given the least at its ends: lower between them only where its lowest point
/// may lie there, and never under the level tension.
double least_tension_N(const LegBand&, double at_ends_N);

/// Bounds for the rate of the line's drop below its chord at any equal share of the chord in plan: how much it varies
/// over an interval in which the unknowns move by `reach` times their rates, and how great it is.
/// At the share (1 + v) / 2 the line hangs
///     Q b - z a,   b = (cosh h - cosh hv) / 2h,   a = (sinh hv / sinh h - v) / 2
/// below the chord; |a| <= h^2/31, |da/dh| <= h/15, |d2a/dh2| <= 1/15, and b, db/dh, d2b/dh2 are greatest at v = 0 and
/// rise with h.
struct SagRate {
  double width{}, greatest{};
};
SagRate sag_rate(const LegBand&, const Band3& span_rate, Band mid_rate, double reach);

}  // namespace fairlead::reeving
