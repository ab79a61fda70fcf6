#include <fmt/format.h>

#include <algorithm>

#include "report/tables/parts.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

const std::string sign = "Force of the rig on the anchor, unfactored, the components of a row at once";

void note_missing(const loads::Loads& loads, Table& table) {
  if (!loads.without_arrest.empty())
    table.notes.push_back("No case has the load of an arrest: " + loads.without_arrest + ".");
}

Cell force(double N) { return cell(N, Dimension::force); }

/// How a breaking strength became a capacity; a working load limit is one as it stands.
std::string factor_note(const Anchor& anchor, const Limits& limits) {
  if (!anchor.mbs_N) return {};
  return limits.design_factor ? fmt::format("Capacity of {}: its mbs over the design factor {}.", anchor.id.value,
                                            print_quantity({limits.design_factor->at, Dimension::none}))
                              : fmt::format("No capacity of {}: its mbs needs a design factor.", anchor.id.value);
}

}  // namespace

Table anchor_loads(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const auto& axes = rig.layout.site.axes;
  Table table{"Anchor loads",
              {"anchor", axes[0], axes[1], axes[2], "size", "capacity", "utilisation", "case"},
              {},
              {sign + "; components positive along the site's axes."},
              {{1, 2, 3, 4, 5}}};
  const loads::Loads* loads = rig.loads.solved();
  if (!loads) return undetermined(std::move(table), rig.loads.result->error());
  CaseLetters letters(*loads, style);
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i) {
    const Anchor& anchor = rig.layout.anchors[i];
    const Item item{Item::Kind::anchor, static_cast<int>(i)};
    const bool by_members = rated_by_members(rig.layout, i);
    const Extreme& greatest = loads->demands.at(i).force_N;
    const Finding* found = by_members ? worst_member(dossier, i) : strength_of(dossier, item);
    std::vector<Cell> row{anchor.id.value,
                          {},
                          {},
                          {},
                          force(greatest.value),
                          by_members ? Cell{"by its members"} : fact_of(found, "capacity"),
                          found && found->measured ? cell(found->value, Dimension::ratio) : Cell{},
                          letters.of(greatest.pose)};
    if (const std::string note = factor_note(anchor, rig.layout.limits); !note.empty()) table.notes.push_back(note);
    if (greatest.pose >= 0) {
      const Vec3 on = loads->cases.at(static_cast<std::size_t>(greatest.pose)).on_anchor_N.at(i);
      row[1] = force(on.x), row[2] = force(on.y), row[3] = force(on.z);
    }
    table.rows.push_back(std::move(row));
  }
  letters.explain(table);
  note_missing(*loads, table);
  return table;
}

Table load_cases(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Load cases", {"no.", "action", "case"}, {}, {}};
  const loads::Loads* loads = rig.loads.solved();
  if (!loads) return undetermined(std::move(table), rig.loads.result->error());
  for (std::size_t c = 0; c < loads->cases.size(); ++c)
    table.rows.push_back(
        {case_number(c), std::string(words::word_for(loads->cases[c].action)), case_name(loads->cases[c], style)});
  if (std::ranges::any_of(loads->cases, [](const loads::LoadCase& c) { return c.action == loads::Action::wind; }))
    table.notes.emplace_back(
        "Side wind: on the lines of the arrest system at rest; with riders on the open span on them, the main line and "
        "lines beside it. Arrests and the backup brake are in still air.");
  note_missing(*loads, table);
  return table;
}

Table loads_by_case(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Loads by case",
              {"case no.", "anchor", "along", "across", "up", "size"},
              {},
              {sign + ". Along: of the main line, horizontal, toward the landing. Across: to the left of it. Up "
                      "positive. Size: of all three together. Case no.: of the load cases."},
              {{2, 3, 4, 5}}};
  const loads::Loads* loads = rig.loads.solved();
  if (!loads) return undetermined(std::move(table), rig.loads.result->error());
  for (std::size_t c = 0; c < loads->cases.size(); ++c)
    for (std::size_t i = 0; i < loads->cases[c].on_anchor_N.size(); ++i) {
      const Vec3 on = loads->cases[c].on_anchor_N[i];
      table.rows.push_back({i == 0 ? Cell{case_number(c)} : Cell{}, rig.layout.anchors.at(i).id.value,
                            force(dot(on, rig.frame.along)), force(dot(on, rig.frame.across)),
                            force(dot(on, rig.frame.up)), force(norm(on))});
    }
  return table;
}

}  // namespace fairlead::tables
