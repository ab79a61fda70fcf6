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

constexpr double figures_mm = 9, names_mm = 5, right_mm = 2, least_step_x_mm = 15, least_step_y_mm = 8;
constexpr Pen frame{medium_mm, LineType::continuous, Layer::grid}, rule{hair_mm, LineType::continuous, Layer::grid};

/// Multiples of a round step, no nearer to each other than stated, in the axis' values.
std::vector<double> figures(const PlotAxis& axis, double length_mm, double least_mm) {
  const double low = axis.low / axis.unit, high = axis.high / axis.unit;
  const double step = round_up((high - low) * least_mm / length_mm);
  std::vector<double> all;
  constexpr double within = 1e-9;  // of a step: an end that is a tick but for rounding
  for (double i = std::ceil(low / step - within); i * step <= high + within * step; ++i)
    all.push_back((i * step + 0.0) * axis.unit);  // a sum has no minus zero
  return all;
}

/// With the longer minus.
std::string figure(double value, const PlotAxis& axis) {
  const double t = value / axis.unit;
  return t < 0 ? fmt::format("\u2212{:.6g}", -t) : fmt::format("{:.6g}", t);
}

constexpr double sample_mm = 20, beside_sample_mm = 1.5;  // two spells of the longest line type

/// Where the samples begin that stand with the names above an area, in the order of the curves with names.
std::vector<Paper> samples_of(const Canvas& canvas, const Box& area, const std::vector<PlotCurve>& curves,
                              double names_right_mm) {
  constexpr double apart_mm = 6, row_mm = 1.6 * small_cap_mm, above_mm = 1.6;
  std::vector<Paper> samples;
  Paper next{area.left, area.top + above_mm};
  for (const PlotCurve& curve : curves) {
    if (curve.name.empty()) continue;
    const double taken_mm = sample_mm + beside_sample_mm + canvas.width(curve.name, small_cap_mm);
    if (next.x_mm > area.left && next.x_mm + taken_mm > names_right_mm) next = {area.left, next.y_mm - row_mm};
    samples.push_back(next);
    next.x_mm += taken_mm - beside_sample_mm + apart_mm;
  }
  for (Paper& sample : samples) sample.y_mm += area.top + above_mm - next.y_mm;
  return samples;
}

}  // namespace

Box plot_area(const Box& box) {
  return {box.left + figures_mm + names_mm, box.bottom + figures_mm, box.right - right_mm, box.top - names_mm};
}

Box plot_box(const Box& area) {
  return {area.left - figures_mm - names_mm, area.bottom - figures_mm, area.right + right_mm, area.top + names_mm};
}

double more_names_mm(const Canvas& canvas, const Box& box, const std::vector<PlotCurve>& curves,
                     double names_right_mm) {
  const std::vector<Paper> samples = samples_of(canvas, plot_area(box), curves, names_right_mm);
  return samples.empty() ? 0 : samples.front().y_mm - samples.back().y_mm;
}

Paper plotted(const Box& box, const PlotAxis& x, const PlotAxis& y, Paper values) {
  const Box area = plot_area(box);
  return {area.left + (values.x_mm - x.low) / (x.high - x.low) * area.width(),
          area.bottom + (values.y_mm - y.low) / (y.high - y.low) * area.height()};
}

std::vector<double> figures_along(const PlotAxis& axis, double length_mm) {
  return figures(axis, length_mm, least_step_x_mm);
}
std::vector<double> figures_up(const PlotAxis& axis, double length_mm) {
  return figures(axis, length_mm, least_step_y_mm);
}

void plot(const Canvas& canvas, const Box& box, const PlotAxis& x, const PlotAxis& y,
          const std::vector<PlotCurve>& curves, double names_right_mm, Rules rules) {
  const Box area = plot_area(box);
  const auto at_values = [&](Paper v) { return plotted(box, x, y, v); };
  const auto line = [&](Paper from, Paper to) {
    constexpr double tick_mm = 1.5;
    if (rules == Rules::across) return canvas.line({from, to}, rule);
    const Paper tick = tick_mm / length(to - from) * (to - from);
    canvas.line({from, from + tick}, rule);
    canvas.line({to - tick, to}, rule);
  };
  for (const double value : figures_along(x, area.width())) {
    const double at = at_values({value, y.low}).x_mm;
    line({at, area.bottom}, {at, area.top});
    canvas.text({at, area.bottom - 1.2 - small_cap_mm}, figure(value, x), small_cap_mm, Layer::grid, Align::centre);
  }
  for (const double value : figures_up(y, area.height())) {
    const double at = at_values({x.low, value}).y_mm;
    line({area.left, at}, {area.right, at});
    canvas.text({area.left - 1.2, at - small_cap_mm / 2}, figure(value, y), small_cap_mm, Layer::grid, Align::right);
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
  const std::vector<Paper> samples = samples_of(canvas, area, curves, names_right_mm);
  auto sample = samples.begin();
  for (const PlotCurve& curve : curves) {
    if (curve.name.empty()) continue;
    const Paper at = *sample++, half{0, small_cap_mm / 2};
    canvas.line({at + half, at + half + Paper{sample_mm, 0}}, curve.pen);
    canvas.text(at + Paper{sample_mm + beside_sample_mm, 0}, curve.name, small_cap_mm, Layer::grid);
  }
}

}  // namespace fairlead::drawing
