// The corners that govern an arrest over time.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/checks/corners.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "report/sheets/arrest_plots.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

using Sample = ArrestHistory::Sample;

bool applies(const Dossier& dossier) {
  return dossier.arrest && std::any_of(dossier.arrest->histories.begin(), dossier.arrest->histories.end(),
                                       [](const ArrestHistory& history) { return history.samples.size() > 1; });
}

struct Shown {
  const char* name;
  double Sample::*value;
};

/// One quantity over time, or two of one kind.
struct Panel {
  const char* name;
  Dimension dimension;
  std::vector<Shown> curves;
  std::vector<PlotLimit> limits;
};

void limit_at(std::vector<PlotLimit>& limits, const char* name, const std::optional<Limit>& limit, Dimension dimension,
              const Style& style) {
  if (limit) limits.push_back({fmt::format("{} {}", name, words::shown(limit->at, dimension, style)), limit->at});
}

std::vector<Panel> panels_of(const Layout& layout, const Style& style) {
  const auto length = [&](const char* name, double m) {
    return PlotLimit{fmt::format("{} {}", name, words::shown(m, Dimension::length, style)), m};
  };
  std::vector<PlotLimit> travel{length("end of planned travel", layout.brake_trolley.travel_m)}, speed, load, lean;
  if (layout.backup_brake)
    travel.push_back(length("backup brake", layout.backup_brake->engages_m - layout.brake_trolley.rest_m));
  if (const auto& limit = layout.brake_unit.line_speed_limit_m_per_s)
    speed.push_back({"limit of line speed " + words::shown(*limit, Dimension::speed, style), *limit});
  limit_at(load, "limit, raw", layout.limits.rider_load_raw, Dimension::ratio, style);
  limit_at(load, "limit, 5 Hz", layout.limits.rider_load_filtered, Dimension::ratio, style);
  if (const auto& swing = layout.limits.swing_rad) {
    const std::string at = words::shown(swing->at, Dimension::angle, style);
    lean = {{"limit forward " + at, swing->at}, {"limit back " + at, -swing->at}};
  }
  return {
      {"travel", Dimension::length, {{"rider trolley", &Sample::travel_m}}, std::move(travel)},
      {"speed",
       Dimension::speed,
       {{"rider trolley", &Sample::speed_m_per_s}, {"line at the unit", &Sample::line_speed_m_per_s}},
       std::move(speed)},
      {"line tension", Dimension::force, {{"at the brake unit", &Sample::unit_tension_N}}, {}},
      {"lanyard force / weight",
       Dimension::none,
       {{"raw", &Sample::load_raw}, {"low-passed at 5 Hz", &Sample::load_filtered}},
       std::move(load)},
      {"lean", Dimension::angle, {{"of the lanyard, forward positive", &Sample::lean_rad}}, std::move(lean)},
  };
}

void draw_panel(const Canvas& canvas, const Box& box, const Panel& panel, const ArrestHistory& history,
                const Style& style) {
  constexpr double names_mm = 48;
  double low = 0, high = 0;
  for (const PlotLimit& limit : panel.limits) low = std::min(low, limit.value), high = std::max(high, limit.value);
  std::vector<PlotCurve> curves;
  for (const Shown& shown : panel.curves) {
    PlotCurve curve{
        {}, shown.name, {medium_mm, curves.empty() ? LineType::continuous : LineType::dashed, Layer::braking_line}};
    for (const Sample& sample : history.samples) {
      curve.values.push_back({sample.t_s, sample.*shown.value});
      low = std::min(low, sample.*shown.value);
      high = std::max(high, sample.*shown.value);
    }
    curves.push_back(std::move(curve));
  }
  const double about = 0.08 * (high - low);
  predicted_plot(canvas, box, axis_of("time after contact", Dimension::time, 0, history.samples.back().t_s, style),
                 axis_of(panel.name, panel.dimension, low < 0 ? low - about : 0, high + about, style), curves,
                 panel.limits, names_mm);
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const Rig& rig = dossier.judged.rig;
  Pages pages(dossier, office, out);
  const std::vector<Panel> panels = panels_of(rig.layout, style);
  for (const ArrestHistory& history : dossier.arrest->histories) {
    if (history.samples.size() < 2) continue;
    Body body{"Arrest: histories", "Diagram", "none", {}};
    const Canvas canvas(body.drawing, office.font);
    const Box left = pages.left_column();
    const double panel_mm = left.height() / static_cast<double>(panels.size());
    double top = left.top;
    for (const Panel& panel : panels) {
      draw_panel(canvas, {left.left, top - panel_mm + 1, left.right, top}, panel, history, style);
      top -= panel_mm;
    }
    pages.begin(std::move(body), {pages.right_column()});
    pages.put(block_of(Paragraphs(
        "GOVERNING CORNER",
        {{"–", fmt::format("Governs the {}: {}.", history.governs, corner_of(rig, history.corner)), Layer::notes},
         {"–", "Time runs from the moment after the trolleys' impact, which itself takes none.", Layer::notes}},
        {})));
    pages.put(tables::arrest_peaks(rig, history.corner, style), style);
  }
}

}  // namespace

const SheetKind arrest_histories_sheet{"arrest-histories", applies, compose};

}  // namespace fairlead::sheets
