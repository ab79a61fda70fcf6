// What the makers of a scene share.
#pragma once

#include "report/views/scene.hpp"

namespace fairlead::views {

/// A solved main line between two chainages, with a point at each of its wheels.
Curve3 curve_of(const Frame&, const mainline::Cable&, const mainline::Shape&, double from_m, double to_m);

/// The main line under a pose's loads: the brake trolley less the line's lift, with the rider on it once in contact;
/// before, the rider rolls upstream of it.
Curve3 main_line_of(const Frame&, const reeving::SweepInputs&, const reeving::Pose&, double from_m, double to_m);

/// Parallel lines, bare in that state of the main line, and the main line behind its saddles.
void see_cables(const Rig&, int state, Scene&);

/// Where a rider's wheel and the trolley's travel are when the wheel passes a chainage, between the two poses about it;
/// none where it does not.
struct RiderPassing {
  Point3 wheel;
  double travel_m{};
};
std::optional<RiderPassing> rider_passing(const Frame&, const reeving::Sweep&, double chainage_m);

/// The eight corners of a box by its own directions.
Curve3 corners_of(Point3 centre, const Size&, Vec3 along, Vec3 across, Vec3 up);

/// Heights and places across of the rig itself, within the chainages shown.
Reach3 reach_of(const Rig&, const Scene&);

/// How far each of their members ends beyond what a scene of the rig alone shows, along, across and up in turn; not
/// above 0 within it.
std::vector<double> ends_beyond(const Rig&, const Scene&);

/// The members of the anchors shown, as far as the scene and `reach` beyond it.
void see_members(const Rig&, const MemberReach&, Scene&);

/// The structures that stand within a scene's chainages and reach, and the indices of those that do not.
void see_structures(const Rig&, Scene&);

/// What its views show of a scan, within the scene's chainages and reach.
ScanSeen scan_seen(const Scene&, int structure);

}  // namespace fairlead::views
