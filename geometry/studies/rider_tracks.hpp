// The arrest zone's track under riders of any mass.
#pragma once

#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead {

/// The track of every rider, in their order, each from sweeps of its own, on the main line of one of its paths with a
/// rider. Unsolved where a rider has no sweep.
Solved<std::vector<arrest::Track>> rider_tracks(const Rig&, int path, const std::vector<double>& rider_kg,
                                                const Work& = {});

}  // namespace fairlead
