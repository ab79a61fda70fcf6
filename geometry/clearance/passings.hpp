// The named instants and the hands at the trolley.
#pragma once

#include <limits>

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

/// A gap of the pair at one instant of a run. Of a scan nothing is looked for beyond within_m. rider: in place of the
/// run's own.
Gap gap_then(const Run&, const Pair&, int pose, double share, double within_m = std::numeric_limits<double>::infinity(),
             const Mover* rider = nullptr);

/// Most of the stretch within the envelope, at the poses of one run.
void add_inside(const Run&, const Pair& hands, Hands&);

/// The travel at a share of the way from a pose of the passage to the next.
double travel_at(const Passage&, int pose, double share);

}  // namespace fairlead::clearance
