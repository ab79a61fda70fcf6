// What a hand pulls the empty trolley with along the main line: a crew compares it with a spring balance.
#pragma once

#include <limits>

#include "geometry/reeving/at_rest.hpp"

namespace fairlead::reeving {

/// The empty trolley at one travel; holding it there, and no resistance of its wheels to rolling.
struct HandPull {
  double travel_m{};
  /// Along its track, downstream positive: what the line pulls it upstream by and its weight down the slope. N
  Solved<double> along_N = unsolved("not solved");
  double presses_N = std::numeric_limits<double>::quiet_NaN();  ///< its wheels on the main line, square to its track
};

/// The same weather, friction and way of running as a rest position of the reeving.
struct HandPulls {
  int position{};  ///< index into Reeving::rest
  Friction friction{};
  std::vector<HandPull> at;  ///< at the mark, at half the planned travel and at all of it
};

/// Along the track of the trolley's wheel, of what holds it in a pose: hold_N . (along cos tau + up sin tau).
double along_track_N(const Inputs&, const Pose&);

/// One of every rest position. With friction the trolley is pulled on where the line is paid out and let back where it
/// returns; standing still it may be held with anything between the two.
std::vector<HandPulls> hand_pulls(const Inputs&, const Reeving&);

}  // namespace fairlead::reeving
