// What a crew writes down at the unmanned tests: a row a test, with room for a pen.
#include "geometry/trial/trial.hpp"
#include "report/sheets/fill_in.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

bool applies(const Dossier& dossier) { return dossier.trial && dossier.trial->plan; }

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  pages.begin({"Unmanned tests: record", "Test record", "none", {}},
              {pages.above_title_block(), pages.columns().back()});
  for (const Table& record : {tables::trial_hand_record(dossier, style), tables::trial_mass_record(dossier, style)})
    for (const Block& part : fill_in_parts(record, style, office.font, pages.field().width())) pages.put(part);
  pages.put(block_of(Paragraphs(
      "NOTES",
      {{"–", "Write every number with its unit, and how far it may be off, as it is read; never what it should be.",
        Layer::notes},
       {"–",
        "Travel counts from the brake trolley's rest mark toward the landing; wind along the line is positive "
        "toward the landing.",
        Layer::notes},
       {"–", "A test that was not made, or of which a number is missing, is not passed.", Layer::notes}},
      {small_cap_mm})));
  pages.put(block_of(Paragraphs(
      "SIGNED",
      {{"", "Tests led by, qualification, date: ____________________________________________", Layer::notes},
       {"", "Released for the next step by, date: __________________________________________", Layer::notes}},
      {note_cap_mm})));
}

}  // namespace

const SheetKind trial_record_sheet{"trial-record", applies, compose};

}  // namespace fairlead::sheets
