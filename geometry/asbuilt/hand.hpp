// Which hand a survey has. Control points in one plumb plane lie on the layout as well with northing and easting
// swapped, and then left is taken for right; bearings read in the same frame can tell.
#pragma once

#include "geometry/asbuilt/as_built.hpp"

namespace fairlead {

/// Why no place is believed: the points would lie on the layout as well in a mirror, and no bearing tells which it is.
/// Empty where the points tell by themselves, or where every bearing (as read, in the frame of the points file) lies
/// within astray_rad of its drawn direction as the points are, and in each mirror that a file may be written in (axes
/// swapped, either one turned, both) one does not.
std::string hand_in_doubt(const Placing&, const std::vector<Characteristic>&, const std::vector<MeasuredValue>& read);

/// Both surveys stand in one frame with the same axes: then the hand of one is that of the other. Their common points
/// lie within half a metre as they were read, and not with the axes of one swapped; own figure.
bool same_axes(const Placing&, const Placing&);

/// Farther off its drawn direction no axle or axis is built: own rule.
inline constexpr double astray_rad = 0.5235987755982988;

}  // namespace fairlead
