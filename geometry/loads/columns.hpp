// What a quantity known at every pose of a sweep may reach between the poses.
#pragma once

#include <span>
#include <vector>

#include "geometry/quantity/solved.hpp"
#include "geometry/quantity/vectors.hpp"

namespace fairlead::loads {

/// Greatest size of a force (or a scalar, in x) over the poses, the first of equals, and its bound between them.
///
/// Between two poses a force is the straight interpolation of its two values, which is nowhere longer than the longer
/// of them, and what it strays from that. The stray is taken as half the step times the greater jump of slope at the
/// step's two ends (slope: change over the step on either side); of the outermost steps, where one jump is known, as
/// the whole step times that. So much is at least twice what a smooth course strays, and enough for one kink anywhere
/// in the step: a kink by s at the share t of the step h strays by t (1 - t) h s and shows as jumps of (1 - t) s and t
/// s. Estimated so from the poses beside, not proven. Infinite where `known` says that the reeving knows nothing of the
/// step, and where there is one step alone.
Extreme worst_over(std::span<const Vec3> force_N, std::span<const double> travel_m, const std::vector<bool>& known);

}  // namespace fairlead::loads
