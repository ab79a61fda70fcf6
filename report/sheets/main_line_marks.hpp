// What stands along the main line, drawn into its plots.
#pragma once

#include <vector>

#include "report/drawing/place.hpp"
#include "report/sheets/main_line_plots.hpp"

namespace fairlead::sheets {

// Each draws its marks into the box of a plot of a solved main line and returns their names, to be placed.

/// Supports, rest mark, end of the planned travel, backup brake, platform, where loads left alone come to rest, and the
/// lowest place of all.
std::vector<drawing::Callout> mark_long_section(const drawing::Canvas&, const drawing::Box&, const ChainagePlot&,
                                                const Rig&, const Style&);
/// The zero line, rest mark, end of the planned travel and backup brake.
std::vector<drawing::Callout> mark_drives(const drawing::Canvas&, const drawing::Box&, const ChainagePlot&, const Rig&,
                                          const Style&);

}  // namespace fairlead::sheets
