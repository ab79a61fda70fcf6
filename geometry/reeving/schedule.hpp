// What length every line needs as the weather and what is not known of the main line change.
#pragma once

#include <vector>

#include "geometry/reeving/station.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {

/// Lengths of the lines unloaded, without friction, the empty trolley at its mark, the unit's rest extension out, every
/// travelling block where it rests on the reference lines; of the braking line from the outlet on. NaN for support
/// lines, whose length is what it is.
/// needed_m[state][line], states as in Inputs::states. Unsolved where the rest position of a state is.
Solved<std::vector<std::vector<double>>> lengths_needed(const Inputs&, const Station& rest, double trolley_weight_N);

}  // namespace fairlead::reeving
