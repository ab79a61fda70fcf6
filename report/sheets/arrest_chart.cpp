// Stopping travel over arrival speed.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/arrest/names.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "geometry/trial/trial.hpp"
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

/// One test mass that was let go, as it arrived and stopped.
struct Tried {
  std::string id;
  Verdict verdict{};
  double mass_kg{};
  Paper at;  ///< arrival speed, stopping travel
};

std::vector<Tried> tried(const Dossier& dossier) {
  std::vector<Tried> all;
  if (!dossier.trial || !dossier.trial->results || !dossier.trial->plan) return all;
  for (const trial::Tested& one : dossier.trial->results->tested) {
    std::optional<double> speed, travel;
    for (const trial::Compared& compared : one.compared) {
      if (compared.expected.what == Trialled::arrival_speed) speed = compared.value;
      if (compared.expected.what == Trialled::stopping_travel) travel = compared.value;
    }
    if (speed && travel)
      all.push_back({dossier.trial->plan->tests[one.test].id, one.verdict, one.mass_kg, {*speed, *travel}});
  }
  return all;
}

/// Whether a line of the drawing runs through a box.
bool crossed(const Drawing& drawing, const Box& box) {
  return std::ranges::any_of(drawing.entities, [&](const auto& entity) {
    const auto* stroke = std::get_if<Stroke>(&entity);
    return stroke && !clip(stroke->path, box).empty();
  });
}

constexpr double radius_mm = 1;  // of a ring

/// A name at the nearest side of a mark where nothing else stands.
void name_beside(const Canvas& canvas, const Box& area, Paper at, const std::string& name, Layer layer,
                 std::vector<Box>& taken) {
  constexpr double gap_mm = 0.6, off = radius_mm + gap_mm;
  const double width = canvas.width(name, note_cap_mm);
  for (int ring = 1; ring <= 20; ++ring)
    for (const Paper way : {Paper{1, 0}, Paper{-1, 0}, Paper{0, 1}, Paper{0, -1}, Paper{1, 1}, Paper{-1, 1},
                            Paper{1, -1}, Paper{-1, -1}}) {
      const double before = way.x_mm < 0 ? width : way.x_mm > 0 ? 0 : width / 2;
      const double below = way.y_mm < 0 ? note_cap_mm : way.y_mm > 0 ? 0 : note_cap_mm / 2;
      const Paper start = at + Paper{way.x_mm * off * ring - before, way.y_mm * off * ring - below};
      const Box words = Box{start.x_mm, start.y_mm, start.x_mm + width, start.y_mm + note_cap_mm}.grown(0.3);
      if (!area.contains(words) || crossed(canvas.drawing(), words) ||
          std::ranges::any_of(taken, [&](const Box& b) { return b.overlaps(words); }))
        continue;
      canvas.text(start, name, note_cap_mm, layer);
      taken.push_back(words);
      return;
    }
}

/// A ring where a test was measured, filled where it passed, with its name; and the names of the curves that end where
/// riders no longer stop.
void mark_points(const Canvas& canvas, const Box& box, const PlotAxis& x, const PlotAxis& y,
                 const std::vector<Tried>& all, const std::vector<PlotName>& ends) {
  const Pen pen{medium_mm, LineType::continuous, Layer::loads};
  const Box area = plot_area(box);
  std::vector<Box> taken;
  const auto place_of = [&](Paper values) { return plotted(box, x, y, values); };
  for (const Tried& one : all) {
    const Paper at = place_of(one.at);
    canvas.circle(at, radius_mm, pen, one.verdict == Verdict::pass ? Fill::ink : Fill::none);
    taken.push_back({at.x_mm - radius_mm, at.y_mm - radius_mm, at.x_mm + radius_mm, at.y_mm + radius_mm});
  }
  for (const Tried& one : all) name_beside(canvas, area, place_of(one.at), one.id, Layer::loads, taken);
  for (const PlotName& end : ends) name_beside(canvas, area, place_of(end.at), end.name, Layer::braking_line, taken);
}

/// Where the curve of a rider ends: at the side of the chart, or where he no longer stops.
PlotName end_of(const BrakingChart::Curve& curve, const Style& style) {
  PlotName end{words::shown(curve.rider_kg, Dimension::mass, style), {NAN, NAN}, Layer::braking_line};
  for (const BrakingChart::Point& point : curve.points)
    if (point.stops()) end.at = {point.speed_m_per_s, point.stop_travel_m};
  return end;
}

