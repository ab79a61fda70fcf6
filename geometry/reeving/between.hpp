// What a sweep cannot exceed between two neighbouring poses: proven.
//
// All unknowns of the rig are continuous in the travel x: the wheel's height, the main line's tension and its two
// slopes at the wheel, the extension, every line's tension, every block's place, the two contacts of every leg. Take a
// box of bands for all of them that holds the pose at the interval's beginning. From the box follow, by band
// arithmetic, bands for their rates, and for the slopes and contacts themselves:
//  - legs: leg_answer.hpp; a contact stands square to the leg's end tangent, whose direction is known in bands;
//  - height z, blocks' moves and tensions: linear equations in their rates (linear_band.hpp), the coefficients in
//  bands:
//        z' + dz/dW P' = dz/dx    (dz/dx and dz/dW of wheel.hpp, P the line's upward pull on the trolley),
//        each block: change of the forces on it, and of their moments where it turns freely, = 0,
//        each line: T' = slope of the retraction x E', T' = 0 where it is held, or change of unstretched length = 0;
//  - extension: E' is the change of the braking line's unstretched length.
// If the bands that follow lie strictly within the box over the whole interval, no unknown can be the first to leave
// it, so all stay inside. Else the box is widened and tried again; where that fails nothing is known and every bound is
// infinite: the interval is then halved.
//
// Upstream of the rest mark the trolley bobs as the rider comes nearer. How far both wheels leave the straight way is
// proven (wheels_between.hpp) where the weight on the trolley's wheel changes evenly but for so much; by how much it
// does not, its line's pull at the heights of the box says. Where that is strictly less than what was supposed, neither
// can be the first to leave. Everything else follows as above, with the height in place of the travel.
#pragma once

#include <vector>

#include "geometry/reeving/band.hpp"
#include "geometry/reeving/pose.hpp"

namespace fairlead::reeving {

struct Between {
  std::vector<double> fleet_rad;  ///< per sheave, of both sides; 0 at a wheel
  double lead_rad{};
  Band pay_out;     ///< travel >= 0 only
  Band efficiency;  ///< likewise, with friction only
  Band extension_m;
  std::vector<Band> wrap_rad;           ///< per sheave; 0 at a wheel
  std::vector<double> least_tension_N;  ///< per leg, anywhere along it
  /// Of every sheave, on and off: how far the contact is from straight interpolation along, across and up; the margin
  /// not counted.
  std::vector<Vec3> contacts_m;
  Stray stray;
};

/// Bounds over the interval between two solved poses of one sweep, both at travel >= 0 or both at travel <= 0. What is
/// not known is infinite, or pi/2 and pi for the angles. A margin of 1e-9 (m, rad, a share of tensions) stands for the
/// tolerances the poses are solved to and for rounding.
Between between(const Inputs&, const SweepInputs&, const Outlet&, const Station&, const Station&);

}  // namespace fairlead::reeving
