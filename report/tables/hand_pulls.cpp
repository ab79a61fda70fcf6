#include <fmt/format.h>

#include <algorithm>

#include "geometry/checks/worst.hpp"
#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

const char* way_of(reeving::Friction friction) {
  switch (friction) {
    case reeving::Friction::none:
      return "held";
    case reeving::Friction::paying_out:
      return "pulled on";
    case reeving::Friction::returning:
      return "let back";
  }
  return "held";
}

}  // namespace

Table hand_pulls(const Dossier& dossier, const Style& style) {
  Table table{"Hand pulls", {"state", "trolley"}, {}, {}};
  if (!dossier.setting_out) return table;
  const auto& pulls = dossier.setting_out->hand_pulls;
  if (!pulls) return undetermined(std::move(table), pulls.error());
  const Rig& rig = dossier.judged.rig;
  table.notes = {
      "Pull on the empty brake trolley along the main line toward the landing, as a spring balance reads it; "
      "below zero it is held back. The trolley's resistance to rolling is not in it."};
  bool rubs = false;
  for (const reeving::HandPulls& one : *pulls) {
    const std::string state = weather_of(rig, rig.reeving.solved()->rest.at(static_cast<std::size_t>(one.position)));
    std::vector<Cell> row{state, way_of(one.friction)};
    rubs = rubs || one.friction != reeving::Friction::none;
    for (const reeving::HandPull& at : one.at) {
      const std::string travel = words::travel(at.travel_m, style);
      if (table.rows.empty()) table.headings.push_back("at travel " + travel);
      row.push_back(at.along_N ? cell(*at.along_N, Dimension::force) : Cell{});
      if (!at.along_N)
        table.notes.push_back(fmt::format("Undetermined, {}, travel {}: {}.", state, travel, at.along_N.error().why));
    }
    table.rows.push_back(std::move(row));
  }
  table.compared.emplace_back();
  for (std::size_t column = 2; column < table.headings.size(); ++column) table.compared.back().push_back(column);
  table.notes.emplace_back(
      rubs ? "Pulled on: slowly toward the landing. Let back: slowly toward its mark. Standing still it may be held "
             "with "
             "anything between the two."
           : "No friction of sheaves is given: what there is makes it pull on harder and let back easier than held.");
  return table;
}

}  // namespace fairlead::tables
