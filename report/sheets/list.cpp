#include "report/sheets/list.hpp"

#include <iterator>
#include <utility>

#include "report/sheets/furniture.hpp"

namespace fairlead::sheets {

namespace {

constexpr const SheetKind* sheets[] = {
    &general_arrangement, &findings_sheet,    &reeving_sheet,      &setting_out_sheet,      &anchor_loads_sheet,
    &schedules_sheet,     &clearances_sheet,  &arrest_chart_sheet, &arrest_histories_sheet, &arrest_corners_sheet,
    &arrest_reset_sheet,  &calculation_sheet, &reductions_sheet};

}  // namespace

std::span<const SheetKind* const> all_sheets() { return sheets; }

std::vector<drawing::Sheet> compose(const Dossier& dossier, const Style& style, const Office& office,
                                    std::optional<std::string_view> only) {
  // The first kind carries the index of the set, so the others are made before it.
  std::vector<Body> bodies, behind;
  Office first = office;
  for (const SheetKind* kind : all_sheets().subspan(1))
    if ((!only || *only == kind->name) && kind->applies(dossier)) kind->compose(dossier, style, office, behind);
  for (const Body& body : behind) first.more.push_back(body.title);
  if (const SheetKind& kind = *all_sheets().front(); (!only || *only == kind.name) && kind.applies(dossier))
    kind.compose(dossier, style, first, bodies);
  std::move(behind.begin(), behind.end(), std::back_inserter(bodies));

  const Stationery paper = stationery(office.paper);
  const Layout& layout = dossier.judged.rig.layout;
  std::vector<drawing::Sheet> set;
  for (Body& body : bodies) {
    drawing::Sheet sheet{std::string(body.title), paper.width_mm, paper.height_mm, std::move(body.drawing)};
    const drawing::Canvas canvas(sheet.drawing, office.font);
    draw_frame(canvas, paper);
    draw_title_block(canvas, paper, layout,
                     {body.title, body.document_type, body.scale, static_cast<int>(set.size()) + 1,
                      static_cast<int>(bodies.size())});
    set.push_back(std::move(sheet));
  }
  return set;
}

}  // namespace fairlead::sheets
