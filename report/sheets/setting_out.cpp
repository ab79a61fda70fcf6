// What a crew sets the rig out by, but for the pages that go up the poles and for what it strings the main line by:
// that stands on the sheet of the main line.
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

bool applies(const Dossier& dossier) { return dossier.setting_out.has_value(); }

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  pages.begin({"Setting out", "Setting-out schedule", "none", {}}, pages.columns());
  std::vector<Table> all = {tables::set_out_points(dossier, style), tables::line_offsets(dossier, style),
                            tables::ties(dossier, style),           tables::levels(dossier),
                            tables::sheave_axles(dossier),          tables::hand_pulls(dossier, style)};
  if (dossier.placement) all.push_back(tables::tolerance_box(dossier, style));
  for (const Table& table : all)
    if (!table.rows.empty() || !table.notes.empty()) pages.put(table, style);
}

}  // namespace

const SheetKind setting_out_sheet{"setting-out", applies, compose};

}  // namespace fairlead::sheets
