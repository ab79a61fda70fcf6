// What a sweep cannot exceed between two neighbouring poses.
//
// Between them the attachment stays in a box: along the line between its two places, across not at all, up or down by
// what the slopes of its path allow. The outlet's tension stays between its two values (the extension grows all the
// way, which the pay-out bound itself shows, and a table is monotone between its points as far as its ends say). From
// the box follow the chord's bands, from them the parameter h of the catenary (leg.hpp: it rises with the distances and
// falls with the tension, so its ends come from the extreme corners), the slopes of the hanging line at both ends
// (sinh(asinh(slope S) -+ h), monotone in slope, S and h), its plan direction, and so the angle to any axle and the
// rate of paying out, by plain interval arithmetic.
//
// Two things are taken, not proven: the slope of the wheel's path, and the place of the contact on its sheave, leave
// the range of their two end values by no more than the width of that range. Poses are dense enough for that to be
// generous; the tests hold 20,000 random poses against every bound.
//
// For a weightless line the same bound in closed form: `fleet_bound`.
#pragma once

#include <vector>

#include "geometry/reeving/band.hpp"
#include "geometry/reeving/pose.hpp"

namespace fairlead::reeving {

struct Between {
  std::vector<double> fleet_rad;  ///< per sheave, of both sides
  double lead_rad{};
  Band pay_out;                         ///< meaningful at travel >= 0
  double up_m{};                        ///< half the height of the attachment's box
  std::vector<double> contact_moves_m;  ///< per sheave, the farther of both contacts from its nearer end, along the arc
};

Between between(const Inputs&, const Station&, const Station&);

/// Greatest fleet angle of a straight leg from a fixed sheave to any point within `ball_m` of `end`; pi/2 where the
/// ball reaches the sheave. |sin f| <= (|h| + ball) / sqrt((|end - c| - ball)^2 - r^2), h the end's height over the
/// groove's plane.
double fleet_bound(const Sheave&, Point3 end, double ball_m);

}  // namespace fairlead::reeving
