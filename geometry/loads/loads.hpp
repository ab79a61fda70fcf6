// What every anchor carries: one load case at a time, and the self-check that nothing was forgotten.
#pragma once

#include <string>
#include <vector>

#include "geometry/mainline/states.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::loads {

/// Which anchor holds what; indices into the layout's anchors.
struct Inputs {
  std::vector<Point3> anchors;
  std::vector<int> sheave_anchor;  ///< per sheave of the reeving, in its order
  int unit_anchor{}, start_anchor{}, end_anchor{};
  double unit_weight_N{};  ///< of the brake unit on its anchor; 0 where the layout gives no mass
  bool operator==(const Inputs&) const = default;
};

enum class Action { at_rest, peak_tension, rider_on_span };

/// One set of forces that act at once. Force of the rig on the anchor, site frame, unfactored.
struct LoadCase {
  std::string name;  ///< "peak line tension, heaviest rider, cold, travel 0.00 m"
  Action action{};
  int sweep = -1, pose = -1;  ///< of the reeving; -1 for a rider on the open span
  double travel_m{};
  std::vector<Vec3> on_anchor_N;
  Vec3 out_of_balance_N, out_of_balance_N_m;  ///< moments about the main line's start support; must vanish
  double largest_N{};                         ///< of all forces in the balance
};

/// The worst of one anchor over every pose of every sweep, with a bound over what lies between.
struct Demand {
  Extreme force_N;  ///< pose: index into cases
};

struct Loads {
  std::vector<LoadCase> cases;     ///< at rest (cold, warm, ...) and the governing case of each anchor
  std::vector<Demand> demands;     ///< per anchor; an anchor nothing is tied to has 0
  double worst_force_residual{};   ///< over all poses: |out of balance| / largest force; judged at 1e-9
  double worst_moment_residual{};  ///< over all poses: |out of balance| / (largest force x size of the rig)
};

/// Unsolved when any pose does not balance to 1e-9: then a force was left out or counted twice.
Solved<Loads> solve(const Inputs&, const mainline::MainLine&, const reeving::Inputs&, const reeving::Reeving&);

}  // namespace fairlead::loads
