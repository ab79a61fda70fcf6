// Rolling loads with what the path of the first needs beside the shape. Only mainline includes it.
#pragma once

#include <span>

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// How the solution answers a change of the first load's x.
struct Sensitivity {
  double slope{};                ///< dz/dx of the wheel: the slope of its path
  double force_slope_N_per_m{};  ///< of the line's horizontal force on it
};

/// hang_rolling for one or two loads; fills the first one's sensitivity when it is solved.
Solved<Shape> hang_rolling(const Cable&, std::span<const Load>, const Shape* near, Sensitivity&);

}  // namespace fairlead::mainline
