// The signs of a drawing office.
#pragma once

#include "report/drawing/canvas.hpp"

namespace fairlead::drawing {

/// Filled arrowhead of 15 degrees with its tip at a place, pointing along angle_rad.
void arrowhead(const Canvas&, Paper tip, double angle_rad, Layer, double length_mm = 3);
/// A line with an arrowhead at its end.
void arrow(const Canvas&, Paper from, Paper to, Pen);

/// Short strokes to the right of a line on its way, as ground or a deck carries them: below one that runs from left to
/// right.
void hatch_below(const Canvas&, Paper from, Paper to, Layer);

/// A zigzag across a line that goes on beyond the drawing; `angle_rad` is the line's direction.
void break_mark(const Canvas&, Paper at, double angle_rad, Layer, double half_mm = 4);

/// Black and white bar with its figures at the scale of a view: `count` units in `parts` parts, the unit's name at its
/// end.
struct BarUnit {
  std::string_view name = "m";
  double metres = 1;
};
void scale_bar(const Canvas&, Paper at, const View&, BarUnit, double count, int parts);

/// Two named arrows from one root: where two of the site's axes point in a view. An axis seen end on is left out.
struct Axis {
  Vec3 direction;
  std::string name;
};
void axes_sign(const Canvas&, Paper root, const View&, const std::vector<Axis>&, double length_mm);

/// Cone in two views after ISO 5456-2; `first`: first angle, else third.
void projection_sign(const Canvas&, const Box&, bool first, Layer);

/// A number in a circle, for a key where no label has room.
void balloon(const Canvas&, Paper centre, int number, Layer);
inline constexpr double balloon_radius_mm = 3;

/// A force seen in a view: a unit arrow of the space times `length_mm`, its tip `clear_mm` short of the place where the
/// force acts, so that it stands on the side that the pulling lines leave free. Seen almost end on it becomes a dot
/// (toward the viewer) or a cross (away) in a circle.
void force_arrow(const Canvas&, const View&, Point3 at, Vec3 force, double length_mm, double clear_mm = 0);
/// Where such an arrow begins.
Paper force_tail(const View&, Point3 at, Vec3 force, double length_mm);

}  // namespace fairlead::drawing
