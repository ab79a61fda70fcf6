// Where the section at the secondary anchor is cut, marked in a plan.
#pragma once

#include <string_view>

#include "report/drawing/canvas.hpp"
#include "report/views/scene.hpp"

namespace fairlead::views {

inline constexpr std::string_view section_letter = "S";

/// The ends of the cutting plane's line beside what is drawn, with arrows in the direction of view, toward the landing,
/// and its letter, after ISO 128-3 (recalled); nothing where the scene has no section or shows it on another part.
void mark_section(const drawing::Canvas&, const Scene&, const drawing::View& plan, const drawing::Box& drawn);

}  // namespace fairlead::views
