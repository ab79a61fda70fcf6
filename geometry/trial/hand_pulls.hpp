// What the brake trolley does in a crew's hands, before any mass moves: pulls both ways, line paid out, the way back.
#pragma once

#include "geometry/trial/ride.hpp"

namespace fairlead::trial {

/// At one travel, in every state of the main line and at both ends of what friction can hold.
struct HandPulled {
  Solved<Span> pull_on_N = unsolved("not solved");    ///< drawn slowly toward the landing
  Solved<Span> let_back_N = unsolved("not solved");   ///< let slowly back toward its mark
  Solved<Span> extension_m = unsolved("not solved");  ///< line out of the unit
};
/// At the mark, at half the planned travel and at all of it.
std::vector<HandPulled> hand_pulled(const Rig&);

/// How long the empty trolley takes back to its mark, let go anywhere in `from_m`. Unsolved where it does not come.
Solved<Span> return_time_s(const Rig&, const Span& from_m);

}  // namespace fairlead::trial
