#include "report/tables/parts.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {
namespace {

/// Nothing where the line has no stiffness.
const reeving::Stretch* stretch_of(const Rig& rig, Item line) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  const auto index = reeved_line(rig, line);
  const bool given =
      line.kind == Item::Kind::line && rig.layout.lines.at(static_cast<std::size_t>(line.index)).ea_N.has_value();
  return reeving && index && given ? &reeving->stretch.at(*index) : nullptr;
}

}  // namespace

std::optional<double> stretch_at_rest_m(const Rig& rig, Item line) {
  const reeving::Stretch* stretch = stretch_of(rig, line);
  return stretch ? std::optional(stretch->at_rest_m) : std::nullopt;
}

std::optional<double> stretch_from_rest_m(const Rig& rig, Item line) {
  const reeving::Stretch* stretch = stretch_of(rig, line);
  return stretch ? std::optional(stretch->greatest_m - stretch->at_rest_m) : std::nullopt;
}

Table stretch(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "Stretch of lines", {"line", "stiffness EA", "to rest", "rest to greatest", "greatest"}, {}, {}, {{2, 3}}};
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving) return undetermined(std::move(table), rig.reeving.result->error());
  std::string without;
  for (std::size_t i = 0; i < rig.layout.lines.size(); ++i) {
    const Item item{Item::Kind::line, static_cast<int>(i)};
    const std::string id = words::id_of(rig.layout, item);
    const reeving::Stretch* of_line = stretch_of(rig, item);
    if (!of_line) {
      without += (without.empty() ? "" : ", ") + id;
      continue;
    }
    table.rows.push_back(
        {id, cell(rig.layout.lines[i].ea_N->value, Dimension::force),
         cell(*stretch_at_rest_m(rig, item), Dimension::length),
         cell(*stretch_from_rest_m(rig, item), Dimension::length),
         told(rig,
              {&reeving->sweeps.at(static_cast<std::size_t>(of_line->sweep)), static_cast<std::size_t>(of_line->pose)},
              style)});
  }
  if (!table.rows.empty())
    table.notes.emplace_back(
        "T L / EA from no tension to the rest position as measured, and from there to the greatest of the poses "
        "solved; "
        "of the line into the brake unit what is out of it then.");
  if (!without.empty()) table.notes.push_back("No stiffness is given, and no stretch counted, of: " + without + ".");
  return table;
}

}  // namespace fairlead::tables
