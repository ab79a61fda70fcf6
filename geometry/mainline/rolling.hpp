// One rolling load with what its path needs beside the shape. Only mainline includes it.
#pragma once

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// How the solution answers a change of the load's x.
struct Sensitivity {
  double slope{};                ///< dz/dx of the wheel: the slope of its path
  double force_slope_N_per_m{};  ///< of the line's horizontal force on it
};

/// hang_rolling for one load; fills the sensitivity when it is solved.
Solved<Shape> hang_rolling(const Cable&, const Load&, const Shape* near, Sensitivity&);

}  // namespace fairlead::mainline
