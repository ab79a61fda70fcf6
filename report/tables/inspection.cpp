#include "report/tables/inspection.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "geometry/records/columns_file.hpp"
#include "report/tables/records.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

/// What is looked for on each kind of part: common practice, no source.
constexpr const char *cable_faults = "broken wires, rust, kinks, dents; terminations and their marks",
                     *line_faults = "cuts, glazing, stiff places, knots; terminations; runs free in every groove",
                     *sheave_faults = "turns free by hand, stands as set, groove smooth, keeper shut",
                     *block_faults = "sheaves turn free, cheeks straight, pins secured",
                     *connector_faults = "gate shut and locked, no wear where it bears, loaded along its axis",
                     *anchor_faults = "nothing moved, cracked, bent or worked loose; its members tight",
                     *trolley_faults = "wheels round and free, pins and attachment whole, bumper in place",
                     *unit_faults = "fixings tight, line winds evenly, draws its line in by itself",
                     *backup_faults = "in place, armed, free of what is left on the line";

class Daily {
 public:
  Daily(const Dossier& dossier, const Records& records, const Style& style)
      : dossier_(dossier), layout_(dossier.judged.rig.layout), records_(records), style_(style) {}

  Table take() {
    open_findings();
    weather();
    row("main line", cable_faults, "none");
    for (const ParallelLine& line : layout_.parallel_lines) row(line.id.value, cable_faults, "none");
    for (const SupportLine& line : layout_.support_lines) row(line.id.value, cable_faults, "none");
    for (const Anchor& anchor : layout_.anchors) row("anchor " + anchor.id.value, anchor_faults, "as built");
    for (const Sheave& sheave : layout_.sheaves) row("sheave " + sheave.id.value, sheave_faults, "yes");
    for (const Block& block : layout_.blocks) row("block " + block.id.value, block_faults, "yes");
    for (const Connector& connector : layout_.connectors)
      row("connector " + connector.id.value, connector_faults, "yes");
    for (const Line& line : layout_.lines) row("line " + line.id.value, line_faults, "none; free");
    unit();
    trolley();
    backup();
    return std::move(table_);
  }

 private:
  void row(std::string part, std::string what, std::string expected) {
    table_.rows.push_back({std::move(part), std::move(what), std::move(expected), {}, {}});
  }
  std::string shown(double si, Dimension dimension) const { return words::shown(si, dimension, style_); }

  void open_findings() {
    for (const RecordFinding& one : records_.findings)
      if (one.kind == RecordKind::open_finding) row(one.part, "OPEN: " + one.why, "closed in the log");
  }

  void weather() {
    const Site& site = layout_.site;
    if (site.wind_along_m_per_s)
      row("wind", "along the line", "at most " + shown(*site.wind_along_m_per_s, Dimension::speed));
    if (site.wind_across_m_per_s)
      row("wind", "across the line", "at most " + shown(*site.wind_across_m_per_s, Dimension::speed));
    row("temperature", "of the air",
        fmt::format("{} to {}", shown(site.coldest_K, Dimension::temperature),
                    shown(site.warmest_K, Dimension::temperature)));
  }

  void unit() {
    const BrakeUnit& unit = layout_.brake_unit;
    const auto kept = std::ranges::find(records_.input.parts, "brake_unit", &RegisteredPart::part);
    row("brake unit", "serial number",
        unit.serial                          ? unit.serial->value
        : kept != records_.input.parts.end() ? kept->serial
                                             : "not known");
    if (unit.certificate_due) row("brake unit", "certificate, due", words::date_of(unit.certificate_due->value));
    row("brake unit", unit_faults, "yes");
    row("brake unit", "line out with the trolley at its mark", shown(unit.rest_extension_m, Dimension::length));
  }

  void trolley() {
    row("brake trolley", trolley_faults, "yes");
    row("brake trolley", "stands at its rest mark, off by", words::travel(0, style_));
    for (const std::size_t at : {std::size_t{0}, std::size_t{2}}) pull(at);
  }

