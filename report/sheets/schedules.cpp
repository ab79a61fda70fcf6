// What is to be bought, made and fitted.
#include <algorithm>

#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

bool applies(const Dossier& dossier) { return dossier.judged.rig.reeving.solved() != nullptr; }

bool is_empty(const Cell& cell) {
  const auto* words = std::get_if<std::string>(&cell);
  return std::holds_alternative<std::monostate>(cell) || (words && words->empty());
}

/// Without the columns in which no row has anything.
Table narrowed(Table table) {
  for (std::size_t c = table.headings.size(); c-- > 0;) {
    if (!std::ranges::all_of(table.rows, [&](const auto& row) { return is_empty(row[c]); })) continue;
    const auto at = static_cast<std::ptrdiff_t>(c);
    table.headings.erase(table.headings.begin() + at);
    for (auto& row : table.rows) row.erase(row.begin() + at);
  }
  return table;
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  pages.begin({"Schedules", "Parts list", "none", {}}, pages.columns());
  for (const Table& table :
       {tables::lines(dossier), tables::line_lengths(dossier), tables::stretch(dossier, style),
        tables::line_strength(dossier), tables::adjusters(dossier, style), tables::support_lines(dossier),
        tables::sheave_schedule(dossier, style), tables::anchor_schedule(dossier, style),
        tables::member_schedule(dossier, style), tables::connectors(dossier, style), tables::given(dossier, style)})
    if (!table.rows.empty()) pages.put(narrowed(table), style);
}

}  // namespace

const SheetKind schedules_sheet{"schedules", applies, compose};

}  // namespace fairlead::sheets
