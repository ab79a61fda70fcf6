// What a crew strings the bare main line by: its tension, sag and returning wave at any temperature of the site.
#pragma once

#include <vector>

#include "geometry/mainline/states.hpp"

namespace fairlead::mainline {

/// The bare line at one temperature.
struct Strung {
  Cable cable;
  double horizontal_N{}, start_tension_N{}, end_tension_N{};
  double sag_m{};           ///< vertical, below the chord at mid-span
  double greatest_sag_m{};  ///< vertical, below the chord where the line runs parallel to it: what a line of sight just
                            ///< clears that is set down by as much at both supports
  double three_returns_s{};  ///< until a wave sent along the line from one support has come back for the third time:
                             ///< 6 times the integral of sqrt(m (1 + T/EA) / T) over the unstretched length. Common
                             ///< practice, no source
};

/// The line that pulls most and the one that pulls least (horizontally) of all that the layout leaves open; the same
/// one twice where it leaves nothing open.
struct Stringing {
  double temperature_K{};
  bool as_measured{};
  Strung tightest, slackest;
};

/// Whole fives of degrees Celsius that enclose the coldest and the warmest temperature, with the measured one in its
/// place. Unsolved where the bare line does not hang at one of them.
Solved<std::vector<Stringing>> stringing(const Inputs&, const MainLine&);

}  // namespace fairlead::mainline