  /// Over all states of the main line, for nobody has told how warm it is today.
  void pull(std::size_t at) {
    if (!dossier_.setting_out || !dossier_.setting_out->hand_pulls || dossier_.setting_out->hand_pulls->empty()) return;
    double least = std::numeric_limits<double>::infinity(), most = -least, travel_m = 0;
    for (const reeving::HandPulls& state : *dossier_.setting_out->hand_pulls) {
      if (at >= state.at.size() || !state.at[at].along_N) {
        row("brake trolley", "pull on it by hand", "not known");
        return;
      }
      travel_m = state.at[at].travel_m;
      least = std::min(least, *state.at[at].along_N);
      most = std::max(most, *state.at[at].along_N);
    }
    row("brake trolley", "pull on it along the main line, empty, at travel " + words::travel(travel_m, style_),
        fmt::format("{} to {}, and its rolling resistance", shown(least, Dimension::force),
                    shown(most, Dimension::force)));
  }

  void backup() {
    if (!layout_.backup_brake) return row("backup brake", "the layout has none", "-");
    row("backup brake", backup_faults, "yes");
    row("backup brake", "stands beyond the rest mark",
        words::travel(layout_.backup_brake->engages_m - layout_.brake_trolley.rest_m, style_));
  }

  const Dossier& dossier_;
  const Layout& layout_;
  const Records& records_;
  const Style& style_;
  Table table_{
      "Daily inspection, before riders are sent", {"part", "look at", "expected", "found", "in order"}, {}, {}};
};

std::string left_to(const Records& records, const std::optional<Date>& due) {
  if (!due) return "no date";
  if (!records.date) return words::date_of(*due);
  const long days = days_between(*records.date, *due);
  return words::date_of(*due) + (days >= 0 ? fmt::format(", {} d left", days) : fmt::format(", {} d over", -days));
}

/// The table with empty columns behind its own.
Table with_room(Table table, std::string title, const std::vector<std::string>& headings) {
  table.title = std::move(title);
  for (const std::string& heading : headings) table.headings.push_back(heading);
  for (auto& row : table.rows) row.resize(table.headings.size());
  return table;
}

}  // namespace

Table daily_inspection(const Dossier& dossier, const Records& records, const Style& style) {
  return Daily(dossier, records, style).take();
}

Table periodic_parts(const Dossier& dossier, const Records& records, const Style& style) {
  Table table{"Periodic inspection: parts in service",
              {"part", "serial expected", "retire by", "inspect by", "as new", "least", "diameter read", "cycles read",
               "found", "in order", "next due"},
              {},
              {}};
  for (const std::string& part : parts_in_service(dossier.judged.rig.layout)) {
    const auto row = std::ranges::find(records.input.parts, part, &RegisteredPart::part);
    if (row == records.input.parts.end()) {
      table.rows.push_back({part,
                            std::string("not in the register"),
                            std::string("-"),
                            std::string("-"),
                            std::string("-"),
                            std::string("-"),
                            {},
                            {},
                            {},
                            {},
                            {}});
      continue;
    }
    const auto size = [&](const std::optional<double>& m) { return m ? diameter(*m, style) : std::string("no limit"); };
    table.rows.push_back({part,
                          row->serial,
                          left_to(records, row->retire_by),
                          left_to(records, row->inspect_by),
                          row->baseline_m ? diameter(*row->baseline_m, style) : "-",
                          size(row->least_m) + (row->basis.empty() || !row->least_m ? "" : ", " + row->basis),
                          {},
                          {},
                          {},
                          {},
                          {}});
  }
  table.notes = {
      "A diameter is read where the part is worn most, twice, square to each other. No limit is assumed: one "
      "that is not in the register is not known."};
  return table;
}

Table periodic_main_line(const Dossier& dossier, const Style&) {
  return with_room(stringing(dossier), "Periodic inspection: main line, bare",
                   {"temperature read", "read", "in order"});
}

Table periodic_hand_pulls(const Dossier& dossier, const Style& style) {
  return with_room(hand_pulls(dossier, style), "Periodic inspection: hand pulls",
                   {"read at the first", "at the second", "at the third"});
}

Table periodic_marks(const Dossier& dossier, const Style&) {
  return with_room(levels(dossier), "Periodic inspection: levels of the marks", {"read", "moved by"});
}

}  // namespace fairlead::tables
