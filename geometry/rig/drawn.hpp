// Where the reeving is drawn before it is solved: blocks about where they rest, which way round each sheave a line
// goes, and how much slower than the brake trolley the unit's line runs.
#pragma once

#include "geometry/rig/courses.hpp"

namespace fairlead {

/// Place of each block's point as drawn: on the chord of its support line, or on the straight way from the fixed points
/// upstream of it to those downstream; at its rest chainage, or where its line of known length fits.
std::vector<Point3> drawn_blocks(const Layout&, const Frame&, const Courses&);

/// The points a course runs by, as drawn: its ends, and the centres of its sheaves between them.
std::vector<Point3> drawn_points(const Layout&, const Frame&, const Course&, const std::vector<Point3>& blocks,
                                 Point3 attachment);

/// Centre of a sheave as drawn; of a free one its anchor.
Point3 drawn_centre(const Layout&, const Sheave&, const Frame&, const std::vector<Point3>& blocks);

/// A free sheave about where its lines pull it.
struct HungSheave {
  Point3 centre;
  Vec3 axle;  ///< unit
};
/// Between the points before and after it on its line, equally tight and straight, weightless; its axle square to them,
/// on the side of `axle` (unit).
HungSheave hung_on_link(Point3 anchor, double link_m, Vec3 axle, Point3 before, Point3 after, Vec3 up);

/// n of n:1 on parallel, frictionless, weightless lines: the tension of the braking line over that of the line on the
/// trolley. Every leg on a block pulls it toward where the leg's other end is drawn. Below 1 the reduction is upside
/// down: the unit's line runs faster than the trolley. Unsolved, in words for the author, where no tensions hold the
/// blocks or a line would have to push.
Solved<double> nominal_ratio(const Layout&, const Frame&, const Courses&, const std::vector<Point3>& blocks,
                             Point3 attachment);

/// A vector along, across, up in the site frame.
Vec3 site_vector(const Frame&, Vec3 rig);

}  // namespace fairlead
