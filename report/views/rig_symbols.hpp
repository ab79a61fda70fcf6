// What the things of a rig look like at scales where most of them are smaller than a pen can show.
#pragma once

#include "report/views/arrest.hpp"

namespace fairlead::views {

/// Sizes on paper, whatever the scale: symbols, not shapes. The legend says so.
inline constexpr double trolley_mm = 4.4, unit_length_mm = 6, unit_height_mm = 4, anchor_radius_mm = 0.9,
                        least_sheave_radius_mm = 0.8, force_arrow_mm = 8;

void draw_trolley(const drawing::Canvas&, drawing::Paper wheel, drawing::Paper attachment, Facing, drawing::Pen);
void draw_unit(const drawing::Canvas&, drawing::Paper outlet, drawing::Paper out_of_outlet);
void draw_anchor(const drawing::Canvas&, drawing::Paper at);
/// Whether a view shows an anchor's load: in plan one within the main line's own plane would lie on the lines.
bool shows_load(const Frame&, const AnchorSeen&, Facing);
void draw_backup_brake(const drawing::Canvas&, drawing::Paper at);
/// The sheave's circle as the view sees it, no smaller than `least_sheave_radius_mm`.
void draw_sheave(const drawing::Canvas&, const drawing::View&, const SheaveSeen&);
/// The box a rider can reach; in elevation also the hanging length down to the centre of mass.
void draw_rider(const drawing::Canvas&, const drawing::View&, const RiderSeen&, double hanging_m, Facing);
drawing::Box rider_box(const drawing::View&, const RiderSeen&);

}  // namespace fairlead::views
