// The least gap of two moving things over a passage: seen, and bounded from below between the poses.
//
// Between poses everything is first taken to move straight and evenly. A gap then changes over a stretch of the way by
// no more than L, the greatest relative move of any two of its points, so over that stretch it is nowhere below
// (first + last - L) / 2. Stretches are halved while that leaves room for less than was shown already. What the poses
// leave open (how far things stray from the straight way) and the chords of curves come off the bound at the end.
#pragma once

#include <limits>
#include <span>

#include "geometry/clearance/movers.hpp"

namespace fairlead::clearance {

/// The least over one passage after the other.
struct Least {
  double value_m = std::numeric_limits<double>::infinity();  ///< the gap is this or less
  double bound_m = std::numeric_limits<double>::infinity();  ///< it is this or more
  double shown_m =
      std::numeric_limits<double>::infinity();  ///< least on the straight way, on chords: steers the search
  Nearest nearest;                              ///< of the value, on the surfaces
  int sweep = -1, pose{};                       ///< of the value: the pose of the passage, at or before it
  double share{};                               ///< of the way to the next pose
};

/// Surface to surface, at a share of the way from a pose to the next. Of a scan nothing is looked for beyond within_m:
/// what is farther may be infinitely far.
Nearest gap_at(const Mover&, const Mover&, int pose, double share,
               double within_m = std::numeric_limits<double>::infinity());

/// How far gap_at may be from the truth there.
double open_at(const Mover&, const Mover&, int pose, double share);

/// Two things over the poses of one passage. At most one stands still.
struct Meet {
  const Mover *a, *b;
  int poses{};
  int sweep{};  ///< as Least names it
};
/// The least of all.
Least search(std::span<const Meet>, double resolution_m);

}  // namespace fairlead::clearance
