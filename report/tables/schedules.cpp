// What is to be bought, made and fitted: lengths, sheaves, anchors with what holds them, connectors.
#include <fmt/format.h>

#include "geometry/layout/member_fields.hpp"
#include "geometry/layout/suggest.hpp"
#include "geometry/rig/adjuster.hpp"
#include "geometry/rig/inputs.hpp"
#include "geometry/rig/strength_left.hpp"
#include "report/tables/parts.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

Cell length(double m) { return cell(m, Dimension::length); }

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

/// What has no id of its own but its section's name, in words.
std::vector<std::string> named(std::vector<std::string> ids) {
  for (std::string& id : ids)
    if (id == "brake_trolley" || id == "brake_unit") id = in_words(id);
  return ids;
}

/// One unit for all that is to be added up.
std::string small_length(double m, const Style& style) {
  return style.units == Units::us ? words::shown(m, Dimension::length, style) : fmt::format("{:.1f} mm", 1000 * m);
}

/// "WLL 9.81 kN (2205 lbf)", "MBS ..."; empty where neither is given.
Cell rating(const std::optional<Real>& wll_N, const std::optional<Real>& mbs_N, const Style& style) {
  if (wll_N) return "WLL " + words::shown(*wll_N, Dimension::force, style);
  if (mbs_N) return "MBS " + words::shown(*mbs_N, Dimension::force, style);
  return {};
}

std::string friction_words(const Sheave& sheave, const Line* line) {
  const auto K = line ? friction_of(sheave, *line) : std::nullopt;
  if (!K) return "not given";
  return sheave.friction_wrap_rad
             ? fmt::format("{:.3f} at {}", *K, print_quantity({*sheave.friction_wrap_rad, Dimension::angle}))
             : fmt::format("{:.3f}", *K);
}

Cell frame_words(const Sheave& sheave, const Style& style) {
  if (!sheave.frame_m) return {};
  const Size& size = sheave.frame_m->value;
  const auto shown = [&](double m) { return words::shown(m, Dimension::length, style); };
  return fmt::format("{} x {} x {}", shown(size.along_m), shown(size.across_m), shown(size.up_m));
}

}  // namespace

Table adjusters(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "Adjusters",
      {"line", "shorter by", "longer by", "stretch", "tolerance, either way", "to take in", "to let out",
       "range needed", "adjuster"},
      {},
      {"Shorter and longer by: what the unloaded length needs against the cut length's, over all states of the "
       "main line, so that every block rests where it does as measured, the brake trolley at its mark. Stretch: "
       "from unloaded to hanging. To take in: shorter by, stretch and tolerance; to let out: longer by and "
       "tolerance. Cut with that much left of the adjuster either way."}};
  for (std::size_t i = 0; i < rig.layout.lines.size(); ++i) {
    const Line& line = rig.layout.lines[i];
    const auto need = adjuster_need(rig, static_cast<int>(i));
    if (!need) return undetermined(std::move(table), need.error());
    const auto given = [&](const std::optional<Real>& m) { return m ? Cell{small_length(*m, style)} : Cell{}; };
    table.rows.push_back({line.id.value, small_length(need->shorter_m, style), small_length(need->longer_m, style),
                          line.ea_N ? Cell{small_length(need->stretch_m, style)} : Cell{},
                          given(line.length_tolerance_m), small_length(need->take_in_m(), style),
                          small_length(need->let_out_m(), style), small_length(need->whole_m(), style),
                          given(line.adjuster_m)});
    if (static_cast<int>(i) == rig.braking_line)
      table.notes.push_back(fmt::format("{}: the brake unit takes up what it needs.", line.id.value));
    else if (!need->unknown.empty())
      table.notes.push_back(fmt::format("{}: {}; nothing is counted for that.", line.id.value, need->unknown));
  }
  table.notes.emplace_back(
      "Steel lines are taken to expand by 12e-6 /K, fibre and webbing not to change with temperature.");
  return table;
}

