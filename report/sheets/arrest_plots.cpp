#include "report/sheets/arrest_plots.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/quantity/units.hpp"
#include "report/drawing/place.hpp"
#include "report/sheets/blocks.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

/// The unit a plot's figures are in; "" for a bare number.
std::string_view unit_of(Dimension dimension, const Style& style) {
  const bool us = words::one_of(style) == Units::us;
  switch (dimension) {
    case Dimension::length:
      return us ? "ft" : "m";
    case Dimension::speed:
      return us ? "mph" : "m/s";
    case Dimension::force:
      return us ? "lbf" : "N";
    case Dimension::angle:
      return "deg";
    case Dimension::time:
      return "s";
    default:
      return "";
  }
}

/// Greatest lettering of the series that the plot is wide enough for.
double pale_cap_mm(const Canvas& canvas, std::string_view text, double width_mm) {
  for (const double cap : {20.0, 14.0, 10.0, 7.0})
    if (canvas.width(text, cap) <= width_mm) return cap;
  return title_cap_mm;
}

}  // namespace

PlotAxis axis_of(std::string name, Dimension dimension, double low, double high, const Style& style) {
  const std::string_view unit = unit_of(dimension, style);
  if (!unit.empty()) name += fmt::format(", {}", unit);
  const Unit* si = unit.empty() ? nullptr : find_unit(unit, dimension);
  if (!(high > low)) high = low + (si ? si->to_si : 1);
  return {std::move(name), low, high, si ? si->to_si : 1};
}

Box under_title(const Canvas& canvas, Box box, std::string_view title) {
  canvas.text({box.left, box.top - title_cap_mm}, std::string(title), title_cap_mm, Layer::text);
  box.top -= title_cap_mm + 4;
  return box;
}

void letter_behind(const Canvas& canvas, const Box& area, std::string_view words) {
  constexpr double beside_mm = 8;
  const double cap_mm = pale_cap_mm(canvas, words, area.width() - beside_mm);
  canvas.drawing().entities.push_back(
      Label{{area.centre().x_mm - canvas.width(words, cap_mm) / 2, area.centre().y_mm - cap_mm / 2},
            cap_mm,
            0,
            std::string(canvas.said(words)),
            Layer::grid,
            true});
}

void predicted_plot(const Canvas& canvas, const Box& box, const PlotAxis& x, const PlotAxis& y,
                    std::vector<PlotCurve> curves, const std::vector<PlotLimit>& limits, double names_mm,
                    std::string_view behind, const std::vector<PlotName>& ends) {
  const Box framed{box.left, box.bottom, box.right - names_mm, box.top}, area = plot_area(framed);
  letter_behind(canvas, area, behind);
  const std::size_t before = canvas.drawing().entities.size();
  plot(canvas, framed, x, y, curves, box.right);
  std::vector<Callout> names;
  for (const PlotLimit& limit : limits) {
    const Paper from = plotted(framed, x, y, {x.low, limit.value}), to = plotted(framed, x, y, {x.high, limit.value});
    if (!area.contains(to)) continue;
    canvas.line({from, to}, {wide_mm, LineType::continuous, Layer::cautions});
    names.push_back({{to}, with_minus(limit.name), Layer::cautions, 0, small_cap_mm});
  }
  for (const PlotName& end : ends)
    names.push_back({{plotted(framed, x, y, end.at)}, with_minus(end.name), end.layer, 0, small_cap_mm});
  Obstacles obstacles(canvas.font());
  obstacles.add(canvas.drawing(), before);
  place(canvas, names, obstacles, {area.right + 1, box.bottom, box.right, box.top});
}

}  // namespace fairlead::sheets
