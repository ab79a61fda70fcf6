// What the legs of the reeving run between, in the layout's own items.
#pragma once

#include <optional>
#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead {

/// One end of a leg.
struct LegSide {
  Item item;  ///< a sheave, an anchor, a block, the brake trolley or unit; a wheel on a support line: its block
  reeving::Body body = reeving::on_ground;
  double termination_m{};  ///< of the eye, splice and connector there; 0 where the line runs on, or nothing is given
};

struct LegOf {
  Item line;
  LegSide from, to;
};

/// In the order of a pose's legs; empty where the reeving has no inputs.
std::vector<LegOf> legs_of(const Rig&);

/// The leg that runs onto sheave `i` of the reeving, from its line's `from` side.
std::size_t leg_onto(const reeving::Inputs&, std::size_t sheave);

/// The first sheave the line meets from the brake trolley, when it stands on an anchor.
std::optional<int> redirect_of(const Rig&);

/// Where a sheave's centre was written.
Place place_of(const Sheave&);

}  // namespace fairlead
