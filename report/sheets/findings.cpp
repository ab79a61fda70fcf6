// What was judged, against whose limits: every finding that stands against the rig in full, with what would help, then
// all of them as numbers.
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/trial.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

bool applies(const Dossier& dossier) { return !dossier.judged.findings.empty(); }

Table not_passed(const Dossier& dossier, const Style& style) {
  Table table = tables::findings(dossier, style);
  const std::string passed(words::word_for(words::Outcome::pass));
  std::erase_if(table.rows, [&](const auto& row) { return row.front() == Cell{passed}; });
  table.title = "Findings that did not pass";
  return table;
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  pages.begin({"Findings and limits", "List of findings", "none", {}},
              {pages.above_title_block(), pages.columns().back()});
  pages.put(block_of(Paragraphs(words::headline(dossier), {}, {})));
  for (const Table& table : {not_passed(dossier, style), tables::judged(dossier), tables::limits(dossier)})
    if (!table.rows.empty()) pages.put(table, style);
}

}  // namespace

const SheetKind findings_sheet{"findings", applies, compose};

}  // namespace fairlead::sheets
