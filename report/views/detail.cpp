#include "report/views/detail.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/drawing/dimension.hpp"
#include "report/views/figures.hpp"
#include "report/views/rig_symbols.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

constexpr double beside_m = 0.8, beyond_mark_m = 2.0, below_m = 0.8, above_m = 0.55;

}  // namespace

void draw_clipped(const Canvas& canvas, const Drawing& drawing, const Box& box) {
  for (const auto& entity : drawing.entities) {
    const auto* stroke = std::get_if<Stroke>(&entity);
    if (!stroke) continue;
    if (box.contains(bounds(stroke->path))) {
      canvas.drawing().entities.push_back(*stroke);
      continue;
    }
    std::vector<Paper> path = stroke->path;
    if (stroke->closed) path.push_back(path.front());
    if (stroke->pen.width_mm > 0)
      for (std::vector<Paper>& piece : clip(path, box)) canvas.line(std::move(piece), stroke->pen);
  }
}

std::optional<DetailWindow> redirect_window(const Scene& scene) {
  const SheaveSeen* redirect = first_redirect(scene);
  if (!redirect || !scene.rest) return std::nullopt;
  const double at = scene.rig->frame.chainage_m(redirect->centre), mark = scene.rig->layout.brake_trolley.rest_m;
  const double top = redirect->carrier ? std::max(redirect->centre.z, redirect->carrier->z) : redirect->centre.z;
  return DetailWindow{std::min(at, mark) - beside_m, std::max(at, mark) + beyond_mark_m,
                      std::min(redirect->centre.z, scene.rest->trolley.wheel.z) - below_m,
                      std::max(top, scene.rest->trolley.wheel.z) + above_m};
}

DetailWindow filling(const Scene& scene, const DetailWindow& w, double width_m, double height_m) {
  // Downstream the line and its dimensions have most to show; names stand above and below it.
  const double wider = std::max(0.0, width_m - (w.to_m - w.from_m));
  const double taller = std::max(0.0, height_m - (w.high_m - w.low_m));
  const double upstream = std::min(0.35 * wider, std::max(0.0, w.from_m - scene.from_m));
  return {w.from_m - upstream, w.to_m + wider - upstream, w.low_m - 0.4 * taller, w.high_m + 0.6 * taller};
}

Framed draw_framed(const Canvas& canvas, const Scene& scene, const DetailWindow& window, double scale, Paper lower_left,
                   std::string name) {
  View view = view_of(scene, Facing::elevation, scale, {0, 0});
  view.name = std::move(name);
  view.origin = scene.at(window.from_m, 0, window.low_m);
  view.at = lower_left;
  const Paper upper_right = view.of(scene.at(window.to_m, 0, window.high_m));
  const Box frame{lower_left.x_mm, lower_left.y_mm, upper_right.x_mm, upper_right.y_mm};
  canvas.drawing().views.push_back(view);
  Drawing whole;
  draw_rig(Canvas(whole, canvas.font()), scene, view, Facing::elevation);
  const std::size_t before = canvas.drawing().entities.size();
  draw_clipped(canvas, whole, frame.grown(-narrow_mm));
  canvas.box(frame, {narrow_mm, LineType::continuous, Layer::structure});
  return {view, frame, before};
}

std::vector<std::string> draw_detail(const Canvas& canvas, const Scene& scene, const DetailWindow& window, double scale,
                                     Paper lower_left, const Style& style, int first_balloon) {
  // The loaded main line of the full travel would run through here without saying anything of the redirect.
  Scene shown = scene;
  if (shown.full) shown.full->main_line.clear();
  const auto [view, frame, before] = draw_framed(canvas, shown, window, scale, lower_left, "detail A");

  Obstacles obstacles(canvas.font());
  obstacles.add(canvas.drawing(), before);
  const SheaveSeen& redirect = *first_redirect(scene);
  const Paper centre = view.of(redirect.centre), wheel = view.of(scene.rest->trolley.wheel);
  const double mm_per_m = view.mm_per_m();
  const auto metres = [&](double mm) { return figure(std::abs(mm) / mm_per_m, style); };
  const std::size_t dimensions = canvas.drawing().entities.size();
  // Below the line, where the frame leaves room for one row.
  const double row = frame.bottom + 4;
  dimension_rows(canvas, Measures::along, {{centre, wheel, metres(wheel.x_mm - centre.x_mm)}}, row + first_row_mm, -1,
                 &obstacles);
  dimension_rows(canvas, Measures::up, {{wheel, centre, metres(centre.y_mm - wheel.y_mm)}}, wheel.x_mm + trolley_mm, 1,
                 &obstacles);
  obstacles.add(canvas.drawing(), dimensions);
  return place(canvas, detail_callouts(scene, view, frame.grown(-2), style), obstacles, frame.grown(-1), first_balloon);
}

namespace {

Box frame_of(const Scene& scene, const DetailWindow& window, const View& view) {
  return bounds(view.of(scene.at(window.from_m, 0, window.low_m)), view.of(scene.at(window.to_m, 0, window.high_m)));
}

}  // namespace

void mark_detail(const Canvas& canvas, const Scene& scene, const DetailWindow& window, const View& view) {
  canvas.box(frame_of(scene, window, view), {narrow_mm, LineType::continuous, Layer::structure});
}

void letter_detail(const Canvas& canvas, const Scene& scene, const DetailWindow& window, const View& view,
                   Obstacles& obstacles) {
  constexpr double beside_mm = 1, clear_mm = 0.5, step_mm = 1;
  const Box frame = frame_of(scene, window, view);
  const auto letter = [&](double x, double y) {
    return Label{{x, y}, heading_cap_mm, 0, std::string(canvas.said("A")), Layer::text};
  };
  const double width = canvas.width("A", heading_cap_mm), above = frame.top + beside_mm,
               below = frame.bottom - beside_mm - heading_cap_mm;
  Label best = letter(frame.right + beside_mm, above);
  const auto is_free = [&](const Label& label) { return obstacles.clear(text_quad(label, canvas.font(), clear_mm)); };
  // Along the upper side from its right end, then along the lower.
  for (const double y : {above, below})
    for (double x = frame.right + beside_mm; !is_free(best) && x >= frame.left - beside_mm - width; x -= step_mm)
      if (const Label other = letter(x, y); is_free(other)) best = other;
  canvas.drawing().entities.push_back(best);
  obstacles.add(best);
}

}  // namespace fairlead::views
