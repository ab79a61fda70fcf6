// Elevation, plan and isometric of the arrest end: the same scene seen square to the main line, from above, and from a
// corner above it.
#pragma once

#include "report/drawing/canvas.hpp"
#include "report/drawing/place.hpp"
#include "report/drawing/symbols.hpp"
#include "report/views/scene.hpp"

namespace fairlead::views {

/// section: across the main line, looking toward the landing. isometric: isometric.hpp.
enum class Facing { elevation, plan, section, isometric };

/// The view of a scene at 1:scale. Chainage runs to the right in both, so that they share x; the elevation looks
/// across the line to its left, so the plan's left lies up. `at`: paper place of the lower left corner of `extent`, in
/// the isometric that of its right as well. No section: instant.hpp has them.
drawing::View view_of(const Scene&, Facing, double scale, drawing::Paper at);

/// The corners of the landing platform as views show it, anticlockwise seen from above, the right one upstream first;
/// how wide it is no layout says.
std::optional<std::array<Point3, 4>> platform_of(const Scene&);

/// What a scene's lines and symbols take on paper.
drawing::Box extent(const Scene&, const drawing::View&, Facing);

/// Main line, braking line, trolley, sheaves, unit, anchors and their loads, riders, landing, backup brake.
void draw_rig(const drawing::Canvas&, const Scene&, const drawing::View&, Facing);

/// The unit of a style's chainages and scale bars.
drawing::BarUnit bar_unit(const Style&);

/// A tick of a row of chainages; every few bear a figure, "CH 185".
struct ChainageTick {
  double chainage_m{};
  std::string figure;  ///< empty: none
};
/// Those of what a scene shows, figures as near as their room allows where a metre takes so many millimetres.
std::vector<ChainageTick> chainage_ticks(const Scene&, double mm_per_m, const Style&);

/// A line of figures under a view: its chainages, with a tick every unit that fits.
inline constexpr double chainage_scale_height_mm = 8;
void draw_chainages(const drawing::Canvas&, const Scene&, const drawing::View&, double y_mm, const Style&);

/// Dimensions of the elevation: along above and below it, heights at its sides, their figures clear of what is drawn.
/// Returns the y of the topmost and the lowest thing drawn.
struct Reach {
  double top{}, bottom{};
};
Reach draw_elevation_dimensions(const drawing::Canvas&, const Scene&, const drawing::View&, const drawing::Box& drawn,
                                const Style&);

/// How much a view's callouts say: `brief` where an enlarged detail says the rest.
enum class Naming { full, brief };
std::vector<drawing::Callout> callouts(const Scene&, const drawing::View&, Facing, Naming, const Style&);

}  // namespace fairlead::views
