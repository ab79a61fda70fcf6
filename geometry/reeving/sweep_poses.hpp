// Which poses a sweep needs, and a sweep from them.
#pragma once

#include "geometry/reeving/pose.hpp"

namespace fairlead::reeving {

/// Poses in rising travel, travel 0 among them: spread evenly at first, then halved where a bound between two poses
/// stands farther above what the poses show than the resolution asks for, down to steps of a millimetre.
Solved<std::vector<Station>> solve_stations(const Inputs&, const SweepInputs&, const Outlet&);

/// One whole sweep.
Solved<Sweep> solve_sweep(const Inputs&, int index, const Outlet&);

}  // namespace fairlead::reeving
