#include "report/views/section_mark.hpp"

#include "report/drawing/symbols.hpp"
#include "report/views/parts.hpp"

namespace fairlead::views {

using namespace drawing;

void mark_section(const Canvas& canvas, const Scene& scene, const View& plan, const Box& drawn) {
  constexpr double clear_mm = 0.5, end_mm = 5, arrow_mm = 6, letter_gap_mm = 1;
  if (!scene.section_m) return;
  const double x = plan.of(scene.at(*scene.section_m, 0, 0)).x_mm;
  const Box own = own_window(scene, plan);
  if (x < own.left || x > own.right) return;
  for (const auto& [edge_mm, out] : {std::pair{drawn.top, 1.0}, std::pair{drawn.bottom, -1.0}}) {
    const Paper inner{x, edge_mm + out * clear_mm}, outer = inner + Paper{0, out * end_mm};
    canvas.line({inner, outer}, {extra_mm, LineType::continuous, Layer::symbols});
    arrow(canvas, outer, outer + Paper{arrow_mm, 0}, {narrow_mm, LineType::continuous, Layer::symbols});
    canvas.text({x - letter_gap_mm, out > 0 ? outer.y_mm - heading_cap_mm : outer.y_mm}, section_letter, heading_cap_mm,
                Layer::symbols, Align::right);
  }
}

}  // namespace fairlead::views
