// Which line runs where: the author's lines in the order and direction the mechanics takes them.
#pragma once

#include "geometry/rig/rig.hpp"

namespace fairlead {

/// What a line's end holds, seen through the connector that joins it.
using Held = std::variant<AnchorId, BlockId, BrakeTrolleyEnd, BrakeUnitEnd>;

/// One line of the reeving from its end nearer the brake trolley; a support line from its upstream anchor.
struct Course {
  Item item;        ///< a [[line]] or a [[support_line]]
  bool reversed{};  ///< it runs from the layout's `to` to its `from`
  Held from, to;
  Vec3 from_offset, to_offset;                  ///< of ends on blocks: along, across, up from the block's point
  std::vector<int> sheaves;                     ///< indices into layout.sheaves; -1: the wheel of a support line
  std::vector<std::optional<Turning>> turning;  ///< per sheave, as the course runs
  std::optional<BlockId> closed_by;             ///< the block whose rest position fixes its length
};

/// All courses: the one that pulls on the brake trolley first, the braking line last (it may be the same), then the
/// support lines.
struct Courses {
  std::vector<Course> courses;
  int pulling{}, braking{};
};

/// Unsolved, in words for the author, where a line is missing or doubled, joins another line without a block, a sheave
/// carries two lines, or the reduction hangs on the brake trolley.
Solved<Courses> courses_of(const Layout&);

/// What each block of the reeving is: the layout's [[block]]s in their order, then every [[sheave]] with a line over it
/// that swivels or hangs free, in theirs.
std::vector<Item> bodies_of(const Layout&, const Courses&);

}  // namespace fairlead
