// One pose: trolley, blocks and lines, the unit's tension on its extension, all in balance with each other.
#pragma once

#include "geometry/reeving/station.hpp"
#include "geometry/reeving/wheel.hpp"

namespace fairlead::reeving {

/// Solves one pose: equilibrium to 1e-11 of the forces, lengths to 1e-11 m. Where `near` is a neighbour (both upstream
/// of the mark or both beyond it) the search goes on from there, else blocks are sought from wherever they are drawn.
/// The result does not depend on either beyond the tolerances. Only stable balance is accepted: a push on a block
/// moves it the way it is pushed. Unsolved where a line cannot hang, goes slack or lifts off a sheave, where the
/// trolley is lifted off the main line, and where a block can stand anywhere.
Solved<Station> solve_pose(const Inputs&, const SweepInputs&, const Outlet&, double travel_m,
                           const Station* near = nullptr);

/// The same in place: `at` is the neighbour, or empty, and becomes the pose; no memory is allocated when it was a pose
/// of the same rig. What it holds afterwards is of no use where it is unsolved.
tl::expected<void, Unsolved> solve_pose(const Inputs&, const SweepInputs&, const Outlet&, double travel_m, Station& at);

/// The rest position on lines as measured: empty trolley at its mark, the unit's rest extension, blocks with a
/// Block::rest_m there.
Solved<Station> solve_rest(const Inputs&, const State&, double trolley_weight_N);

/// The lengths all lines have then: what is settled before a sweep begins.
Solved<Outlet> rest_outlet(const Inputs&, const State&, double trolley_weight_N);

/// Line that passes every sheave toward its line's `from`, per metre of travel (at travel >= 0): what turns it.
std::vector<double> flow_of(const Inputs&, const Station&);

}  // namespace fairlead::reeving
