// What a surveyor or an inspector writes down of the built rig: a row a mark and a row a quantity, with room for a pen.
#include "report/sheets/fill_in.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

bool applies(const Dossier&) { return true; }

Block notes() {
  return block_of(Paragraphs(
      "NOTES",
      {{"–", "Write every number with its unit, and how far it may be off, as it is read; never what it should be.",
        Layer::notes},
       {"–",
        "Marks, items and quantities are called here what the files of points and measurements call them by which the "
        "built rig is compared. What was not measured is not what was drawn: all that rests on it stays open.",
        Layer::notes}},
      {small_cap_mm}));
}

Block signatures() {
  return block_of(
      Paragraphs("SIGNED",
                 {{"", "Measured by, instrument, date: ______________________________________________", Layer::notes},
                  {"", "Compared and accepted by, date: _____________________________________________", Layer::notes}},
                 {note_cap_mm}));
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  const Box field = pages.above_title_block();
  // Beside the title block of the first sheet, where there is such a place, so that tables have the rest.
  pages.begin({"As built: record", "As-built record", "none", {}}, {pages.columns().back(), field});
  pages.put(notes());
  pages.put(signatures());
  for (const Table& record : {tables::marks_to_read(dossier, style), tables::quantities_to_read(dossier)})
    for (const Block& part : fill_in_blocks(record, style, office.font, field.width(), field.height())) pages.put(part);
}

}  // namespace

const SheetKind as_built_record_sheet{"as-built-record", applies, compose};

}  // namespace fairlead::sheets
