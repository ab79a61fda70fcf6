// Reductions and slopes beside each other: an ideal reduction on a straight main line, all else as laid out.
#pragma once

#include <optional>
#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead {

struct Reductions {
  struct Rider {
    Solved<arrest::Motion> motion = unsolved("not solved");
    std::optional<arrest::FinalRest> rest;  ///< where the motion stops or creeps
  };
  struct Design {
    double ratio{}, slope{};  ///< n of n:1; dz/dx, rising toward the landing
    Rider farthest;           ///< heaviest, fastest, tail wind, least rolling resistance, weakest brake
    Rider shortest;           ///< lightest, slowest, head wind, greatest rolling resistance, strongest brake
    double least_reserve_N{};
    bool resets() const { return least_reserve_N > 0; }
  };
  double travel_m{}, efficiency = 1;
  mainline::Span arrival_m_per_s;
  std::vector<double> ratios, slopes;
  std::vector<Design> designs;  ///< every ratio with every slope, the slope innermost
};

/// 1:1 to 4:1, from 4 % falling to 4 % rising; of a concept its own ratio and slope among them, with its efficiency,
/// else without friction of sheaves. Without the lead of the lines out of the main line's direction: for comparing,
/// before there are coordinates. Unsolved where the arrest is.
Solved<Reductions> reductions(const Rig&, const Work& = {});

}  // namespace fairlead
