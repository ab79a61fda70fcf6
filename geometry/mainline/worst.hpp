// The rider's place that loads the supports most, and the weight of a hanging line about its start.
#pragma once

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// Moment of the line's own weight about the start support, N m: weight x distance along, downward positive.
/// Good to rounding times (H over the line's weight)2: 1e-14 of itself on a rigged line, 1e-8 on one ten thousand
/// times as taut as it is heavy.
double weight_moment_N_m(const Cable&, const Shape&);

/// One support at its worst. bound_N stands above tension_N for what lies between the samples: half a sampling
/// interval at twice the steepest slope seen beside it. Estimated so, not proven.
struct SupportWorst {
  double rider_x_m{};
  double tension_N{}, bound_N{};
  Shape shape;
};

struct WorstRider {
  SupportWorst start, end;
};

/// Moves a rider from from_m to a centimetre short of the trolley's place and finds the greatest force on each support,
/// its place to a millimetre; the trolley stands at its rest mark, without the braking line's pull. Unsolved where
/// hang_rolling is.
Solved<WorstRider> worst_rider(const Cable&, double rider_weight_N, const Load& trolley, double from_m);

}  // namespace fairlead::mainline
