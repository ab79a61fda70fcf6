// The named instants and the hands at the trolley.
#pragma once

#include "geometry/clearance/plan.hpp"

namespace fairlead::clearance {

/// One passage and where the plan's movers are in it.
struct Run {
  Passage passage;
  int sweep{};
  std::vector<Mover> movers;
  bool spans = false;  ///< of Inputs::spans: for the pairs that are held over them
  int added{};         ///< poses that the sweep does not have, before its own
  bool looks_at_rider = true;

  bool with_rider() const { return looks_at_rider && passage.inputs.rider && passage.given.rider_weight_N > 0; }
};

/// Passings of one run: redirects, then blocks.
std::vector<Passing> passings_of(const Run&, const Plan&);

/// Most of the stretch within the envelope, at the poses of one run.
void add_inside(const Run&, const Pair& hands, Hands&);

/// The travel at a share of the way from a pose of the passage to the next.
double travel_at(const Passage&, int pose, double share);

}  // namespace fairlead::clearance
