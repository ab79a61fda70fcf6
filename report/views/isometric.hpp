// The arrest end from a corner above it: along, across and up at equal angles and equally foreshortened on paper, laid
// out after ISO 5456-3 (recalled).
#pragma once

#include "report/views/arrest.hpp"

namespace fairlead::views {

/// Lengths along, across and up are drawn by this much shorter than the view's scale says.
inline const double isometric_foreshortening = std::sqrt(2.0 / 3);

/// Unit vectors of the site that run right and up on paper, seen from one of the four corners between along and across.
/// From the right, so that chainage runs to the right, unless anchors, sheaves and the brake unit then stand clearly
/// nearer to each other on paper than seen from the left.
struct PaperAxes {
  Vec3 right, up;
};
PaperAxes isometric_axes(const Scene&);

/// Where everything stands in plan: a level as low as the lowest thing seen, the main line's trace on it, for each
/// point that is set out its foot there and the point of the trace beside it, and nearer to the viewer than all of that
/// the line that chainages are read on.
struct Ground {
  double level_m{};
  Point3 from, to;              ///< the trace
  Point3 scale_from, scale_to;  ///< of the chainages
  struct Plumb {
    Point3 point, foot, beside;
  };
  std::vector<Plumb> plumbs;

  Curve3 corners() const;  ///< all that is drawn of it
};
Ground ground_of(const Scene&);
/// The trace, plumb lines, level ones to the trace where a point stands aside from it, and the chainages with the
/// direction of travel.
void draw_ground(const drawing::Canvas&, const Scene&, const drawing::View&, const Style&);

/// The visible edges of a box by its eight corners, in the order of RiderSeen::corners.
std::vector<std::vector<drawing::Paper>> visible_edges(const drawing::View&, const Curve3& corners);

/// Where a plane cuts the box that a scene shows, as an outline; empty where it does not.
std::vector<drawing::Paper> plane_outline(const Scene&, const StructureSeen& plane, const drawing::View&);

}  // namespace fairlead::views
