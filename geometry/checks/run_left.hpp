// What is left of a leg before what stands at its ends runs together.
#pragma once

#include "geometry/checks/legs.hpp"

namespace fairlead {

/// Least over one sweep of the leg's chord, less how far the bodies at both ends stand out along it beyond the leg's
/// own ends (a block's by its size and its sheaves' rims; a sheave's by its rim and frame), or less the terminations
/// there. bound: between two poses the chord is no shorter than the straight way between both comes to zero, less the
/// strays of its ends; a body stands out by no more than at both poses and what it can turn.
Extreme least_run_m(const Rig&, const reeving::Sweep&, const std::vector<LegOf>&, std::size_t leg, bool bodies);

}  // namespace fairlead
