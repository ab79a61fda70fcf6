// The rider's place that loads the supports most, and the weight of a hanging line about its start.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// Moment of the line's own weight about the start support, N m: weight x distance along, downward positive.
/// Good to rounding times (H over the line's weight)2: 1e-14 of itself on a rigged line, 1e-8 on one ten thousand
/// times as taut as it is heavy.
double weight_moment_N_m(const Cable&, const Shape&);

/// The rider at the worst place for one force. bound_N stands above force_N for what lies between the samples: half a
/// sampling interval at twice the steepest slope seen beside it. Estimated so, not proven.
struct WorstPlace {
  double rider_x_m{};
  double force_N{}, bound_N{};
  Shape shape;
};

/// A force that the line causes, of which the greatest is wanted, N; it has one hump over the span.
using ForceOf = std::function<double(const Shape&)>;

/// Moves a load from from_m to to_m, upstream of a second one that stays where it is, if there is one, and finds where
/// each force is greatest, its place to a millimetre. Unsolved where hang_rolling is.
Solved<std::vector<WorstPlace>> worst_places(const Cable&, double weight_N, const std::optional<Load>& standing,
                                             double from_m, double to_m, std::span<const ForceOf>);

/// The tension of a hanging line where it is measured, N: at a support, or its horizontal part.
double tension_at(const Cable&, const Shape&, MeasuredAt);
/// The tensions at a line's supports, as forces of which the greatest is wanted.
ForceOf tension_at_start(const Cable&);
ForceOf tension_at_end(const Cable&);

}  // namespace fairlead::mainline
