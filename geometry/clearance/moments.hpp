// The rider's moments that have a name, and the rider as the search holds him in them.
#pragma once

#include "geometry/clearance/passings.hpp"

namespace fairlead::clearance {

/// The rider of a run at a share of the way from a pose to the next, with the hull that reaches to a gap of then.
RiderHeld rider_held(const Run&, const Plan&, const Gap&, int pose, double share);

/// Moments but those beside structures, each as it is in the run in which its gap is least. `least`: of the plan's
/// pairs over whole passages, which no moment is below.
std::vector<Moment> moments_of(const std::vector<Run>&, const Plan&, const std::vector<Gap>& least);

}  // namespace fairlead::clearance
