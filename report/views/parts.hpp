// A scene too long for one sheet, broken along the travel at match lines.
#pragma once

#include "report/drawing/canvas.hpp"
#include "report/views/scene.hpp"

namespace fairlead::views {

/// Shown by a part beyond its match lines, and what their lettering takes beyond that.
inline constexpr double beyond_match_mm = 6, match_lettering_mm = 11;

/// A scene in parts about as long as each other, broken where the least of its marks stand near; each shows the same
/// things of the rig. `first_sheet`: the number of the first part's sheet, the others follow on it.
std::vector<Scene> parts_of(const Scene&, double scale, std::size_t count, std::size_t first_sheet);

/// "M-M", "N-N", ... without O and the section's S, for the details have the letters from A on; "MM-MM" behind "Z-Z".
std::string match_letters(std::size_t index);

/// The paper between a part's chainages, however high: all it shows; between its match lines: what is its own. At an
/// end that is not broken off the first has no side.
drawing::Box part_window(const Scene&, const drawing::View&);
drawing::Box own_window(const Scene&, const drawing::View&);

/// The match lines of a part across one of its views, from top to bottom, with the chainage and the sheet that goes on
/// at their outer sides.
void draw_match_lines(const drawing::Canvas&, const Scene&, const drawing::View&, double top_mm, double bottom_mm,
                      const Style&);

}  // namespace fairlead::views
