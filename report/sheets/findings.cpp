// Every finding that stands against the rig, in full, with what would help: the arrangement often has room for their
// names only.
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/trial.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

/// What was waived is told in full on the arrangement.
bool applies(const Dossier& dossier) { return exit_status(dossier.judged.findings) != 0; }

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Table table = tables::findings(dossier, style);
  const std::string passed(words::word_for(words::Outcome::pass));
  std::erase_if(table.rows, [&](const auto& row) { return row.front() == Cell{passed}; });
  table.title = "Findings that did not pass";
  Pages pages(dossier, office, out);
  pages.begin({"Findings", "List of findings", "none", {}}, {pages.above_title_block()});
  pages.put(block_of(Paragraphs(words::headline(dossier), {}, {})));
  pages.put(table, style);
}

}  // namespace

const SheetKind findings_sheet{"findings", applies, compose};

}  // namespace fairlead::sheets
