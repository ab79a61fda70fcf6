// How far the wheels on the main line leave the straight way between two solved places.
#pragma once

#include <array>

#include "geometry/mainline/cable.hpp"

namespace fairlead::reeving {

/// Greatest height of each wheel over or under the straight way from its place in one shape to that in the next, m.
/// Infinite where nothing is proven, as where steps are too long, and where the two have not as many wheels, one or
/// two; but from two to one they meet.
struct WheelsStray {
  std::array<double, 2> wheel_m;
};

/// Of wheels that each roll evenly along, under weights that change evenly but for what each may be off by. Proven
/// (line_step.hpp); a margin of 1e-9 m stands for rounding and for what shapes are solved to.
WheelsStray wheels_between(const mainline::Cable&, const mainline::Shape& from, const mainline::Shape& to,
                           const std::array<double, 2>& weights_off_N = {});

}  // namespace fairlead::reeving
