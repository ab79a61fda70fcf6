// Which pairs are held against each other, and what is left out and why.
#pragma once

#include "geometry/clearance/movers.hpp"

namespace fairlead::clearance {

/// Two things, and the movers of each that are held against one another.
struct Pair {
  Thing a, b;
  struct Meeting {
    int a, b;  ///< indices into Plan::movers
  };
  std::vector<Meeting> meetings;
  bool spans = false;  ///< held over Inputs::spans, in place of Inputs::sweeps
};

struct Plan {
  std::vector<Recipe> movers;  ///< each once
  std::vector<Pair> pairs;
  std::optional<Pair> hands;
  std::vector<Exclusion> excluded;
};

Plan plan_pairs(const Inputs&, const reeving::Inputs&);

/// Whether it stands on an anchor: fixed, or on a mount that lets it turn.
bool stands_on_anchor(const reeving::Inputs&, const reeving::Sheave&);

/// The cylinder of a sheave on an anchor, as drawn.
Post post_of(const reeving::Sheave&, const SheaveBody&);

}  // namespace fairlead::clearance
