#include "report/tables/tables.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {

std::optional<double> finished_length_m(const Rig& rig, std::size_t line) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving || rig.braking_line < 0 || static_cast<std::size_t>(rig.braking_line) != line) return std::nullopt;
  return reeving->finished_length_m.front();
}

std::optional<double> cut_length_m(const Rig& rig, std::size_t line) {
  const auto finished_m = finished_length_m(rig, line);
  const auto& tails_m = rig.layout.lines.at(line).tails_m;
  if (!finished_m || !tails_m) return std::nullopt;
  return *finished_m + *tails_m;
}

Table lines(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "Line schedule",
      {"line", "material", "diameter", "mass", "breaking strength", "finished length", "tails", "cut length"},
      {},
      {"Finished length: bearing to bearing along the line as it hangs at rest, brake trolley at its mark, main "
       "line as measured, from the brake unit's outlet. Tails: both terminations together."}};
  for (std::size_t i = 0; i < rig.layout.lines.size(); ++i) {
    const Line& line = rig.layout.lines[i];
    table.rows.push_back({line.id.value, std::string(words::word_for(line.material)),
                          cell(line.diameter_m, Dimension::length),
                          cell(line.mass_kg_per_m, Dimension::mass_per_length), cell(line.mbs_N, Dimension::force),
                          cell(finished_length_m(rig, i), Dimension::length), cell(line.tails_m, Dimension::length),
                          cell(cut_length_m(rig, i), Dimension::length)});
  }
  if (!rig.reeving.solved()) table.notes.push_back("Lengths undetermined: " + rig.reeving.result->error().why);
  return table;
}

}  // namespace fairlead::tables
