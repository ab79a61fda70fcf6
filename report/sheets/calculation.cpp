// What governs an arrest, worked out again by hand.
#include "geometry/checks/corners.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

bool applies(const Dossier& dossier) {
  return dossier.arrest && dossier.arrest->calculation && !dossier.arrest->calculation->steps.empty();
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  pages.begin({"Calculation", "Calculation", "none", {}}, {pages.above_title_block(), pages.columns().back()});
  pages.put(block_of(Paragraphs(
      "NOTES",
      {{"–",
        "Contact, brake and energy of the corner that governs the stopping travel: " +
            corner_of(dossier.judged.rig, dossier.arrest->calculation->corner) + ".",
        Layer::notes},
       {"–", "Final rest, reset and backup brake each of the corner or main line that governs it.", Layer::notes}},
      {small_cap_mm})));
  pages.put(tables::calculation(dossier), style);
  const Table anchor = tables::anchor_calculation(dossier, style);
  if (!anchor.rows.empty()) pages.put(anchor, style);
}

}  // namespace

const SheetKind calculation_sheet{"calculation", applies, compose};

}  // namespace fairlead::sheets
