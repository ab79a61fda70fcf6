#include "report/views/isometric.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "report/drawing/symbols.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/views/scene_parts.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

PaperAxes seen_from(const Frame& frame, double along, double across) {
  const double sine = std::sqrt(1.0 / 3), cosine = std::sqrt(2.0 / 3);  // of how far above the level the viewer stands
  const Vec3 to_viewer = std::sqrt(0.5) * (along * frame.along + across * frame.across);
  return {fairlead::cross(frame.up, to_viewer), cosine * frame.up - sine * to_viewer};
}

/// What a reader has to tell apart.
Curve3 marks_of(const Scene& scene) {
  Curve3 marks{scene.rig->layout.brake_unit.outlet};
  for (const AnchorSeen& anchor : scene.anchors) marks.push_back(anchor.position);
  for (const SheaveSeen& sheave : scene.sheaves) marks.push_back(sheave.centre);
  return marks;
}

/// How near the nearest two of them stand on paper; those that stand beside each other in space are no matter.
double nearest_on_paper_m(const Curve3& marks, const PaperAxes& axes) {
  constexpr double apart_m = 1;
  double nearest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < marks.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const Vec3 d = marks[i] - marks[j];
      if (norm(d) >= apart_m)
        nearest = std::min(nearest, std::hypot(fairlead::dot(d, axes.right), fairlead::dot(d, axes.up)));
    }
  return nearest;
}

}  // namespace

PaperAxes isometric_axes(const Scene& scene) {
  constexpr double clearly = 1.25;
  const Frame& frame = scene.rig->frame;
  const Curve3 marks = marks_of(scene);
  PaperAxes best = seen_from(frame, 1, -1);
  double apart_m = nearest_on_paper_m(marks, best);
  for (const auto& [along, across] : {std::pair{-1, -1}, std::pair{1, 1}, std::pair{-1, 1}}) {
    const PaperAxes axes = seen_from(frame, along, across);
    const double here_m = nearest_on_paper_m(marks, axes);
    if (here_m > clearly * apart_m) best = axes, apart_m = here_m;
  }
  return best;
}

Curve3 Ground::corners() const {
  Curve3 all{from, to, scale_from, scale_to};
  for (const Plumb& plumb : plumbs) all.insert(all.end(), {plumb.foot, plumb.beside});
  return all;
}

namespace {

/// Where a plane cuts the edges of the box that a scene shows.
Curve3 plane_cut(const Scene& scene, const StructureSeen& plane) {
  const auto corner = [&](unsigned i) {
    return scene.at(i & 4u ? scene.to_m : scene.from_m, i & 2u ? scene.reach.left_m : scene.reach.right_m,
                    i & 1u ? scene.reach.high_m : scene.reach.low_m);
  };
  const auto in_front_m = [&](Point3 p) { return fairlead::dot(p - plane.through, plane.normal); };
  Curve3 cuts;
  for (unsigned i = 0; i < 8; ++i)
    for (const unsigned direction : {1u, 2u, 4u}) {
      if (i & direction) continue;
      const Point3 a = corner(i), b = corner(i | direction);
      const double at_a = in_front_m(a), at_b = in_front_m(b);
      if ((at_a < 0) != (at_b < 0)) cuts.push_back(a + at_a / (at_a - at_b) * (b - a));
    }
  return cuts;
}

/// How far across, on the viewer's side, the farthest thing stands that is drawn at a ground's level or reaches it.
double nearest_across_m(const Scene& scene, double side) {
  const Frame& frame = scene.rig->frame;
  const double shown_m = side < 0 ? -scene.reach.right_m : scene.reach.left_m;
  double farthest_m = 0;
  const auto take = [&](const Curve3& points) {
    for (const Point3& p : points) farthest_m = std::max(farthest_m, std::min(shown_m, side * frame.across_m(p)));
  };
  for (const AnchorSeen& anchor : scene.anchors) take({anchor.position});
  for (const MemberSeen& member : scene.members) take({seen_end(member, Facing::isometric)});
  for (const auto* rider : {&scene.rider_under_redirect, &scene.rider_at_contact})
    if (*rider) take((*rider)->corners(frame));
  if (const auto platform = platform_of(scene)) take({platform->begin(), platform->end()});
  for (const StructureSeen& structure : scene.structures) {
    take(structure.points);
    if (structure.kind == StructureKind::plane) farthest_m = shown_m;
  }
  if (!scene.scans.empty()) farthest_m = shown_m;
  return side * farthest_m;
}

}  // namespace