void draw_chart(const Canvas& canvas, const Box& box, const BrakingChart& chart, const std::vector<Tried>& all_tried,
                const Style& style) {
  constexpr double names_mm = 62;
  double farthest_m = std::max({chart.travel_m, chart.backup_m.value_or(0), chart.latest_rest_m.value_or(0)});
  mainline::Span speeds = chart.speed_m_per_s;
  for (const Tried& one : all_tried) {
    speeds = {std::min(speeds.low, one.at.x_mm), std::max(speeds.high, one.at.x_mm)};
    farthest_m = std::max(farthest_m, one.at.y_mm);
  }
  const PlotAxis x = axis_of("arrival speed along the main line", Dimension::speed, speeds.low, speeds.high, style),
                 y = axis_of("stopping travel of the brake trolley", Dimension::length, 0, 1.05 * farthest_m, style);
  std::vector<PlotCurve> curves;
  for (std::size_t i = 0; i < chart.curves.size(); ++i) add_curve(chart.curves[i], i, style, curves);
  const auto& [slowest, fastest] = chart.arrival_m_per_s;
  curves.push_back({{{slowest, y.low}, {slowest, y.high}, {fastest, y.high}, {fastest, y.low}},
                    "slowest and fastest arrival",
                    {narrow_mm, LineType::dashed, Layer::dimensions}});
  std::vector<PlotName> at_side, within;
  for (const BrakingChart::Curve& curve : chart.curves)
    if (PlotName end = end_of(curve, style); std::isfinite(end.at.x_mm))
      (end.at.x_mm < speeds.high || end.at.y_mm > y.high ? within : at_side).push_back(std::move(end));
  predicted_plot(canvas, box, x, y, curves, limits_of(chart, style), names_mm,
                 all_tried.empty() ? untested : "PREDICTED; TESTED WHERE RINGED", at_side);
  const Box framed{box.left, box.bottom, box.right - names_mm, box.top};
  for (const BrakingChart::Curve& curve : chart.curves) mark_ends(canvas, framed, x, y, curve);
  mark_points(canvas, framed, x, y, all_tried, within);
}

/// "M1 50.3 kg, M2 85.3 kg": what the rings are.
std::string told(const std::vector<Tried>& all, const Style& style) {
  std::string words;
  for (const Tried& one : all)
    words += (words.empty() ? "" : ", ") + one.id + ' ' + words::shown(one.mass_kg, Dimension::mass, style);
  return words;
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
  const std::vector<Tried> all_tried = tried(dossier);
  draw_chart(canvas, above, chart, all_tried, style);
  Box beside = pages.columns().back();
  beside.top += more_mm;
  pages.begin(std::move(body), {beside});
  pages.put(tables::braking_chart(dossier, style), style);
  const std::string corner =
      arrest::name_of(*rig.arrest.inputs, *rig.main_line.solved(),
                      rig.arrest.solved()->corners[static_cast<std::size_t>(chart.corner)].corner);
  std::vector<Paragraph> notes{
      {"–", "Weather, brake and main line of the corner that governs the stopping travel: " + corner + ".",
       Layer::notes},
      {"–",
       "Every mass is solved on a track of its own: nothing is interpolated between riders. The lean at contact is "
       "that "
       "of the lightest or heaviest rider, whichever is nearer in mass.",
       Layer::notes},
      {"–", "A cross ends a curve where the rider no longer stops.", Layer::notes},
      {"–", "The pick-up window bounds where riders stay after creep or roll-back, not where they first stand still.",
       Layer::notes}};
  if (!all_tried.empty())
    notes.push_back({"–",
                     "Rings: unmanned tests as measured, filled where the test passed; the weather is that of the day, "
                     "the curves that of the corner. What is not ringed is untested. The rings: " +
                         told(all_tried, style) + ".",
                     Layer::notes});
  pages.put(block_of(Paragraphs("NOTES", std::move(notes), {small_cap_mm})));
}

}  // namespace

const SheetKind arrest_chart_sheet{"arrest-chart", applies, compose};

}  // namespace fairlead::sheets
