#include "geometry/checks/worst.hpp"
#include "report/tables/parts.hpp"

namespace fairlead::tables {

Table rest_positions(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Rest positions",
              {"state", "line out at the mark", "tension at the unit", "tension at the trolley", "rests from its mark"},
              {},
              {},
              {{2, 3}}};
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving) return undetermined(std::move(table), rig.reeving.result->error());
  table.notes = {
      "Empty trolley. At the mark: line out of the brake unit and its tension with the trolley held there. Rests: "
      "where "
      "it stands when the unit has drawn in to its rest extension, downstream positive."};
  bool rubs = false;
  for (const reeving::RestPosition& position : reeving->rest) {
    const std::string state = rest_position_of(rig, position);
    rubs = rubs ||
           rig.reeving.inputs->sweeps.at(static_cast<std::size_t>(position.sweep)).friction != reeving::Friction::none;
    if (!position.rest) {
      table.rows.push_back({state, {}, {}, {}, {}});
      table.notes.push_back("Undetermined, " + state + ": " + position.rest.error().why + ".");
      continue;
    }
    const reeving::Rest& rest = *position.rest;
    table.rows.push_back({state, cell(rest.extension_m, Dimension::length),
                          cell(rest.outlet_tension_N, Dimension::force), cell(rest.trolley_tension_N, Dimension::force),
                          cell(rest.shift_m, Dimension::length)});
  }
  table.notes.emplace_back(rubs ? "Friction leaves it anywhere between the two rows of one state."
                                : "No friction is given: what there is leaves the trolley somewhat to either side.");
  return table;
}

}  // namespace fairlead::tables
