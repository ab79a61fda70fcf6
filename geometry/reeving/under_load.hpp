// Poses under a load on the trolley and a tension of the unit that are given: instants of an arrest.
#pragma once

#include <span>

#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {

struct UnderLoad {
  double travel_m{};        ///< >= 0
  double unit_tension_N{};  ///< > 0
  double down_N{};          ///< of all that presses on the trolley's wheels, its own line's pull not counted; > 0
};

/// One pose each, in their order, on the lines of one path in still air with friction of the given sense (of none where
/// no sheave rubs). Of the sweep only path, running, friction, tension_ratio, poses, turns, legs, blocks and tension_N
/// are filled in. Unsolved as solve_pose is, and where the reeving has no sweep of that path.
Solved<Sweep> solve_under_load(const Inputs&, const Reeving&, int path, Friction, std::span<const UnderLoad>);

}  // namespace fairlead::reeving
