// What stands beside the rig, as a view sees it.
#include <algorithm>

#include "report/views/isometric.hpp"
#include "report/views/rig_symbols.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

constexpr Pen edge{wide_mm, LineType::continuous, Layer::structure};

}  // namespace

std::vector<Paper> hull_on_paper(std::vector<Paper> points) {
  std::sort(points.begin(), points.end(),
            [](Paper a, Paper b) { return a.x_mm != b.x_mm ? a.x_mm < b.x_mm : a.y_mm < b.y_mm; });
  std::vector<Paper> out;
  const auto chain = [&](auto from, auto to) {
    const std::size_t base = out.size();
    for (auto p = from; p != to; ++p) {
      while (out.size() >= base + 2 && cross(out.back() - out[out.size() - 2], *p - out.back()) <= 0) out.pop_back();
      out.push_back(*p);
    }
    out.pop_back();
  };
  chain(points.begin(), points.end());
  chain(points.rbegin(), points.rend());
  return out;
}

namespace {

/// Where a plane cuts the plane that a view shows: in elevation the main line's own, in plan the level of the rest
/// mark. From left to right with the solid to its right; none where the plane lies almost flat in the view.
std::optional<std::pair<Paper, Paper>> cut_line(const Scene& scene, const StructureSeen& plane, const View& view,
                                                Facing facing) {
  const double level = scene.rest ? scene.rest->trolley.wheel.z : scene.reach.high_m;
  const Point3 on_view = facing == Facing::section ? view.origin : scene.at(scene.from_m, 0, level);
  const Paper normal{fairlead::dot(plane.normal, view.right), fairlead::dot(plane.normal, view.up)};
  constexpr double flat = 0.1;
  if (!(length(normal) > flat) || (facing == Facing::plan && std::abs(plane.normal.z) > 0.7)) return std::nullopt;
  // Distance in front of the plane at `on_view`, then along the normal's own trace to the cut.
  const double in_front = fairlead::dot(on_view - plane.through, plane.normal);
  const Paper foot = view.of(on_view) - (view.mm_per_m() * in_front / (length(normal) * length(normal))) * normal;
  const Paper way = -1.0 / length(normal) * left_of(normal);  // the solid, against the normal, then lies to its right
  constexpr double far_mm = 5000;
  return std::pair{foot - far_mm * way, foot + far_mm * way};
}

}  // namespace

Box structures_window(const Scene& scene, const View& view, Facing facing) {
  if (facing == Facing::section)
    return bounds(view.of(scene.at(scene.from_m, scene.reach.right_m, scene.reach.low_m)),
                  view.of(scene.at(scene.from_m, scene.reach.left_m, scene.reach.high_m)));
  if (facing == Facing::isometric) {
    std::vector<Paper> corners;
    for (const double chainage : {scene.from_m, scene.to_m})
      for (const double across : {scene.reach.right_m, scene.reach.left_m})
        for (const double z : {scene.reach.low_m, scene.reach.high_m})
          corners.push_back(view.of(scene.at(chainage, across, z)));
    return bounds(corners);
  }
  const bool plan = facing == Facing::plan;
  const Paper a = view.of(scene.at(scene.from_m, scene.reach.right_m, scene.reach.low_m)),
              b = view.of(scene.at(scene.to_m, plan ? scene.reach.left_m : scene.reach.right_m, scene.reach.high_m));
  return bounds(a, b);
}

std::vector<std::vector<Paper>> structure_outline(const Scene& scene, const StructureSeen& structure, const View& view,
                                                  Facing facing) {
  const Box window = structures_window(scene, view, facing);
  std::vector<Paper> path;
  if (structure.kind == StructureKind::plane && facing == Facing::isometric) {
    path = plane_outline(scene, structure, view);
  } else if (structure.kind == StructureKind::plane) {
    const auto cut = cut_line(scene, structure, view, facing);
    if (!cut) return {};
    path = {cut->first, cut->second};
  } else {
    for (const Point3& p : structure.points) path.push_back(view.of(p));
    path = hull_on_paper(std::move(path));
    path.push_back(path.front());
  }
  return clip(path, window);
}

void draw_structure(const Canvas& canvas, const Scene& scene, const StructureSeen& structure, const View& view,
                    Facing facing) {
  for (const auto& piece : structure_outline(scene, structure, view, facing)) {
    if (structure.kind != StructureKind::plane && piece.front() == piece.back()) {
      canvas.outline(piece, edge, Fill::tint);
      continue;
    }
    canvas.line(piece, edge);
    if (structure.kind == StructureKind::plane && facing != Facing::isometric)
      hatch_below(canvas, piece.front(), piece.back(), Layer::structure);
  }
  if (facing != Facing::isometric || structure.kind != StructureKind::box) return;
  for (const auto& visible : visible_edges(view, structure.points))
    for (const auto& piece : clip(visible, structures_window(scene, view, facing))) canvas.line(piece, edge);
}

namespace {

void draw_marks(const Canvas& canvas, const std::vector<std::array<Point3, 2>>& marks, const View& view,
                const Box& window) {
  for (const auto& [from, to] : marks) {
    const Paper a = view.of(from), b = view.of(to);
    if (!window.contains(a) || !window.contains(b)) continue;
    if (length(b - a) > 0)
      canvas.line({a, b}, edge);
    else
      canvas.circle(a, 0.2, {0, LineType::continuous, Layer::structure}, Fill::ink);
  }
}

}  // namespace

void draw_scan(const Canvas& canvas, const Scene& scene, const ScanSeen& scan, const View& view, Facing facing) {
  const Box window = structures_window(scene, view, facing);
  if (facing == Facing::section) draw_marks(canvas, scan.in_section, view, window);
  if (facing == Facing::elevation || facing == Facing::isometric) draw_marks(canvas, scan.in_elevation, view, window);
  if (facing == Facing::plan || facing == Facing::isometric) draw_marks(canvas, scan.in_plan, view, window);
}

}  // namespace fairlead::views
