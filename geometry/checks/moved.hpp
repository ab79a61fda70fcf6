// Layouts with anchors moved within their movement, and what all of them say together.
#pragma once

#include "geometry/checks/check.hpp"

namespace fairlead {

/// The layout with an anchor moved and what stands on it: sheaves, the brake unit, a swivel's axis. Its members' far
/// ends and its base stay.
Layout moved(Layout, AnchorId, Vec3 by);

/// The layout with the movement of every anchor that gives its stiffness: its greatest pull over it, either way, as it
/// is at the drawn place. Where a pull is not known, the movement is not either.
Layout with_give(const Rig& drawn);

/// Whether at a moved place no anchor that gives its stiffness is pulled more than 1.05 times as hard: then one round
/// of movement is taken as enough.
bool settled(const Rig& drawn, const Rig& at_corner);

/// A corner of the boxes of all anchors that may move, and in words: "anchor A3 moved by (20, -20, 10) mm along,
/// across, up".
struct MovedPlace {
  Layout layout;
  std::string words;
};

/// Every corner of all boxes together; the opposite of the first is the last, and so on inward. None where nothing
/// moves, or where more anchors move than are judged together.
std::vector<MovedPlace> corners_of(const Layout&, const Frame&);

/// Whether more anchors move than are judged together.
bool too_many_move(const Layout&);
inline constexpr int most_anchors = 2;  ///< judged together: 64 corners

/// The findings at the drawn place, each the worst of all places, a fact "moved" naming where that is. `at_corner`: in
/// the order of corners_of.
///
/// Between the corners a number is taken to stray by the greatest difference between its drawn value and the mean of
/// two opposite corners: estimated, not proven. Where that reaches the limit a pass becomes undetermined.
void widen(std::vector<Finding>& drawn, const std::vector<MovedPlace>&,
           const std::vector<std::vector<Finding>>& at_corner);

/// Makes of every pass an undetermined for this reason.
void leave_unknown(std::vector<Finding>&, const std::string& why);

}  // namespace fairlead
