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
/// A travelling block's box and the wheels it rolls on, no smaller than a symbol.
void draw_block(const drawing::Canvas&, const drawing::View&, const BlockSeen&, drawing::Pen);
/// The end of a line that nothing pays out: a bar across it at its bearing.
void draw_dead_end(const drawing::Canvas&, drawing::Paper at, drawing::Layer);

/// Legs, guys and poles, and the support at their far ends.
inline constexpr drawing::Pen member_pen{drawing::narrow_mm, drawing::LineType::long_dash_short_dash,
                                         drawing::Layer::anchors};
void draw_far_end(const drawing::Canvas&, drawing::Paper at);
/// One of them with its far end, or a break where it runs on.
void draw_member(const drawing::Canvas&, const drawing::View&, const MemberSeen&, Facing);
/// The last of it that a view shows.
Point3 seen_end(const MemberSeen&, Facing);

/// How a line is drawn, standing and at the far end of its travel.
drawing::Layer layer_of(Role);
drawing::Pen standing_pen(Role);
drawing::Pen extreme_pen(Role);

/// The hull of points on paper, anticlockwise (Andrew's chains, 1979).
std::vector<drawing::Paper> hull_on_paper(std::vector<drawing::Paper>);
/// What of the paper structures may take.
drawing::Box structures_window(const Scene&, const drawing::View&, Facing);
/// Its lines within that window; empty where the view does not show it.
std::vector<std::vector<drawing::Paper>> structure_outline(const Scene&, const StructureSeen&, const drawing::View&,
                                                           Facing);
void draw_structure(const drawing::Canvas&, const Scene&, const StructureSeen&, const drawing::View&, Facing);

/// The strokes and dots of a scan, within the same window.
void draw_scan(const drawing::Canvas&, const Scene&, const ScanSeen&, const drawing::View&, Facing);

/// The sheave's circle as the view sees it, no smaller than `least_sheave_radius_mm`.
void draw_sheave(const drawing::Canvas&, const drawing::View&, const SheaveSeen&, drawing::Pen);
inline constexpr drawing::Pen sheave_pen{drawing::medium_mm, drawing::LineType::continuous, drawing::Layer::sheaves},
    extreme_sheave_pen{drawing::narrow_mm, drawing::LineType::continuous, drawing::Layer::sheaves},
    ghost_pen{drawing::narrow_mm, drawing::LineType::dashed, drawing::Layer::sheaves};
/// The box a rider can reach, or its outline in every lean it is judged in; in elevation also the hanging length down
/// to the centre of mass of one who hangs upright.
void draw_rider(const drawing::Canvas&, const Frame&, const drawing::View&, const RiderSeen&, double hanging_m, Facing);
drawing::Box rider_box(const Frame&, const drawing::View&, const RiderSeen&);

}  // namespace fairlead::views
