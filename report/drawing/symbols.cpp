#include "report/drawing/symbols.hpp"

#include <fmt/format.h>

#include <numbers>

namespace fairlead::drawing {

using std::numbers::pi;

void arrowhead(const Canvas& canvas, Paper tip, double angle_rad, Layer layer, double length_mm) {
  const double half = length_mm * std::tan(pi / 24);
  const Paper back = tip - polar(length_mm, angle_rad), side = polar(half, angle_rad + pi / 2);
  canvas.area({tip, back + side, back - side}, layer);
}

void arrow(const Canvas& canvas, Paper from, Paper to, Pen pen) {
  constexpr double head_mm = 3;
  const Paper along = to - from;
  const double angle = std::atan2(along.y_mm, along.x_mm), size = std::min(head_mm, 0.6 * length(along));
  // The shaft ends inside the head, so that its square end does not blunt the tip.
  canvas.line({from, to - polar(size * 0.9, angle)}, pen);
  arrowhead(canvas, to, angle, pen.layer, size);
}

void hatch_below(const Canvas& canvas, Paper from, Paper to, Layer layer) {
  constexpr double pitch_mm = 2, depth_mm = 1.4;
  const double along = length(to - from);
  const Paper step = 1 / along * (to - from), into = (-depth_mm) * (step + left_of(step));
  const int strokes = static_cast<int>(along / pitch_mm);
  for (int i = 1; i <= strokes; ++i) {
    const Paper top = from + (i * pitch_mm) * step;
    canvas.line({top, top + into}, {hair_mm, LineType::continuous, layer});
  }
}

void break_mark(const Canvas& canvas, Paper at, double angle_rad, Layer layer, double half_mm) {
  const Paper along = polar(half_mm / 4, angle_rad), up = left_of(along);
  canvas.line({at + 4.0 * up, at + 1.2 * up, at + 0.8 * up - 1.3 * along, at - 0.8 * up + 1.3 * along, at - 1.2 * up,
               at - 4.0 * up},
              {narrow_mm, LineType::continuous, layer});
}

void scale_bar(const Canvas& canvas, Paper at, const View& view, BarUnit unit, double count, int parts) {
  constexpr double height_mm = 1.5;
  const double part_mm = view.mm_per_m() * unit.metres * count / parts;
  const Pen pen{narrow_mm, LineType::continuous, Layer::symbols};
  for (int i = 0; i < parts; ++i) {
    const Box box{at.x_mm + i * part_mm, at.y_mm, at.x_mm + (i + 1) * part_mm, at.y_mm + height_mm};
    canvas.box(box, pen, i % 2 == 0 ? Fill::ink : Fill::none);
  }
  for (int i = 0; i <= parts; ++i)
    canvas.text({at.x_mm + i * part_mm, at.y_mm + height_mm + 1}, fmt::format("{:g}", count * i / parts), small_cap_mm,
                Layer::symbols, Align::centre);
  canvas.text({at.x_mm + parts * part_mm + 2, at.y_mm}, std::string(unit.name), small_cap_mm, Layer::symbols);
}

void axes_sign(const Canvas& canvas, Paper root, const View& view, const std::vector<Axis>& axes, double length_mm) {
  constexpr double seen = 0.1;
  for (const Axis& axis : axes) {
    const Paper along{fairlead::dot(axis.direction, view.right), fairlead::dot(axis.direction, view.up)};
    if (!(length(along) > seen)) continue;
    const Paper tip = root + length_mm * along;
    arrow(canvas, root, tip, {narrow_mm, LineType::continuous, Layer::symbols});
    const Paper out = 1 / length(along) * along;
    const double width = canvas.width(axis.name, note_cap_mm);
    // Beyond the tip by enough to clear the text's own half extent in that direction.
    const double off = 1.2 + std::abs(out.x_mm) * width / 2 + std::abs(out.y_mm) * note_cap_mm / 2;
    canvas.text(tip + off * out - Paper{0, note_cap_mm / 2}, axis.name, note_cap_mm, Layer::symbols, Align::centre);
  }
  canvas.circle(root, 0.6, {narrow_mm, LineType::continuous, Layer::symbols}, Fill::ink);
}

void projection_sign(const Canvas& canvas, const Box& box, bool first, Layer layer) {
  // A cone of large end 1, small end 1/2 and length 1, beside its view from the left end.
  const double size = std::min(box.height(), box.width() / 3.1);
  const Paper c = box.centre();
  const Pen visible{medium_mm, LineType::continuous, layer}, axis{hair_mm, LineType::dash_dot, layer};
  const double side = first ? -1 : 1;  // first angle: the cone's side view left of its end view
  const double cone_x = c.x_mm + side * 0.78 * size, end_x = c.x_mm - side * 0.78 * size;
  const double half = size / 2;
  canvas.outline({{cone_x - half, c.y_mm - half / 2},
                  {cone_x + half, c.y_mm - half},
                  {cone_x + half, c.y_mm + half},
                  {cone_x - half, c.y_mm + half / 2}},
                 visible);
  canvas.circle({end_x, c.y_mm}, half, visible);
  canvas.circle({end_x, c.y_mm}, half / 2, visible);
  canvas.line({{cone_x - half - 1, c.y_mm}, {cone_x + half + 1, c.y_mm}}, axis);
  canvas.line({{end_x - half - 1, c.y_mm}, {end_x + half + 1, c.y_mm}}, axis);
  canvas.line({{end_x, c.y_mm - half - 1}, {end_x, c.y_mm + half + 1}}, axis);
}

void balloon(const Canvas& canvas, Paper centre, int number, Layer layer) {
  canvas.circle(centre, balloon_radius_mm, {narrow_mm, LineType::continuous, layer});
  canvas.text(centre - Paper{0, note_cap_mm / 2}, std::to_string(number), note_cap_mm, layer, Align::centre);
}

Paper force_tail(const View& view, Point3 at, Vec3 force, double length_mm) {
  const Vec3 u = unit(force);
  return view.of(at) - length_mm * Paper{fairlead::dot(u, view.right), fairlead::dot(u, view.up)};
}

void force_arrow(const Canvas& canvas, const View& view, Point3 at, Vec3 force, double length_mm, double clear_mm) {
  const Paper tip = view.of(at), tail = force_tail(view, at, force, length_mm);
  const Pen pen{medium_mm, LineType::continuous, Layer::loads};
  constexpr double end_on_mm = 3;
  if (const double seen = length(tip - tail); seen >= end_on_mm)
    return arrow(canvas, tail, tip - (clear_mm / seen) * (tip - tail), pen);
  canvas.circle(tip, 1.5, pen);
  const bool toward = fairlead::dot(unit(force), fairlead::cross(view.right, view.up)) > 0;
  if (toward) return canvas.circle(tip, 0.5, pen, Fill::ink);
  const double d = 1.5 * std::sqrt(0.5);
  canvas.line({tip + Paper{-d, -d}, tip + Paper{d, d}}, pen);
  canvas.line({tip + Paper{-d, d}, tip + Paper{d, -d}}, pen);
}

}  // namespace fairlead::drawing
