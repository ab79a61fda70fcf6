#include "report/sheets/list.hpp"

#include "report/sheets/furniture.hpp"

namespace fairlead::sheets {

namespace {

constexpr const SheetKind* sheets[] = {&general_arrangement};

}  // namespace

std::span<const SheetKind* const> all_sheets() { return sheets; }

std::vector<drawing::Sheet> compose(const Dossier& dossier, const Style& style, const Office& office,
                                    std::optional<std::string_view> only) {
  std::vector<Body> bodies;
  for (const SheetKind* kind : all_sheets())
    if ((!only || *only == kind->name) && kind->applies(dossier)) kind->compose(dossier, style, office, bodies);

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
