#include <fmt/format.h>

#include "report/tables/parts.hpp"
#include "report/words/marks.hpp"

namespace fairlead::tables {
namespace {

/// The mark in words, and what hangs on it: of a free sheave the eye is set out and the length of its link.
std::string what_of(const Layout& layout, const SetOutPoint& point, const Style& style) {
  std::string what = words::mark_of(layout, point);
  if (point.mark != Mark::bearing_point) return what;
  for (const Sheave& sheave : layout.sheaves)
    if (sheave.mount == Mount::free && sheave.on == Carrier{static_cast<AnchorId>(point.item.index)})
      what += fmt::format("; eye of sheave {}, {}", sheave.id.value, mount_of(layout, sheave, style));
  return what;
}

}  // namespace

Table set_out_points(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const auto& axes = rig.layout.site.axes;
  Table table{"Set-out points", {"mark", "what it is", axes[0], axes[1], axes[2]}, {}, {}, {{2, 3, 4}}};
  if (rig.layout.site.datum) table.notes = {"Datum: " + rig.layout.site.datum->value + "."};
  const auto add = [&](const std::string& id, std::string what, const std::optional<Point3>& at) {
    std::vector<Cell> row{id, std::move(what)};
    row.resize(table.headings.size());
    if (at) {
      row[2] = cell(at->x, Dimension::length);
      row[3] = cell(at->y, Dimension::length);
      row[4] = cell(at->z, Dimension::length);
    }
    table.rows.push_back(std::move(row));
  };
  for (const SetOutPoint& point : fairlead::set_out_points(rig))
    add(point.id, what_of(rig.layout, point, style), point.at);
  if (rig.layout.points)
    for (const SurveyPoint& peg : *rig.layout.points->pegs)
      add(peg.id, peg.description.empty() ? "peg" : "peg: " + peg.description, peg.at);
  if (!rig.main_line.solved())
    table.notes.push_back("The rest mark's place is undetermined: " + rig.main_line.result->error().why + ".");
  return table;
}

}  // namespace fairlead::tables