Table sheave_schedule(const Dossier& dossier, const Style& style) {
  const Layout& layout = dossier.judged.rig.layout;
  Table table{"Sheave schedule",
              {"sheave", "on", "mount", "line over it", "pitch diameter", "D/d", "groove width", "frame", "friction K",
               "rating"},
              {},
              {"Pitch diameter: to the line's centre. D/d: at the bottom of the groove, over the line's diameter. "
               "Frame: along, across, up. Friction K: tension of the trailing side "
               "over the leading one as it turns."}};
  for (std::size_t i = 0; i < layout.sheaves.size(); ++i) {
    const Sheave& sheave = layout.sheaves[i];
    const Line* line = line_over(layout, static_cast<SheaveId>(i));
    table.rows.push_back({sheave.id.value, carrier_of(layout, sheave), mount_of(layout, sheave, style),
                          line ? Cell{line->id.value} : Cell{}, length(sheave.pitch_diameter_m),
                          line ? Cell{fmt::format("{:.1f}", tread_ratio(sheave, *line))} : Cell{},
                          cell(sheave.groove_m, Dimension::length), frame_words(sheave, style),
                          friction_words(sheave, line), rating(sheave.wll_N, sheave.mbs_N, style)});
  }
  return table;
}

Table anchor_schedule(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const auto& axes = rig.layout.site.axes;
  Table table{"Anchor schedule",
              {"anchor", axes[0], axes[1], axes[2], "what hangs on it", "held by", "rating", "greatest load",
               "its direction", "utilisation"},
              {},
              {fmt::format("Position: where the load acts. Greatest load: of the rig on the anchor, unfactored; its "
                           "direction along {}, {}, {}. Its case stands with the anchor loads.",
                           axes[0], axes[1], axes[2])}};
  const loads::Loads* loads = rig.loads.solved();
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i) {
    const Anchor& anchor = rig.layout.anchors[i];
    const Point3 at = anchor.position;
    const std::string members = joined(held_by(rig.layout, i));
    std::vector<Cell> row{anchor.id.value,
                          length(at.x),
                          length(at.y),
                          length(at.z),
                          joined(hangs_on(rig.layout, i)),
                          members.empty() ? Cell{} : Cell{members},
                          rating(anchor.wll_N, anchor.mbs_N, style)};
    const int governing = loads ? loads->demands.at(i).force_N.pose : -1;
    row.push_back(loads ? cell(loads->demands.at(i).force_N.value, Dimension::force) : Cell{});
    row.push_back(governing < 0
                      ? Cell{}
                      : Cell{direction_of(loads->cases.at(static_cast<std::size_t>(governing)).on_anchor_N.at(i))});
    row.push_back(utilisation_of(dossier, {Item::Kind::anchor, static_cast<int>(i)}));
    table.rows.push_back(std::move(row));
  }
  if (!loads) table.notes.push_back("Loads undetermined: " + rig.loads.result->error().why);
  return table;
}

Table member_schedule(const Dossier& dossier, const Style& style) {
  const Layout& layout = dossier.judged.rig.layout;
  const auto& axes = layout.site.axes;
  Table table{"Schedule of legs, guys and poles",
              {"member", "kind", "holds", "fixed at " + axes[0], axes[1], axes[2], "length", "pretension", "rating",
               "compression limit"},
              {},
              {"Length: from the anchor's point to where it is fixed, straight."}};
  for (const Member& member : layout.members) {
    const Anchor& anchor = layout.anchors.at(static_cast<std::size_t>(member.anchor));
    const Point3 to = member.to;
    table.rows.push_back({member.id.value, std::string(word_of(member.kind.value)), anchor.id.value, length(to.x),
                          length(to.y), length(to.z), length(norm(to - anchor.position.value)),
                          cell(member.pretension_N, Dimension::force), rating(member.wll_N, member.mbs_N, style),
                          cell(member.compression_limit_N, Dimension::force)});
  }
  return table;
}

Table connectors(const Dossier& dossier, const Style& style) {
  const Layout& layout = dossier.judged.rig.layout;
  Table table{"Connector schedule",
              {"connector", "size", "joins", "rating", "greatest load", "utilisation", "case"},
              {},
              {"Greatest load: tension of the line ends it holds, unfactored."}};
  for (std::size_t i = 0; i < layout.connectors.size(); ++i) {
    const Connector& connector = layout.connectors[i];
    const Item item{Item::Kind::connector, static_cast<int>(i)};
    const Finding* found = strength_of(dossier, item);
    table.rows.push_back({connector.id.value, connector.size ? Cell{connector.size->value} : Cell{},
                          joined(named(connector.joins)), rating(connector.wll_N, connector.mbs_N, style),
                          fact_of(found, "force"), utilisation_of(dossier, item), fact_of(found, "case")});
  }
  return table;
}

}  // namespace fairlead::tables
