#include <fmt/format.h>

#include "report/sheets/arrangement.hpp"
#include "report/sheets/furniture.hpp"
#include "report/sheets/list.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double scales[] = {20, 50, 100, 200, 500, 1000};  // of ISO 5455's series
constexpr double gap_mm = 5;

bool applies(const Dossier&) { return true; }

std::vector<Block> blocks_of(const Dossier& dossier, const Style& style, const views::Scene& scene,
                             const Stationery& paper, const std::vector<std::string>& key, double cap_mm) {
  return {setting_out_and_loads(dossier, style), findings_summary(dossier, style), legend(scene),
          notes(dossier, style, scene, paper, key, cap_mm), cautions(cap_mm)};
}

/// What the views leave of the field: left of the title block below them, and the column above the title block, which
/// reaches to the top beside views that are narrow enough.
struct Free {
  Region left, right;
};
Free free_beside(const Stationery& paper, const Box& corner, double views_width_mm, double views_bottom) {
  const Box field = paper.field();
  const bool narrow = field.left + views_width_mm <= corner.left - gap_mm;
  return {{{field.left, field.bottom, corner.left - gap_mm, views_bottom - gap_mm}, {}},
          {{corner.left, corner.top + gap_mm, field.right, narrow ? field.top : views_bottom - gap_mm}, {}}};
}

bool try_scale(const Dossier& dossier, const Style& style, const Office& office, const views::Scene& scene,
               double scale, Body& body) {
  const Stationery paper = stationery(office.paper);
  const Box field = paper.field(), corner = title_corner(paper, dossier.judged.rig.layout);
  const ViewGroup group(scene, style, paper, office.font, scale);
  if (group.width_mm() > field.width() || group.height_mm() > field.height()) return false;
  const bool narrow = field.left + group.width_mm() <= corner.left - gap_mm;
  const double room = narrow ? corner.left - gap_mm - field.left : field.width();
  Drawing drawing;
  const Canvas canvas(drawing, office.font);
  const auto key = group.draw(canvas, {field.left + (room - group.width_mm()) / 2, field.top});
  for (double cap : {note_cap_mm, small_cap_mm}) {
    const auto blocks = blocks_of(dossier, style, scene, paper, key, cap);
    Free free = free_beside(paper, corner, group.width_mm(), field.top - group.height_mm());
    if (!share(canvas, blocks, free.left, free.right)) continue;
    sheets::draw(canvas, free.left);
    sheets::draw(canvas, free.right);
    body.scale = fmt::format("1:{:g}", scale);
    body.drawing = std::move(drawing);
    return true;
  }
  return false;
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const views::Scene scene = views::scene_of(dossier.judged.rig);
  Body body{"General arrangement of the arrest end", "Arrangement drawing", "none", {}};
  for (double scale : scales)
    if (try_scale(dossier, style, office, scene, scale, body)) break;
  out.push_back(std::move(body));
}

}  // namespace

const SheetKind general_arrangement{"general-arrangement", applies, compose};

}  // namespace fairlead::sheets
