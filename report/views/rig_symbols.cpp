#include "report/views/rig_symbols.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "report/views/isometric.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

constexpr Pen pen(double width_mm, Layer layer, LineType type = LineType::continuous) {
  return {width_mm, type, layer};
}

}  // namespace

void draw_trolley(const Canvas& canvas, Paper wheel, Paper attachment, Facing facing, Pen pen) {
  const double half = trolley_mm / 2;
  if (facing == Facing::plan) {
    canvas.box({wheel.x_mm - half, wheel.y_mm - 1.2, wheel.x_mm + half, wheel.y_mm + 1.2}, pen);
    return;
  }
  const auto at = [&](double x, double y) { return wheel + Paper{x, y}; };
  canvas.outline({at(-half, 1.5), at(half, 1.5), at(half - 1, -1.5), at(-half + 1, -1.5)}, pen, Fill::paper);
  const Pen thin{narrow_mm, LineType::continuous, pen.layer};
  for (double x : {-1.1, 1.1}) canvas.circle(at(x, 0.6), 0.6, thin);
  canvas.circle(attachment, 0.4, thin, Fill::ink);
}

void draw_unit(const Canvas& canvas, Paper outlet, Paper out_of_outlet) {
  // Seen along its axis the box has no side to lie on; it then stands to the right.
  const double seen = length(out_of_outlet);
  const Paper back = seen > 0.1 ? (-1 / seen) * out_of_outlet : Paper{1, 0};
  const Paper side = left_of(back);
  const Pen visible = pen(wide_mm, Layer::structure), thin = pen(narrow_mm, Layer::structure);
  const auto at = [&](double b, double s) { return outlet + b * back + s * side; };
  const double h = unit_height_mm / 2;
  canvas.outline({at(1, -h), at(1 + unit_length_mm, -h), at(1 + unit_length_mm, h), at(1, h)}, visible, Fill::paper);
  canvas.outline({at(0, 0), at(1, -0.8), at(1, 0.8)}, thin, Fill::ink);
  canvas.circle(at(1 + unit_length_mm / 2, 0), 1.3, thin);
  canvas.circle(at(1 + unit_length_mm / 2, 0), 0.4, thin, Fill::ink);
}

void draw_anchor(const Canvas& canvas, Paper at) {
  constexpr double arm = 1.7;
  const Pen thin = pen(narrow_mm, Layer::anchors);
  canvas.circle(at, anchor_radius_mm, thin, Fill::paper);
  canvas.line({at - Paper{arm, 0}, at + Paper{arm, 0}}, thin);
  canvas.line({at - Paper{0, arm}, at + Paper{0, arm}}, thin);
}

bool shows_load(const Frame& frame, const AnchorSeen& anchor, Facing facing) {
  constexpr double leaves_plane = 0.05;  // about 3 degrees
  const double size = norm(anchor.governing_N);
  if (!(size > 0)) return false;
  return facing != Facing::plan || std::abs(fairlead::dot(anchor.governing_N, frame.across)) > leaves_plane * size;
}

void draw_backup_brake(const Canvas& canvas, Paper at) {
  constexpr double half = 2.4;
  canvas.line({at - Paper{0, half}, at + Paper{0, half}}, pen(wide_mm, Layer::structure));
  canvas.area({at, at + Paper{2, 1.1}, at + Paper{2, -1.1}}, Layer::structure);
}

void draw_block(const Canvas& canvas, const View& view, const BlockSeen& block, Pen pen) {
  constexpr double half_length = 1.6, half_height = 1.0, wheel_radius = 0.45;
  Box box{};
  if (!block.body.empty()) {
    std::vector<Paper> corners;
    for (const Point3& p : block.body) corners.push_back(view.of(p));
    box = bounds(corners);
  }
  const Paper at = view.of(block.at);
  if (box.width() < 2 * half_length || box.height() < 2 * half_height)
    box = {at.x_mm - half_length, at.y_mm - half_height, at.x_mm + half_length, at.y_mm + half_height};
  canvas.box(box, pen, Fill::paper);
  for (const Point3& wheel : block.wheels)
    if (const Paper top{at.x_mm, box.top}; view.of(wheel).y_mm > top.y_mm)
      canvas.line({top, view.of(wheel) - Paper{0, wheel_radius}}, {narrow_mm, LineType::continuous, pen.layer});
  for (const Point3& wheel : block.wheels)
    canvas.circle(view.of(wheel) - Paper{0, wheel_radius}, wheel_radius, {narrow_mm, LineType::continuous, pen.layer});
}

void draw_dead_end(const Canvas& canvas, Paper at, Layer layer) {
  canvas.circle(at, 0.6, {narrow_mm, LineType::continuous, layer}, Fill::paper);
  canvas.circle(at, 0.3, {0, LineType::continuous, layer}, Fill::ink);
}

