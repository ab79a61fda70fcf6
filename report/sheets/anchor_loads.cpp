// What every anchor carries: vectors, cases, utilisation.
#include <algorithm>

#include "report/sheets/force_panel.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double gap_mm = 4, least_panel_mm = 88;
constexpr std::size_t most_in_row = 2;

bool applies(const Dossier& dossier) { return dossier.judged.rig.loads.solved() != nullptr; }

/// Panels side by side, as wide as `row` of them find room.
Block panel_row(const Dossier& dossier, const Style& style, std::size_t row, std::size_t first, std::size_t count) {
  const auto panels = static_cast<double>(row);
  return {[panels](const Canvas&) { return panels * (least_panel_mm + gap_mm) - gap_mm; },
          [](const Canvas&, double) { return force_panel_height_mm; },
          [&dossier, &style, panels, first, count](const Canvas& canvas, Paper top_left, double width_mm) {
            const double panel_mm = std::min(96.0, (width_mm - (panels - 1) * gap_mm) / panels);
            for (std::size_t i = 0; i < count; ++i) {
              const double left = top_left.x_mm + static_cast<double>(i) * (panel_mm + gap_mm);
              draw_force_panel(canvas, {left, top_left.y_mm - force_panel_height_mm, left + panel_mm, top_left.y_mm},
                               dossier, first + i, style);
            }
          }};
}

Block signs() {
  return block_of(Paragraphs(
      "NOTES",
      {{"1.",
        "Force of the rig on the anchor. Along: toward the landing; across: to the left looking toward the "
        "landing; up: positive upward.",
        Layer::notes},
       {"2.",
        "Unfactored. The components of an arrow act at once, in one case at one pose; nothing is mixed from "
        "several cases.",
        Layer::notes},
       {"3.",
        "Each arrow is the force of the rig on the anchor: its tip stands at the anchor, its length is to the force "
        "scale of its own panel.",
        Layer::notes},
       {"4.",
        "Utilisation: demand over working load; the mark on the bar is the layout's limit, or 100 % where it "
        "gives none.",
        Layer::notes}},
      {small_cap_mm}));
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  pages.begin({"Anchor loads", "Load drawing", "none", {}}, {pages.left_column(), pages.right_column()});
  const std::size_t row = pages.upright() ? 1 : most_in_row, anchors = dossier.judged.rig.layout.anchors.size();
  for (std::size_t first = 0; first < anchors; first += row)
    pages.put(panel_row(dossier, style, row, first, std::min(row, anchors - first)));
  pages.put(signs());
  pages.put(tables::anchor_loads(dossier, style), style);
  for (const Table& members : {tables::members(dossier, style), tables::members_lost(dossier, style)})
    if (!members.rows.empty() || !members.notes.empty()) pages.put(members, style);
  pages.put(tables::load_cases(dossier, style), style);
  pages.put(tables::loads_by_case(dossier), style);
  for (std::size_t anchor = 0; anchor < anchors; ++anchor)
    if (const Table held = tables::member_cases(dossier, anchor); !held.rows.empty()) pages.put(held, style);
}

}  // namespace

const SheetKind anchor_loads_sheet{"anchor-loads", applies, compose};

}  // namespace fairlead::sheets
