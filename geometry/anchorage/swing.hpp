// Nodes that one or two members hold: mechanisms that swing until they are in equilibrium.
#pragma once

#include "geometry/anchorage/node.hpp"

namespace fairlead::anchorage {

Solved<Held> hold_by_one(const Node&, Vec3 force_N);
Solved<Held> hold_by_two(const Node&, Vec3 force_N);

}  // namespace fairlead::anchorage
