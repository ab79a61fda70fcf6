// How far the main line between its supports and wheels leaves the straight way between two solved shapes. Proven.
//
// Of a piece between supports and wheels a point at a fixed share s of its reach X has the height h(s) at a time t of
// the step. With the slope p = h_s/X along the line, H its horizontal tension and g = sqrt(1 + p2) an elastic line
// under its own weight is bent by
//     h_ss = X2 K(p, H),   K = w g / (H + g H2/EA).
// Let h~ go evenly from pose to pose. Then e = h - h~ obeys e_ss = b e_s + r, with |b| <= w X/H, so by the maximum
// principle it is nowhere greater than at its ends, where it is the wheels' stray, and e^(b/2)/8 of the greatest |r|.
// And
//     r = X2 K(h~_s/X, H) - its even change,
// with X, h~_s and H~ all even: at most an eighth of its second derivative for these (bands, for all s), and what H may
// be off its even change H~ (line_step.hpp), times dK/dH.
// A point that goes evenly from a share to another, as the end of what is left out beside a support, is where the
// line's point of the share between is, and what that moves along.
#pragma once

#include <array>

#include "geometry/reeving/line_step.hpp"

namespace fairlead::reeving {

/// Where a line is followed no farther than so far from its supports, at two poses.
struct LeftOut {
  std::array<double, 2> at_start_m{}, at_end_m{};
};

struct LineBetween {
  double stray_m;       ///< of every point that goes evenly between the ends of its piece
  double bulge_per_m2;  ///< most that a chord leaves the line by, per metre of its horizontal reach squared
  /// By no more is the horizontal tension anywhere less than what goes evenly from the least in one shape to the least
  /// in the other, or more than from the greatest to the greatest.
  double level_off_N;
  double steepest;  ///< no slope of the line is greater; 0 where nothing is proven
};

/// Between shapes with as many wheels, which go evenly along, or where two have met in one.
/// Infinite where nothing is proven. A margin of 1e-9 m stands for rounding and for what shapes are solved to.
LineBetween line_between(const mainline::Cable&, const mainline::Shape& from, const mainline::Shape& to,
                         const OnTheWay& wheels, const LeftOut& = {});

}  // namespace fairlead::reeving
