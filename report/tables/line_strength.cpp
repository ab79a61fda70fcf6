#include <fmt/format.h>

#include "geometry/layout/termination_fields.hpp"
#include "geometry/rig/strength_left.hpp"
#include "report/tables/parts.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {
namespace {

using Row = std::vector<Cell>;

void add_end(Row& row, const std::optional<Termination>& end, double diameter_m) {
  if (!end) {
    row.insert(row.end(), {"not given", Cell{}});
    return;
  }
  std::string made(word_of(end->kind.value));
  if (end->clips) made = fmt::format("{:g} {}", end->clips->value, made);
  const auto held = efficiency_of(*end, diameter_m);
  row.insert(row.end(), {made, held ? cell(*held, Dimension::ratio) : Cell{}});
}

template <class T>
Row row_of(const Layout& layout, Item item, const T& line) {
  Row row{words::name_of(layout, item)};
  add_end(row, line.from_end, line.diameter_m);
  add_end(row, line.to_end, line.diameter_m);
  row.resize(8);
  return row;
}

void add_sheave(Row& row, const Layout& layout, const Line& line) {
  const auto tightest = tightest_sheave(layout, line);
  if (!tightest) return;
  row[5] = words::id_of(layout, {Item::Kind::sheave, static_cast<int>(tightest->sheave)});
  row[6] = fmt::format("{:.1f}", tightest->ratio);
  if (tightest->held) row[7] = cell(*tightest->held, Dimension::ratio);
}

}  // namespace

Table line_strength(const Dossier& dossier) {
  const Layout& layout = dossier.judged.rig.layout;
  Table table{"What ends and sheaves leave of strength",
              {"line", "from end", "holds", "to end", "holds", "tightest sheave", "D/d", "holds"},
              {},
              {"Holds: the share of the breaking strength that is left there; empty where no figure is given and none "
               "is published, and nothing is counted. D/d: diameter at the bottom of the groove over the line's."}};
  const auto each = [&](const auto& lines, Item::Kind kind) {
    for (std::size_t i = 0; i < lines.size(); ++i)
      table.rows.push_back(row_of(layout, {kind, static_cast<int>(i)}, lines[i]));
  };
  table.rows.push_back(row_of(layout, {Item::Kind::main_line, 0}, layout.main_line));
  each(layout.parallel_lines, Item::Kind::parallel_line);
  each(layout.support_lines, Item::Kind::support_line);
  for (std::size_t i = 0; i < layout.lines.size(); ++i) {
    table.rows.push_back(row_of(layout, {Item::Kind::line, static_cast<int>(i)}, layout.lines[i]));
    add_sheave(table.rows.back(), layout, layout.lines[i]);
  }
  return table;
}

}  // namespace fairlead::tables
