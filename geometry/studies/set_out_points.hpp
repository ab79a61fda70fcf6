// The physical marks that a crew sets out, and layouts in which one of them stands elsewhere.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead {

enum class Mark {
  bearing_point,  ///< of an anchor: where the load acts; the eye of a free sheave
  base,           ///< of an anchor's bracket
  axle_centre,    ///< of a sheave that is fixed to an anchor
  swivel_eye,     ///< a point on a swivel's axis, away from its anchor's bearing point
  foot,           ///< of a member: where it is fixed
  outlet,         ///< of the brake unit
  rest_mark       ///< of the brake trolley on the main line
};

struct SetOutPoint {
  Item item;
  Mark mark{};
  std::string id;  ///< names it in a points file; no two have the same: "A3", "A3-base", "unit", "rest"
  /// Site frame, m. Of the rest mark: on the bare main line as offset_from_line takes it; none where that is unsolved.
  std::optional<Point3> at;
};

/// In the order of the layout: anchors with their bases, sheaves, members, the unit's outlet, the rest mark. What hangs
/// free or travels is not set out.
std::vector<SetOutPoint> set_out_points(const Rig&);
/// The same before anything is solved: of the rest mark there is no place.
std::vector<SetOutPoint> set_out_points(const Layout&);

/// The layout with one mark elsewhere, all others where they were, and its lines made to fit: dead ends, the main
/// line's end, a free sheave and an eye at the bearing point go with an anchor; the fixed sheaves, the unit and the
/// base beside it do not, they are marks of their own. Chainages are still counted from where they were. The rest mark
/// goes along the main line only, by the along part of `by`.
Layout moved(Layout, const SetOutPoint&, const Frame&, Vec3 by_m);

}  // namespace fairlead
