// Which poses a sweep needs, and a sweep from them.
#pragma once

#include "geometry/reeving/between.hpp"

namespace fairlead::reeving {

/// Poses in rising travel, travel 0 among them, and the bounds between each and the next.
struct Passage {
  std::vector<Station> stations;
  std::vector<Between> gaps;
};

/// Spread evenly at first, then halved where a bound between two poses stands farther above what the poses show than
/// the resolution asks for, down to steps of a millimetre and up to most_poses.
Solved<Passage> pass(const Inputs&, const SweepInputs&, const Outlet&);

/// Beyond this many poses a sweep is not refined: its bounds stay as wide as they are.
inline constexpr std::size_t most_poses = 2000;

/// The records of one solved pose, at a sweep's end; travel 0 becomes its rest pose.
void add_pose(const Inputs&, const Station&, Sweep&);

/// One whole sweep.
Solved<Sweep> solve_sweep(const Inputs&, int index, const Outlet&);

}  // namespace fairlead::reeving
