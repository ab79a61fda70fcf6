// What the clearance checks share: gaps of the clearance stage against limits.
#pragma once

#include <initializer_list>

#include "geometry/checks/worst.hpp"

namespace fairlead {

using ThingKind = clearance::Thing::Kind;

/// Which gaps a check judges: every gap between a `subject` and one of the `others`, told of the subject. A kind that
/// is both is told of the gap's first.
struct Pairs {
  std::initializer_list<ThingKind> subjects, others;
};

/// One finding a subject: its nearest other, with the least bound of all its others. Facts: {other} and {part} (what of
/// it), {case}, {into} how far they reach into each other at least
/// and {meet} where that is not known, {short} what lacks, {also} which others are not clear either. What meets fails
/// whatever limit was given, or not given. Where the stage is unsolved one finding says so.
void judge_gaps(const Rig&, const Check&, const Pairs&, const std::optional<Limit>&, std::vector<Finding>& out);

/// The instants at which the rider passes the sheaves on anchors, or the blocks: one finding each, the nearest passage.
/// Facts as above, {met} where the rider passes, {never} where in no passage.
void judge_passings(const Rig&, const Check&, ThingKind other, std::vector<Finding>& out);

/// The pulling line's stretch beside the brake trolley against the rider's reach. Facts besides: {inside} of its
/// {stretch} within it.
void judge_hands(const Rig&, const Check&, std::vector<Finding>& out);

/// A finding of what cannot be looked at for want of a key; true when there is any.
bool miss_envelope(const Rig&, const Check&, std::vector<Finding>& out);
void miss_sizes(const Rig&, const Check&, std::vector<Finding>& out);  ///< of blocks

/// The layout's item behind a thing of the clearance stage.
Item item_of(const Rig&, const clearance::Thing&);

}  // namespace fairlead
