// What the sheet of the main line plots over its chainages, before it has a place: the long section to scale, the
// tension over the same lengths, the drive about the rest mark.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "geometry/rig/rig.hpp"
#include "report/dossier.hpp"
#include "report/drawing/blocks.hpp"
#include "report/drawing/plot.hpp"

namespace fairlead::sheets {

/// Over chainages in m.
struct ChainagePlot {
  std::string title, says;
  drawing::PlotAxis x, y;
  std::vector<drawing::PlotCurve> curves;
  std::string_view behind;  ///< words behind the curves
  drawing::Size area;       ///< that the curves take, mm; width 0: as wide as there is room
  drawing::Rules rules{};
};

/// 1:along in the lengths and 1:up in the heights, both of ISO 5455's series.
struct SectionScales {
  double along{}, up{};
  double times() const { return along / up; }  ///< 1, 2, 5, 10 or 20
};
/// The greatest scale of the lengths for which the heights have one too; of these the one that exaggerates least by
/// which the sag is to be read, else the one that shows most of it. `room`: of the section on paper, without axes. All
/// lengths > 0 and finite.
SectionScales section_scales(double long_m, double high_m, double sag_m, drawing::Size room);

/// What axes take beside the area of a plot.
double axes_width_mm();

// All of a solved main line.

/// From support to support. `room`: what it may take of a sheet.
ChainagePlot long_section(const Rig&, const Style&, drawing::Size room);
/// As long as the section, so that one can be read under the other, and as high as stated.
ChainagePlot tension_plot(const Rig&, const Style&, const ChainagePlot& section, double height_mm);
/// About the rest mark and the travel, as wide as there is room.
ChainagePlot drive_plot(const Rig&, const Style&);

}  // namespace fairlead::sheets
