// The directions of the site's level axes on a view, where nothing else stands.
#pragma once

#include "report/drawing/place.hpp"
#include "report/views/scene.hpp"

namespace fairlead::sheets {

/// Draws them as large, low and far right within a box as can be, and counts them among the obstacles.
void place_axes(const drawing::Canvas&, const views::Scene&, const drawing::View&, drawing::Obstacles&,
                const drawing::Box& within);

}  // namespace fairlead::sheets
