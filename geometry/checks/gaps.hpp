// What the clearance checks share: gaps of the clearance stage against limits.
#pragma once

#include "geometry/checks/worst.hpp"

namespace fairlead {

/// The layout's item behind a thing of the clearance stage.
Item item_of(const Rig&, const clearance::Thing&);
/// "the rider's envelope", "frame", ... : what of that item.
std::string part_of(const clearance::Thing&);

/// One finding a gap that `wanted` picks, least clearance against the limit: named after gap.a, facts {other}, {part},
/// {own_part}, {case}. Where the stage is unsolved one finding says so.
void judge_gaps(const Rig&, const Check&, bool (*wanted)(const clearance::Gap&), const std::optional<Limit>&,
                std::vector<Finding>& out);

/// The same of the instants at which the rider passes a redirect, or a block.
void judge_passings(const Rig&, const Check&, clearance::Thing::Kind other, std::vector<Finding>& out);

}  // namespace fairlead
