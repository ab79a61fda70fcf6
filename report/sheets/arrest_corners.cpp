// Every corner of the arrest with its numbers, and which of them governs what.
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

namespace {

bool applies(const Dossier& dossier) { return dossier.arrest && dossier.judged.rig.arrest.solved(); }

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  pages.begin({"Arrest: corners", "Schedule", "none", {}}, {pages.above_title_block(), pages.columns().back()});
  pages.put(tables::corners(dossier, style), style);
  pages.put(tables::governing(dossier, style), style);
}

}  // namespace

const SheetKind arrest_corners_sheet{"arrest-corners", applies, compose};

}  // namespace fairlead::sheets
