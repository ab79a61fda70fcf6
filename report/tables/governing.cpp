#include <fmt/format.h>

#include "geometry/arrest/closing.hpp"
#include "report/tables/corner_columns.hpp"
#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

using arrest::CornerResult;
using arrest::Governing;
using arrest::Motion;

class Rows {
 public:
  Rows(const Rig& rig, Table& table) : rig_(rig), arrest_(*rig.arrest.solved()), table_(table) {}

  /// `value` of the corner that governs; empty where none is solved.
  template <class Value>
  void add(const char* what, int corner, Dimension dimension, std::optional<double> limit, const Value& value) {
    const auto of_corner = [&] { return value(arrest_.corners.at(static_cast<std::size_t>(corner))); };
    table_.rows.push_back({std::string(what), corner < 0 ? Cell{} : cell(of_corner(), dimension),
                           cell(limit, dimension), numbered_corner(rig_, corner)});
  }
  void peak(const char* what, int corner, Dimension dimension, std::optional<double> limit,
            arrest::Peak Motion::*member) {
    add(what, corner, dimension, limit, [&](const CornerResult& c) { return ((*c.motion).*member).value; });
  }

 private:
  const Rig& rig_;
  const arrest::Arrest& arrest_;
  Table& table_;
};

std::optional<double> plain(const std::optional<Limit>& limit) {
  return limit ? std::optional<double>(limit->at.value) : std::nullopt;
}
std::optional<double> plain(const std::optional<Real>& given) {
  return given ? std::optional<double>(given->value) : std::nullopt;
}

/// What a check judged that is no corner's own number.
void add_reserve(const Dossier& dossier, std::string_view check, const std::string& what, Table& table) {
  for (const Finding& finding : dossier.judged.findings)
    if (finding.check->name == check && finding.measured)
      table.rows.push_back({what, cell(finding.value, finding.check->dimension),
                            cell(plain(finding.limit), finding.check->dimension), fact_of(&finding, "corner")});
}

}  // namespace

Table governing(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"What governs the arrest: predicted, untested", {"result", "value", "limit", "corner"}, {}, {}, {{1, 2}}};
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) return undetermined(std::move(table), rig.arrest.result->error());
  const Governing& g = arrest->governing;
  const Limits& limits = rig.layout.limits;
  const auto& landing = rig.layout.landing;
  const auto window = [&](std::optional<Real> Landing::*end) {
    return landing ? plain((*landing).*end) : std::nullopt;
  };
  const auto stop_m = [](const CornerResult& c) { return c.motion->stop_travel_m; };
  Rows rows(rig, table);
  rows.add("arrival speed", g.arrival_speed, Dimension::speed, {},
           [](const CornerResult& c) { return c.arrival_speed_m_per_s; });
  rows.add("farthest stop, travel", g.stop_travel, Dimension::length, {}, stop_m);
  add_reserve(dossier, "rider-stops",
              rig.layout.backup_brake ? "left before the backup brake, at least" : "left of the travel, at least",
              table);
  rows.add("farthest with a later creep, travel", g.farthest_travel, Dimension::length, {},
           [](const CornerResult& c) { return c.farthest_travel_m(); });
  rows.add("nearest stop, travel", g.shortest_stop, Dimension::length, {}, stop_m);
  rows.add("extension", g.extension, Dimension::length, rig.layout.brake_unit.extension_limit_m.value,
           [](const CornerResult& c) { return c.greatest_extension_m().value; });
  add_reserve(dossier, "arrest-extension", "line left in the brake unit, at least", table);
  rows.peak("line speed", g.line_speed, Dimension::speed, plain(rig.layout.brake_unit.line_speed_limit_m_per_s),
            &Motion::line_speed_m_per_s);
  rows.peak("tension at the unit", g.unit_tension, Dimension::force, {}, &Motion::unit_tension_N);
  rows.peak("rider load, raw", g.load_raw, Dimension::ratio, plain(limits.rider_load_raw), &Motion::load_raw);
  rows.peak("rider load at 5 Hz", g.load_filtered, Dimension::ratio, plain(limits.rider_load_filtered),
            &Motion::load_filtered);
  rows.peak("rider load held 0.2 s", g.load_held, Dimension::ratio, plain(limits.rider_load_held), &Motion::load_held);
  rows.peak("rise of it at 5 Hz, per second", g.load_onset, Dimension::ratio, plain(limits.rider_load_onset_per_s),
            &Motion::load_onset_per_s);
  rows.peak("trolley slowed at 5 Hz", g.deceleration, Dimension::acceleration,
            plain(limits.trolley_deceleration_m_per_s2), &Motion::deceleration_filtered_m_per_s2);
  rows.peak("swing forward", g.swing_forward, Dimension::angle, plain(limits.swing_rad), &Motion::swing_forward_rad);
  rows.peak("swing back", g.swing_back, Dimension::angle, plain(limits.swing_rad), &Motion::swing_back_rad);
  rows.add("earliest final rest, chainage", g.earliest_rest, Dimension::length, window(&Landing::earliest_rest_m),
           [&](const CornerResult& c) { return chainage_of_travel_m(rig, c.rest->earliest_m); });
  rows.add("latest final rest, chainage", g.latest_rest, Dimension::length, window(&Landing::latest_rest_m),
           [&](const CornerResult& c) { return chainage_of_travel_m(rig, c.rest->latest_m); });
  table.notes = {fmt::format("Of {} corners.", arrest->corners.size())};
  if (!rig.idea)
    table.notes.back() += fmt::format(" Peak tension lifts the track by {} at most against lines at rest.",
                                      words::shown(arrest->lift_difference_m, Dimension::length, style));
  if (const int worst = arrest::worst_closing(arrest->corners); worst >= 0)
    table.notes.push_back(
        fmt::format("Energy closes to {:.2g} of that before contact in the worst of the corners solved.",
                    arrest->corners.at(static_cast<std::size_t>(worst)).motion->energy_residual));
  if (rig.arrest_held) table.notes.emplace_back("Held: the arrest is that of the layout this one was moved from.");
  return table;
}

}  // namespace fairlead::tables
