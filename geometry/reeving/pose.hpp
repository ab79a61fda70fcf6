// One pose: the trolley's wheel on the main line, the lines on trolley, blocks and unit, the unit's tension on its
// extension, all in balance with each other.
#pragma once

#include "geometry/reeving/station.hpp"
#include "geometry/reeving/wheel.hpp"

namespace fairlead::reeving {

/// Solves one pose: equilibrium to 1e-11 of the greatest force, lengths to 1e-10 m. The result does not depend on
/// `near` beyond these. Unsolved where a line cannot hang or would be slack, where the lines lift the trolley off the
/// main line, where a block could stand anywhere, or where nothing balances.
Solved<Station> solve_pose(const Inputs&, const SweepInputs&, const Outlet&, double travel_m,
                           const Station* near = nullptr);

/// The empty trolley at its rest mark, the unit at its rest extension, blocks where they rest: it settles the lengths.
Solved<Station> solve_rest(const Inputs&, const State&, double trolley_weight_N);

/// Lengths for `Outlet`, of every line as it is in the rest position.
Solved<Outlet> rest_outlet(const Inputs&, const State&, double trolley_weight_N);

/// Slope of a table toward greater x; beyond its ends that of the end segment.
double slope_after(const Curve&, double x);

}  // namespace fairlead::reeving