Ground ground_of(const Scene& scene) {
  const Layout& layout = scene.rig->layout;
  Curve3 set_out{layout.brake_unit.outlet};
  for (const AnchorSeen& anchor : scene.anchors) set_out.push_back(anchor.position);
  Curve3 seen = set_out;
  if (scene.rest) seen.insert(seen.end(), scene.rest->main_line.begin(), scene.rest->main_line.end());
  for (const auto* rider : {&scene.rider_under_redirect, &scene.rider_at_contact})
    if (*rider) seen.push_back((*rider)->low);
  if (layout.landing) seen.push_back(scene.at(scene.to_m, 0, layout.landing->platform_level_m));
  for (const MemberSeen& member : scene.members) seen.push_back(seen_end(member, Facing::isometric));
  for (const StructureSeen& structure : scene.structures) {
    const Curve3 points = structure.kind == StructureKind::plane ? plane_cut(scene, structure) : structure.points;
    for (Point3 p : points) {
      p.z = std::max(p.z, scene.reach.low_m);
      seen.push_back(p);
    }
  }
  const auto lowest = std::min_element(seen.begin(), seen.end(), [](Point3 a, Point3 b) { return a.z < b.z; });

  Ground ground{lowest->z, {}, {}, {}, {}, {}};
  const auto on_trace = [&](double chainage_m) { return scene.at(chainage_m, 0, ground.level_m); };
  ground.from = on_trace(scene.from_m);
  ground.to = on_trace(scene.to_m);
  constexpr double aside_m = 0.5;
  const PaperAxes axes = isometric_axes(scene);
  const double side = fairlead::dot(fairlead::cross(axes.right, axes.up), scene.rig->frame.across) < 0 ? -1 : 1;
  const Vec3 aside = (nearest_across_m(scene, side) + side * aside_m) * scene.rig->frame.across;
  ground.scale_from = ground.from + aside;
  ground.scale_to = ground.to + aside;
  for (const Point3& point : set_out)
    ground.plumbs.push_back({point, {point.x, point.y, ground.level_m}, on_trace(scene.rig->frame.chainage_m(point))});
  return ground;
}

namespace {

/// With figures on the side of a tick that the scale's line leaves free.
void draw_chainages_on(const Canvas& canvas, const Scene& scene, const Ground& ground, const View& view,
                       const Style& style) {
  const Pen rule{narrow_mm, LineType::continuous, Layer::grid};
  const Paper metre = view.of(scene.rig->frame.along);
  const Align free = (metre.x_mm > 0) == (metre.y_mm > 0) ? Align::left : Align::right;
  canvas.line({view.of(ground.scale_from), view.of(ground.scale_to)}, rule);
  for (const auto& [chainage_m, figure] : chainage_ticks(scene, std::abs(metre.x_mm), style)) {
    const Paper at = view.of(ground.scale_from + (chainage_m - scene.from_m) * scene.rig->frame.along);
    canvas.line({at, at - Paper{0, figure.empty() ? 1.2 : 2.2}}, rule);
    if (!figure.empty()) canvas.text(at - Paper{0, 3 + small_cap_mm}, figure, small_cap_mm, Layer::grid, free);
  }
}

/// Along the scale, below its figures.
void draw_travel(const Canvas& canvas, const Ground& ground, const View& view) {
  constexpr double below_mm = 12, arrow_mm = 30, text_mm = 1;
  const Paper from = view.of(ground.scale_from), to = view.of(ground.scale_to);
  const Paper way = 1 / length(to - from) * (to - from);
  const Paper reading = way.x_mm < 0 ? -1.0 * way : way;  // from the bottom of the sheet, whichever way it points
  const Paper middle = 0.5 * (from + to) - below_mm * left_of(reading);
  arrow(canvas, middle - arrow_mm / 2 * way, middle + arrow_mm / 2 * way,
        {medium_mm, LineType::continuous, Layer::symbols});
  canvas.text(middle - (text_mm + small_cap_mm) * left_of(reading), "direction of travel", small_cap_mm, Layer::symbols,
              Align::centre, std::atan2(reading.y_mm, reading.x_mm));
}

}  // namespace

void draw_ground(const Canvas& canvas, const Scene& scene, const View& view, const Style& style) {
  const Pen thin{hair_mm, LineType::dashed, Layer::grid};
  const Ground ground = ground_of(scene);
  canvas.line({view.of(ground.from), view.of(ground.to)}, thin);
  for (const Ground::Plumb& plumb : ground.plumbs) {
    const Paper foot = view.of(plumb.foot), beside = view.of(plumb.beside);
    canvas.line({view.of(plumb.point), foot}, thin);
    if (length(foot - beside) > thin.width_mm) canvas.line({foot, beside}, thin);
    canvas.circle(foot, 0.4, {0, LineType::continuous, Layer::grid}, Fill::ink);
  }
  draw_chainages_on(canvas, scene, ground, view, style);
  draw_travel(canvas, ground, view);
}

std::vector<std::vector<Paper>> visible_edges(const View& view, const Curve3& corners) {
  const Vec3 to_viewer = fairlead::cross(view.right, view.up);
  const auto nearness = [&](std::size_t i) { return fairlead::dot(corners[i] - corners[0], to_viewer); };
  std::size_t nearest = 0;
  for (std::size_t i = 1; i < corners.size(); ++i)
    if (nearness(i) > nearness(nearest)) nearest = i;
  std::vector<Paper> outline;
  for (const Point3& corner : corners) outline.push_back(view.of(corner));
  std::vector<std::vector<Paper>> edges;
  for (const std::size_t direction : {1u, 2u, 4u}) edges.push_back({outline[nearest], outline[nearest ^ direction]});
  outline = hull_on_paper(std::move(outline));
  outline.push_back(outline.front());
  edges.insert(edges.begin(), std::move(outline));
  return edges;
}

std::vector<Paper> plane_outline(const Scene& scene, const StructureSeen& plane, const View& view) {
  std::vector<Paper> outline;
  for (const Point3& p : plane_cut(scene, plane)) outline.push_back(view.of(p));
  if (outline.size() < 3) return {};
  outline = hull_on_paper(std::move(outline));
  outline.push_back(outline.front());
  return outline;
}

}  // namespace fairlead::views
