// The passage of a rider from the push-off on, as the main line goes with it.
#pragma once

#include "geometry/clearance/movers.hpp"

namespace fairlead::clearance {

/// The sweep's poses, and before the first of one at rest with a rider on it poses from the push-off on: a metre apart
/// at the usual resolution, and near the start support no farther than a tenth of the way from it. The brake trolley
/// rests at its mark under the pull it has in the sweep's first pose. Of these poses only where rider and trolley are
/// is set, and of strays theirs; of all poses there are no legs.
///
/// The strays are proven (reeving/wheels_between.hpp). A step of which nothing is proven is halved, up to six times
/// over; what is left then has infinite strays, which no bound passes.
struct WholeSpan {
  reeving::Sweep sweep;
  int added{};  ///< poses before the sweep's own
};
Solved<WholeSpan> whole_span(const Inputs&, const reeving::Inputs&, const reeving::Sweep&, const reeving::SweepInputs&);

}  // namespace fairlead::clearance
