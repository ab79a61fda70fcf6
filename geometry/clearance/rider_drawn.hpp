// The rider of one instant as drawings show him.
#pragma once

#include <vector>

#include "geometry/clearance/clearance.hpp"

namespace fairlead::clearance {

/// Corners of what a rider can reach whose wheel is there, once for each of a few leans from the farthest back to the
/// farthest forward that he is judged in at that travel, all leans sideways in each; margins are held within a tenth.
/// One before contact; none without a rider.
std::vector<std::vector<Point3>> leaning_rider(const Inputs&, const reeving::Inputs&, reeving::Running, double travel_m,
                                               Point3 wheel);

}  // namespace fairlead::clearance
