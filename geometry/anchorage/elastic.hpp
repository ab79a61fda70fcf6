// Nodes that three and more members hold in space.
#pragma once

#include "geometry/anchorage/node.hpp"

namespace fairlead::anchorage {

Solved<Held> hold_by_many(const Node&, Vec3 force_N);

}  // namespace fairlead::anchorage
