// Everything a crew sets the rig out by.
#pragma once

#include <string>
#include <vector>

#include "geometry/mainline/stringing.hpp"
#include "geometry/reeving/hand_pull.hpp"
#include "geometry/studies/line_offsets.hpp"
#include "geometry/studies/set_out_points.hpp"
#include "geometry/survey/ties.hpp"

namespace fairlead {

/// One mark with what it is found and checked by.
struct SetOut {
  SetOutPoint point;
  Solved<LineOffset> from_line = unsolved("its place is not known");
  std::optional<double> rise_m;  ///< above the first mark that has a place: the bench mark of the levels
};

struct SettingOut {
  std::vector<SetOut> marks;  ///< in the order of set_out_points
  double longest_tape_m{};
  /// What tapes run between: the points file's pegs, which stand already, then the marks.
  std::vector<std::string> tape_ends;
  std::vector<Solved<TiedMark>> ties;  ///< one a mark; indices are into tape_ends
  int bench = -1;                      ///< index into marks; -1 where none has a place
  std::optional<double>
      platform_rise_m;  ///< of the landing platform above the bench mark; none where either is not known
  Solved<std::vector<mainline::Stringing>> stringing = unsolved("not solved");
  Solved<std::vector<reeving::HandPulls>> hand_pulls = unsolved("not solved");
};

/// Every mark is tied to pegs and to any others, past the layout's structures; a mark without a place to none.
SettingOut setting_out(const Rig&, double longest_tape_m = 30);

}  // namespace fairlead
