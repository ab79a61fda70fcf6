// Where else the marks of a network may stand for all that its distances tell. Such places are mirror images of parts
// of it; of networks that bend into another shape without breaking a tape, which takes many marks that hang together by
// few tapes, none is looked for.
#pragma once

#include <vector>

#include "geometry/survey/network.hpp"

namespace fairlead {

/// The points that were neither shot nor held, in groups that readings join: indices, rising; groups in the order of
/// their first.
std::vector<std::vector<int>> hanging_together(const Network&);

/// The places of all points with one set of a group turned over a plane through the points which distances tie it to,
/// for every set: over the one that lies best through three or more, and over the best plumb one through two or more,
/// which levelled rises do not notice. The group has most_hanging_together or fewer.
std::vector<std::vector<Point3>> mirrored_starts(const Network&, const std::vector<int>& group,
                                                 const std::vector<Point3>& at);

}  // namespace fairlead
