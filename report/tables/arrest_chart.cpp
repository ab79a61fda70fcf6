#include <fmt/format.h>

#include "geometry/arrest/names.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

const BrakingChart::Point* point_at(const BrakingChart::Curve& curve, double speed_m_per_s) {
  for (const BrakingChart::Point& point : curve.points)
    if (point.speed_m_per_s == speed_m_per_s) return &point;
  return nullptr;
}

Cell stop_at(const BrakingChart::Curve& curve, double speed_m_per_s) {
  const BrakingChart::Point* point = point_at(curve, speed_m_per_s);
  if (!point || !point->outcome) return std::string("not solved");
  if (point->stops()) return cell(point->stop_travel_m, Dimension::length);
  return std::string("does not stop");
}

/// "above 8.97 m/s runs through the planned travel; ...": every stretch of speeds at which he does not stop.
std::string not_stopping(const BrakingChart::Curve& curve, const Style& style) {
  std::string all;
  const auto& points = curve.points;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i].stops() || (i > 0 && points[i].outcome == points[i - 1].outcome)) continue;
    const std::string what = points[i].outcome ? std::string(arrest::word_for(*points[i].outcome)) : "not solved";
    all += fmt::format("{}from {} on: {}", all.empty() ? "" : "; ",
                       words::shown(points[i].speed_m_per_s, Dimension::speed, style), what);
  }
  return all.empty() ? "stops at every speed of the chart" : all;
}

}  // namespace

Table braking_chart(const Dossier& dossier, const Style& style) {
  Table table{"Stopping travel", {"rider", "", "", "where he does not stop"}, {}, {}};
  if (!dossier.arrest) return table;
  if (!dossier.arrest->chart) {
    table.notes.push_back(dossier.arrest->chart.error().why);
    return table;
  }
  const BrakingChart& chart = *dossier.arrest->chart;
  const auto& [slowest, fastest] = chart.arrival_m_per_s;
  table.headings[1] = "slowest arrival, " + words::shown(slowest, Dimension::speed, style);
  table.headings[2] = "fastest arrival, " + words::shown(fastest, Dimension::speed, style);
  for (const BrakingChart::Curve& curve : chart.curves)
    table.rows.push_back({cell(curve.rider_kg, Dimension::mass), stop_at(curve, slowest), stop_at(curve, fastest),
                          not_stopping(curve, style)});
  return table;
}

}  // namespace fairlead::tables
