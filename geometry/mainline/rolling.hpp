// The line under loads that roll: the iteration, with what the path needs beside the shape.
#pragma once

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// How the one load's place answers a change of its x.
struct Sensitivity {
  double dz_dx{};                ///< slope of the path
  double dforce_x_dx_N_per_m{};  ///< of the line's horizontal force on the wheel
};

/// hang_rolling for one load, and its sensitivity at the solution.
Solved<Shape> hang_rolling_with_slope(const Cable&, const Load&, const Shape* near, Sensitivity&);

}  // namespace fairlead::mainline
