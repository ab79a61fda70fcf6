// How the line pulls at the brake trolley over one sweep: aslant, aside, upward and over its wheels.
//
// Between two poses the pull runs along q = c - k u: c the chord of the leg at the trolley, u up of the leg (minus the
// direction of its load), k how much the leg's end tangent drops below the chord over the chord's reach square to u. c
// stays within the strays of both ends of straight interpolation (Stray), so the direction of q stays within
// asin(r / |q|) of the arc between the directions at both poses, r being these strays and what k can differ. Two things
// are taken, not proven: k and the slope of the wheel leave the range of their two values by no more than its width
// (the slope jumps at contact; up to there it changes on as before), and the tension at the trolley does not exceed the
// greater of its two values. All three change one way with the travel on any rig that pays out.
#pragma once

#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {

/// The greatest of one sweep, upstream poses included.
struct TrolleyPull {
  Extreme angle_rad;    ///< of the pull off the trolley's track, upstream: the slope of its wheel there
  Extreme side_rad;     ///< off the main line's vertical plane, either way
  Extreme lift_share;   ///< upward pull over the weight that the wheel carries without it
  Extreme pitch_share;  ///< moment of the pull about the wheel's contact, across, over what would tip the trolley: what
                        ///< presses on the wheel times half the wheelbase; 1 and more: it tips. Infinite where nothing
                        ///< presses
};

/// `wheelbase_m`: between the outermost wheels, the contact in their middle; NaN makes pitch_share NaN.
TrolleyPull trolley_pull(const Inputs&, const SweepInputs&, const Sweep&, double wheelbase_m);

}  // namespace fairlead::reeving
