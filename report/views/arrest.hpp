// Elevation and plan of the arrest end: the same scene seen square to the main line, and from above.
#pragma once

#include "report/drawing/canvas.hpp"
#include "report/drawing/place.hpp"
#include "report/drawing/symbols.hpp"
#include "report/views/scene.hpp"

namespace fairlead::views {

/// section: across the main line, looking toward the landing.
enum class Facing { elevation, plan, section };

/// The view of a scene at 1:scale. Chainage runs to the right in both, so that they share x; the elevation looks
/// across the line to its left, so the plan's left lies up. `at`: paper place of the lower left corner of `extent`.
drawing::View view_of(const Scene&, Facing, double scale, drawing::Paper at);

/// What a scene's lines and symbols take on paper.
drawing::Box extent(const Scene&, const drawing::View&, Facing);

/// Main line, braking line, trolley, sheaves, unit, anchors and their loads, riders, landing, backup brake.
void draw_rig(const drawing::Canvas&, const Scene&, const drawing::View&, Facing);

/// The unit of a style's chainages and scale bars.
drawing::BarUnit bar_unit(const Style&);

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
