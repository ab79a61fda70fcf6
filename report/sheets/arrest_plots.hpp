// What the plots of an arrest share: axes in the units of the style, and the words that no prediction goes without.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/drawing/plot.hpp"
#include "report/sheets/sheet.hpp"

namespace fairlead::sheets {

/// "travel of the brake trolley, m": lengths, speeds, forces, angles, times and ratios. The same value at both ends
/// gets room about it.
drawing::PlotAxis axis_of(std::string name, Dimension, double low, double high, const Style&);

/// The title over a plot that has all of a box; what is left of the box beneath it.
drawing::Box under_title(const drawing::Canvas&, drawing::Box, std::string_view title);

/// A level across a plot, named beside it.
struct PlotLimit {
  std::string name;
  double value{};
};

/// The name of what ends at the right side of a plot, in the axes' values.
struct PlotName {
  std::string name;
  drawing::Paper at;
  drawing::Layer layer;
};

/// Words behind what is plotted in an area, as large as there is room.
void letter_behind(const drawing::Canvas&, const drawing::Box& area, std::string_view words);

/// A plot with its limits and the ends of its curves named at its right, `names_mm` of the box kept for them, and
/// behind its curves in words whether anything of it was tried.
inline constexpr std::string_view untested = "PREDICTED, UNTESTED";
void predicted_plot(const drawing::Canvas&, const drawing::Box&, const drawing::PlotAxis& x, const drawing::PlotAxis& y,
                    std::vector<drawing::PlotCurve>, const std::vector<PlotLimit>&, double names_mm,
                    std::string_view behind = untested, const std::vector<PlotName>& ends = {});

}  // namespace fairlead::sheets
