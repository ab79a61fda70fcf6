// One anchor's governing load as a vector, in elevation, in plan and from upstream, with what it takes of the anchor's
// capacity.
#pragma once

#include "report/sheets/sheet.hpp"

namespace fairlead::sheets {

inline constexpr double force_panel_height_mm = 76;

/// Draws it into a frame. The arrow begins at the anchor and has the force's length at the force scale beside it; its
/// three views go to the drawing's views with a newton in place of a metre. Without a governing load it says so.
void draw_force_panel(const drawing::Canvas&, const drawing::Box&, const Dossier&, std::size_t anchor, const Style&);

/// What the check of an anchor's utilisation found; none where it is not among the findings.
const Finding* utilisation_of(const Dossier&, std::size_t anchor);
/// The working load that a demand is held against, as the check of it knows it.
std::optional<Quantity> capacity_of(const Finding*);

}  // namespace fairlead::sheets
