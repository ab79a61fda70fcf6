// A survey by tapes alone: nothing was shot, and the control marks are held where the layout has them. That they stand
// there is what whoever names them says; here it is held against what was read from them.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "geometry/asbuilt/known_points.hpp"
#include "geometry/asbuilt/placing.hpp"

namespace fairlead {

/// The control marks as points that are held, in the order in which they are named. What is wrong is added to the
/// errors: none or fewer than three are named, one is not known, hangs on a line or is named twice, or all stand in one
/// line.
std::vector<PlacedPoint> held_points(const std::map<std::string, Known>&, const std::vector<SetOutPoint>& marks,
                                     const std::vector<std::string>& control, PointsErrors&);

/// Refused where the tapes, the middle one of all, are as many times too long as one unit is longer than another: no
/// rig is built so far off.
void refuse_other_unit(const std::vector<SiteReading>&, const std::map<std::string, Known>&, PointsErrors&);

/// From what error on the readings show that a held point does not stand there; infinite where they would not.
double shows_from_m(const Placing&, const PlacedPoint&);

}  // namespace fairlead
