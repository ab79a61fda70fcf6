// Stopping travel over arrival speed.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/arrest/names.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "report/sheets/arrest_plots.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr LineType types[] = {LineType::continuous, LineType::dashed, LineType::dash_dot,
                              LineType::long_dash_short_dash, LineType::dash_double_dot};

bool applies(const Dossier& dossier) { return dossier.arrest && dossier.arrest->chart; }

/// One curve for every stretch of speeds at which he stops; only the first has a name.
void add_curve(const BrakingChart::Curve& curve, std::size_t index, const Style& style, std::vector<PlotCurve>& out) {
  const Pen pen{medium_mm, types[index % std::size(types)], Layer::braking_line};
  PlotCurve piece{{}, words::shown(curve.rider_kg, Dimension::mass, style), pen};
  for (const BrakingChart::Point& point : curve.points) {
    if (point.stops()) piece.values.push_back({point.speed_m_per_s, point.stop_travel_m});
    if (point.stops() && &point != &curve.points.back()) continue;
    if (piece.values.size() > 1) {
      out.push_back(piece);
      piece.name.clear();
    }
    piece.values.clear();
  }
}

/// A cross where a curve ends because riders no longer stop.
void mark_ends(const Canvas& canvas, const Box& box, const PlotAxis& x, const PlotAxis& y,
               const BrakingChart::Curve& curve) {
  constexpr double half_mm = 1.2;
  const Pen pen{medium_mm, LineType::continuous, Layer::cautions};
  const auto cross_at = [&](const BrakingChart::Point& point) {
    const Paper at = plotted(box, x, y, {point.speed_m_per_s, point.stop_travel_m});
    canvas.line({at - Paper{half_mm, half_mm}, at + Paper{half_mm, half_mm}}, pen);
    canvas.line({at - Paper{half_mm, -half_mm}, at + Paper{half_mm, -half_mm}}, pen);
  };
  for (std::size_t i = 1; i < curve.points.size(); ++i) {
    const BrakingChart::Point &a = curve.points[i - 1], &b = curve.points[i];
    if (a.stops() != b.stops()) cross_at(a.stops() ? a : b);
  }
}

std::vector<PlotLimit> limits_of(const BrakingChart& chart, const Style& style) {
  const auto at = [&](double m) { return words::shown(m, Dimension::length, style); };
  std::vector<PlotLimit> limits;
  if (chart.earliest_rest_m)
    limits.push_back({"pick-up window from " + at(*chart.earliest_rest_m), *chart.earliest_rest_m});
  if (chart.latest_rest_m) limits.push_back({"pick-up window to " + at(*chart.latest_rest_m), *chart.latest_rest_m});
  limits.push_back({"end of planned travel " + at(chart.travel_m), chart.travel_m});
  if (chart.backup_m) limits.push_back({"backup brake engages " + at(*chart.backup_m), *chart.backup_m});
  return limits;
}

void draw_chart(const Canvas& canvas, const Box& box, const BrakingChart& chart, const Style& style) {
  constexpr double names_mm = 62;
  double farthest_m = std::max({chart.travel_m, chart.backup_m.value_or(0), chart.latest_rest_m.value_or(0)});
  const PlotAxis x = axis_of("arrival speed along the main line", Dimension::speed, chart.speed_m_per_s.low,
                             chart.speed_m_per_s.high, style),
                 y = axis_of("stopping travel of the brake trolley", Dimension::length, 0, 1.05 * farthest_m, style);
  std::vector<PlotCurve> curves;
  for (std::size_t i = 0; i < chart.curves.size(); ++i) add_curve(chart.curves[i], i, style, curves);
  const auto& [slowest, fastest] = chart.arrival_m_per_s;
  curves.push_back({{{slowest, y.low}, {slowest, y.high}, {fastest, y.high}, {fastest, y.low}},
                    "slowest and fastest arrival",
                    {narrow_mm, LineType::dashed, Layer::dimensions}});
  predicted_plot(canvas, box, x, y, curves, limits_of(chart, style), names_mm);
  const Box framed{box.left, box.bottom, box.right - names_mm, box.top};
  for (const BrakingChart::Curve& curve : chart.curves) mark_ends(canvas, framed, x, y, curve);
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const Rig& rig = dossier.judged.rig;
  const BrakingChart& chart = *dossier.arrest->chart;
  Pages pages(dossier, office, out);
  Body body{"Arrest: braking chart", "Diagram", "none", {}};
  const Canvas canvas(body.drawing, office.font);
  Box above = under_title(canvas, pages.above_title_block(), "STOPPING TRAVEL OVER ARRIVAL SPEED");
  // Table and notes take more than what lies beside the title block.
  constexpr double more_mm = 24;
  above.bottom += more_mm;
  draw_chart(canvas, above, chart, style);
  Box beside = pages.columns().back();
  beside.top += more_mm;
  pages.begin(std::move(body), {beside});
  pages.put(tables::braking_chart(dossier, style), style);
  const std::string corner =
      arrest::name_of(*rig.arrest.inputs, *rig.main_line.solved(),
                      rig.arrest.solved()->corners[static_cast<std::size_t>(chart.corner)].corner);
  pages.put(block_of(Paragraphs(
      "NOTES",
      {{"–", "Weather, brake and main line of the corner that governs the stopping travel: " + corner + ".",
        Layer::notes},
       {"–",
        "Every mass is solved on a track of its own: nothing is interpolated between riders. The lean at contact is "
        "that "
        "of the lightest or heaviest rider, whichever is nearer in mass.",
        Layer::notes},
       {"–", "A cross ends a curve where the rider no longer stops.", Layer::notes},
       {"–", "The pick-up window bounds where riders stay after creep or roll-back, not where they first stand still.",
        Layer::notes}},
      {small_cap_mm})));
}

}  // namespace

const SheetKind arrest_chart_sheet{"arrest-chart", applies, compose};

}  // namespace fairlead::sheets
