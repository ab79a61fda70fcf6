#include "geometry/checks/legs.hpp"

#include "report/tables/parts.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {
Table legs(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "Resting legs",
      {"line", "from", "to", "length", "level tension", "sag", "square to its chord", "case", "blown out", "wind case"},
      {},
      {},
      {{5, 6, 8}}};
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving) return undetermined(std::move(table), rig.reeving.result->error());
  Letters letters;
  const auto at = [&](int sweep, int pose) {
    return letters.of(
        told(rig, {&reeving->sweeps.at(static_cast<std::size_t>(sweep)), static_cast<std::size_t>(pose)}, style));
  };
  const std::vector<LegOf> ends = legs_of(rig);
  bool windy = false;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    const reeving::RestingLeg& leg = reeving->resting_legs.at(i);
    const auto name = [&](Item item) { return words::id_of(rig.layout, item); };
    std::vector<Cell> row{name(ends[i].line),
                          name(ends[i].from.item),
                          name(ends[i].to.item),
                          cell(leg.length_m, Dimension::length),
                          cell(leg.horizontal_N, Dimension::force),
                          cell(leg.sag_m, Dimension::length),
                          cell(leg.square_sag_m, Dimension::length),
                          at(leg.sweep, leg.pose)};
    row.resize(table.headings.size());
    if (leg.wind_sweep >= 0) {
      windy = true;
      row[8] = cell(leg.blow_out_m, Dimension::length);
      row[9] = at(leg.wind_sweep, leg.wind_pose);
    }
    table.rows.push_back(std::move(row));
  }
  table.notes = {
      "As catenaries, lines at rest and the trolley at its mark: where each hangs lowest below the straight line "
      "between its ends, of all states solved. Square: the same sag, square to that line."};
  table.notes.emplace_back(windy ? "Blown out: farthest to the side of that line in the layout's side wind."
                                 : "No side wind is given: none is blown out.");
  letters.explain(table);
  return table;
}

}  // namespace fairlead::tables
