#include "report/drawing/plot.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fairlead::drawing {

double round_up(double value) {
  const double decade = std::pow(10, std::floor(std::log10(value)));
  constexpr double rounding = 1e-9;  // a value that is of the series but for its last bits stays
  for (double step : {1.0, 2.0, 5.0})
    if (value <= step * decade * (1 + rounding)) return step * decade;
  return 10 * decade;
}

namespace {

constexpr double figures_mm = 9, names_mm = 5, least_step_x_mm = 15, least_step_y_mm = 8;
constexpr Pen frame{medium_mm, LineType::continuous, Layer::grid}, rule{hair_mm, LineType::continuous, Layer::grid};

/// Multiples of a round step, no nearer to each other than stated, in units.
std::vector<double> ticks(const PlotAxis& axis, double length_mm, double least_mm) {
  const double low = axis.low / axis.unit, high = axis.high / axis.unit;
  const double step = round_up((high - low) * least_mm / length_mm);
  std::vector<double> all;
  constexpr double within = 1e-9;  // of a step: an end that is a tick but for rounding
  for (double i = std::ceil(low / step - within); i * step <= high + within * step; ++i)
    all.push_back(i * step + 0.0);  // a sum has no minus zero
  return all;
}

/// With the longer minus.
std::string figure(double t) { return t < 0 ? fmt::format("\u2212{:.6g}", -t) : fmt::format("{:.6g}", t); }

}  // namespace

Box plot_area(const Box& box) {
  return {box.left + figures_mm + names_mm, box.bottom + figures_mm, box.right - 2, box.top - names_mm};
}

Paper plotted(const Box& box, const PlotAxis& x, const PlotAxis& y, Paper values) {
  const Box area = plot_area(box);
  return {area.left + (values.x_mm - x.low) / (x.high - x.low) * area.width(),
          area.bottom + (values.y_mm - y.low) / (y.high - y.low) * area.height()};
}

void plot(const Canvas& canvas, const Box& box, const PlotAxis& x, const PlotAxis& y,
          const std::vector<PlotCurve>& curves, double names_right_mm) {
  const Box area = plot_area(box);
  const auto at_values = [&](Paper v) { return plotted(box, x, y, v); };
  for (double t : ticks(x, area.width(), least_step_x_mm)) {
    const double at = at_values({t * x.unit, y.low}).x_mm;
    canvas.line({{at, area.bottom}, {at, area.top}}, rule);
    canvas.text({at, area.bottom - 1.2 - small_cap_mm}, figure(t), small_cap_mm, Layer::grid, Align::centre);
  }
  for (double t : ticks(y, area.height(), least_step_y_mm)) {
    const double at = at_values({x.low, t * y.unit}).y_mm;
    canvas.line({{area.left, at}, {area.right, at}}, rule);
    canvas.text({area.left - 1.2, at - small_cap_mm / 2}, figure(t), small_cap_mm, Layer::grid, Align::right);
  }
  canvas.text({area.centre().x_mm, box.bottom + 1}, x.name, small_cap_mm, Layer::grid, Align::centre);
  canvas.text({box.left + small_cap_mm + 1, area.centre().y_mm}, y.name, small_cap_mm, Layer::grid, Align::centre,
              std::numbers::pi / 2);
  for (const PlotCurve& curve : curves) {
    std::vector<Paper> path;
    for (const Paper v : curve.values) path.push_back(at_values(v));
    if (path.size() < 2) continue;
    for (auto& piece : clip(simplified(path), area)) canvas.line(std::move(piece), curve.pen);
  }
  canvas.box(area, frame);
  // Curves may lie on one another, so their names stand above with a sample of each.
  double left = area.left, row_mm = area.top + 1.6;
  for (const PlotCurve& curve : curves) {
    if (curve.name.empty()) continue;
    constexpr double sample_mm = 20;  // two spells of the longest line type
    const double name_mm = canvas.width(curve.name, small_cap_mm);
    if (left > area.left && left + sample_mm + 1.5 + name_mm > names_right_mm)
      left = area.left, row_mm += 1.6 * small_cap_mm;
    const double y_mm = row_mm + small_cap_mm / 2;
    canvas.line({{left, y_mm}, {left + sample_mm, y_mm}}, curve.pen);
    canvas.text({left + sample_mm + 1.5, row_mm}, curve.name, small_cap_mm, Layer::grid);
    left += sample_mm + name_mm + 6;
  }
}

}  // namespace fairlead::drawing
