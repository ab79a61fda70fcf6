#include "report/sheets/site_axes.hpp"

#include "report/drawing/symbols.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

/// A place for the directions of the site's axes where nothing else stands, as large, low and far right as can be;
/// where there is none, the lower right corner.
struct AxesPlace {
  Paper root;
  double length_mm{};
};
AxesPlace find_axes_place(const Font& font, const View& view, const std::vector<Axis>& axes, const Obstacles& obstacles,
                          const Box& within) {
  constexpr double least_mm = 5.5;
  for (const double length_mm : {11.0, 9.0, 7.0, least_mm}) {
    Drawing trial;
    axes_sign(Canvas(trial, font), {0, 0}, view, axes, length_mm);
    const Box sign = bounds(trial, font).grown(1);
    for (double y = within.bottom - sign.bottom; y + sign.top <= within.top; y += 0.5)
      for (double x = within.right - sign.right; x + sign.left >= within.left; x -= 3)
        if (obstacles.clear(quad({x + sign.left, y + sign.bottom, x + sign.right, y + sign.top})))
          return {{x, y}, length_mm};
  }
  return {{within.right - 20, within.bottom + 10}, least_mm};
}

}  // namespace

void place_axes(const Canvas& canvas, const views::Scene& scene, const View& view, Obstacles& obstacles,
                const Box& within) {
  const auto& names = scene.rig->layout.site.axes;
  const std::vector<Axis> axes{{{1, 0, 0}, names[0]}, {{0, 1, 0}, names[1]}};
  const AxesPlace place = find_axes_place(canvas.font(), view, axes, obstacles, within);
  const std::size_t before = canvas.drawing().entities.size();
  axes_sign(canvas, place.root, view, axes, place.length_mm);
  obstacles.add(canvas.drawing(), before);
}

}  // namespace fairlead::sheets
