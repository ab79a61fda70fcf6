// Curves over a common axis, with a frame, a grid and figures.
#pragma once

#include <limits>

#include "report/drawing/canvas.hpp"

namespace fairlead::drawing {

/// One axis: what it shows and how its figures relate to what is plotted.
struct PlotAxis {
  std::string name;      ///< "travel, m"
  double low{}, high{};  ///< of the values, low < high
  double unit = 1;       ///< the figures are values divided by this
};
/// A curve by its points (x, y); the names of curves stand above the plot, none for a nameless one.
struct PlotCurve {
  std::vector<Paper> values;  ///< x and y in the axes' values, not millimetres
  std::string name;
  Pen pen;
};
/// Rules over all of a plot, or short ticks at its sides alone, which leave room for lettering among its curves.
enum class Rules { across, ticks };
/// Draws the curves into a box, axis names and figures included. The figures are round numbers. Names of curves that
/// find no room in one row up to `names_right_mm` stand in more, the last of them within the box.
void plot(const Canvas&, const Box&, const PlotAxis& x, const PlotAxis& y, const std::vector<PlotCurve>&,
          double names_right_mm = std::numeric_limits<double>::infinity(), Rules = Rules::across);
/// The figures that an axis of this length on paper has along it, or up it, in its values.
std::vector<double> figures_along(const PlotAxis&, double length_mm);
std::vector<double> figures_up(const PlotAxis&, double length_mm);

/// What the curves take of such a box, and the box whose curves take that: a plot to scale is made from its area.
Box plot_area(const Box&);
Box plot_box(const Box& area);
/// What the rows of names but the last take above such a box.
double more_names_mm(const Canvas&, const Box&, const std::vector<PlotCurve>&, double names_right_mm);
/// Where a pair of values lies on paper.
Paper plotted(const Box&, const PlotAxis& x, const PlotAxis& y, Paper values);

/// The least of the series 1, 2, 5, 10 ... that is no less than a value > 0.
double round_up(double value);

}  // namespace fairlead::drawing