void draw_far_end(const Canvas& canvas, Paper at) {
  constexpr double half_mm = 0.9, tall_mm = 1.5;
  canvas.outline({at, at + Paper{-half_mm, -tall_mm}, at + Paper{half_mm, -tall_mm}}, pen(narrow_mm, Layer::anchors),
                 Fill::paper);
}

Point3 seen_end(const MemberSeen& member, Facing facing) {
  if (facing == Facing::isometric) return member.seen_to(std::min(member.in_elevation, member.in_plan));
  return member.seen_to(facing == Facing::plan ? member.in_plan : member.in_elevation);
}

void draw_member(const Canvas& canvas, const View& view, const MemberSeen& member, Facing facing) {
  constexpr double half_break_mm = 2.2;
  const Paper from = view.of(member.from), to = view.of(seen_end(member, facing)), runs = to - from;
  canvas.line({from, to}, member_pen);
  if (seen_end(member, facing) == member.to)
    draw_far_end(canvas, to);
  else if (length(runs) > 0)
    break_mark(canvas, to, std::atan2(runs.y_mm, runs.x_mm), Layer::anchors, half_break_mm);
}

Layer layer_of(Role role) {
  return role == Role::braking     ? Layer::braking_line
         : role == Role::reduction ? Layer::reduction_line
                                   : Layer::support_line;
}
Pen standing_pen(Role role) { return pen(role == Role::braking ? wide_mm : medium_mm, layer_of(role)); }
Pen extreme_pen(Role role) { return pen(narrow_mm, layer_of(role), LineType::dash_double_dot); }

void draw_sheave(const Canvas& canvas, const View& view, const SheaveSeen& sheave, Pen visible) {
  const Vec3 helper = std::abs(sheave.axle.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  const Vec3 e = unit(fairlead::cross(sheave.axle, helper)), f = fairlead::cross(sheave.axle, e);
  const double radius_mm = std::max(view.mm_per_m() * sheave.radius_m, least_sheave_radius_mm);
  const Paper centre = view.of(sheave.centre);
  const auto flat = [&](Vec3 v) { return Paper{fairlead::dot(v, view.right), fairlead::dot(v, view.up)}; };
  std::vector<Paper> rim;
  for (const Paper p : arc({0, 0}, radius_mm, 0, 2 * std::numbers::pi))
    rim.push_back(centre + p.x_mm * flat(e) + p.y_mm * flat(f));
  rim.pop_back();
  canvas.outline(rim, visible, Fill::paper);
  canvas.circle(centre, 0.25, {0, LineType::continuous, Layer::sheaves}, Fill::ink);
  if (sheave.carrier) canvas.line({centre, view.of(*sheave.carrier)}, visible);
}

Box rider_box(const Frame& frame, const View& view, const RiderSeen& rider) {
  std::vector<Paper> corners;
  for (const Point3& corner : rider.corners(frame)) corners.push_back(view.of(corner));
  return bounds(corners);
}

namespace {

/// The outline of all within a margin of a hull.
std::vector<Paper> grown(const std::vector<Paper>& hull, double margin_mm) {
  if (!(margin_mm > 0)) return hull;
  std::vector<Paper> all;
  for (const Paper corner : hull)
    for (const Paper p : arc(corner, margin_mm, 0, 2 * std::numbers::pi)) all.push_back(p);
  return hull_on_paper(std::move(all));
}

}  // namespace

void draw_rider(const Canvas& canvas, const Frame& frame, const View& view, const RiderSeen& rider, double hanging_m,
                Facing facing) {
  const Pen ghost = pen(narrow_mm, Layer::envelope, LineType::dash_double_dot), thin = pen(narrow_mm, Layer::envelope);
  for (const Curve3& corners : rider.leaning) {
    std::vector<Paper> outline;
    for (const Point3& corner : corners) outline.push_back(view.of(corner));
    outline = grown(hull_on_paper(std::move(outline)), view.mm_per_m() * rider.margin_m);
    outline.push_back(outline.front());
    canvas.line(std::move(outline), ghost);
  }
  if (rider.leaning.empty() && facing == Facing::isometric)
    for (auto& edge : visible_edges(view, rider.corners(frame))) canvas.line(std::move(edge), ghost);
  else if (rider.leaning.empty())
    canvas.box(rider_box(frame, view, rider), ghost);
  const Paper wheel = view.of(rider.wheel);
  canvas.circle(wheel, 0.6, thin);
  if (facing == Facing::plan) return;
  const Paper mass = wheel - Paper{0, view.mm_per_m() * hanging_m};
  constexpr double radius = 0.9;
  canvas.line({wheel - Paper{0, 0.6}, mass + Paper{0, radius}}, thin);
  canvas.circle(mass, radius, thin);
  // The sign of a centre of mass: two quarters filled.
  for (double from : {0.0, std::numbers::pi}) {
    auto quarter = arc(mass, radius, from, from + std::numbers::pi / 2);
    quarter.push_back(mass);
    canvas.area(std::move(quarter), Layer::envelope);
  }
}

}  // namespace fairlead::views
