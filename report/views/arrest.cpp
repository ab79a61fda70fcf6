#include "report/views/arrest.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/layout/rider_shape.hpp"
#include "report/views/detail.hpp"
#include "report/views/isometric.hpp"
#include "report/views/parts.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::views {

using namespace drawing;

View view_of(const Scene& scene, Facing facing, double scale, Paper at) {
  const Frame& frame = scene.rig->frame;
  View view;
  view.origin = scene.at(scene.from_m, 0, 0);
  view.scale = scale;
  if (facing == Facing::isometric) {
    const auto [right, up] = isometric_axes(scene);
    view.name = "isometric";
    view.right = right;
    view.up = up;
    const Box here = extent(scene, view, facing);
    view.at = at - Paper{here.left, here.bottom};
    return view;
  }
  view.name = facing == Facing::elevation ? "elevation" : "plan";
  view.right = frame.along;
  view.up = facing == Facing::elevation ? frame.up : frame.across;
  const Box here = extent(scene, view, facing);
  view.at = {at.x_mm, at.y_mm - here.bottom};
  return view;
}

namespace {

constexpr double platform_overhang_m = 0.6;

Pen pen(double width_mm, Layer layer, LineType type = LineType::continuous) { return {width_mm, type, layer}; }

std::vector<Paper> seen(const View& view, const Curve3& curve) {
  std::vector<Paper> path;
  for (const Point3& p : curve) path.push_back(view.of(p));
  return path;
}

/// Half the width of platform that the plan shows: the layout gives none.
double platform_half_m(const Layout& layout) {
  const auto rider = shape_of(layout.riders);
  return (rider ? 0.5 * box_around(*rider).width_m : 1) + platform_overhang_m;
}

void draw_platform(const Canvas& canvas, const Scene& scene, const View& view, Facing facing) {
  const auto platform = platform_of(scene);
  if (!platform) return;
  std::vector<Paper> corners;
  for (const Point3& corner : *platform) corners.push_back(view.of(corner));
  const Paper a = corners[0], b = corners[1];
  if (facing == Facing::isometric) {
    canvas.outline(std::move(corners), pen(narrow_mm, Layer::structure));
    return;
  }
  if (facing == Facing::elevation) {
    canvas.line({a, b}, pen(wide_mm, Layer::structure));
    hatch_below(canvas, a, b, Layer::structure);
    return;
  }
  canvas.line({a, corners[3]}, pen(narrow_mm, Layer::structure));
  canvas.line({b, corners[2]}, pen(narrow_mm, Layer::structure));
}

/// A line's legs, and its wraps where they are more than a pen's width from straight.
void draw_line(const Canvas& canvas, const View& view, const LineSeen& line, Pen pen) {
  for (const Curve3& leg : line.legs) canvas.line(simplified(seen(view, leg)), pen);
  for (const Curve3& wrap : line.wraps) {
    const auto path = simplified(seen(view, wrap));
    const Box box = bounds(path);
    if (std::max(box.width(), box.height()) > 4 * pen.width_mm) canvas.line(path, pen);
  }
}

/// Lines under the blocks and sheaves they run to; wraps on top, where they lie in the grooves.
void draw_pose(const Canvas& canvas, const View& view, const RigPose& pose, bool standing) {
  const Pen main_line =
      standing ? pen(extra_mm, Layer::main_line) : pen(narrow_mm, Layer::main_line, LineType::dash_double_dot);
  if (!pose.main_line.empty()) canvas.line(seen(view, pose.main_line), main_line);
  const Pen block =
      standing ? pen(medium_mm, Layer::sheaves) : pen(narrow_mm, Layer::sheaves, LineType::dash_double_dot);
  for (const BlockSeen& b : pose.blocks) draw_block(canvas, view, b, block);
  for (const SheaveSeen& s : pose.sheaves) draw_sheave(canvas, view, s, standing ? sheave_pen : extreme_sheave_pen);
  for (const LineSeen& line : pose.lines)
    draw_line(canvas, view, line, standing ? standing_pen(line.role) : extreme_pen(line.role));
  for (const DeadEnd& end : pose.dead_ends)
    draw_dead_end(canvas, view.of(end.at), layer_of(pose.lines[static_cast<std::size_t>(end.line)].role));
}

void draw_break(const Canvas& canvas, const Scene& scene, const View& view) {
  if (!scene.rest || scene.rest->main_line.size() < 2 || scene.from_m <= scene.rig->frame.chainage_of_origin_m) return;
  const Paper at = view.of(scene.rest->main_line[0]), next = view.of(scene.rest->main_line[1]);
  break_mark(canvas, at, std::atan2(next.y_mm - at.y_mm, next.x_mm - at.x_mm), Layer::main_line);
}

void draw_trolleys(const Canvas& canvas, const Scene& scene, const View& view, Facing facing) {
  const auto trolley = [&](const RigPose& pose, Pen with) {
    draw_trolley(canvas, view.of(pose.trolley.wheel), view.of(pose.trolley.attachment), facing, with);
  };
  if (scene.full) trolley(*scene.full, pen(narrow_mm, Layer::braking_line, LineType::dashed));
  if (scene.rest) trolley(*scene.rest, pen(wide_mm, Layer::braking_line));
}

/// Of a part only what lies within its chainages.
void add_shown(const Scene& scene, const View& view, std::vector<Paper> path, std::vector<Paper>& all) {
  if (!scene.is_part()) {
    all.insert(all.end(), path.begin(), path.end());
    return;
  }
  const Box window = part_window(scene, view);
  if (path.size() == 1 && window.contains(path.front())) all.push_back(path.front());
  for (const auto& piece : clip(path, window)) all.insert(all.end(), piece.begin(), piece.end());
}

}  // namespace

Box extent(const Scene& scene, const View& view, Facing facing) {
  std::vector<Paper> all;
  const auto add = [&](const Curve3& curve) { add_shown(scene, view, seen(view, curve), all); };
  add({scene.rig->layout.brake_unit.outlet});
  for (const auto* pose : {&scene.rest, &scene.full})
    if (*pose) {
      add((*pose)->main_line);
      for (const LineSeen& line : (*pose)->lines)
        for (const Curve3& leg : line.legs) add(leg);
      for (const BlockSeen& block : (*pose)->blocks) add(block.body);
    }
  for (const StructureSeen& structure : scene.structures)
    for (const auto& piece : structure_outline(scene, structure, view, facing))
      all.insert(all.end(), piece.begin(), piece.end());
  for (const CableSeen& cable : scene.cables) add(cable.curve);
  for (const SheaveSeen& s : scene.sheaves) add({s.centre});
  for (const SheaveSeen& s : scene.ghosts) add({s.centre});
  if (scene.surroundings)
    for (const MemberSeen& m : scene.members) add({seen_end(m, facing)});
  for (const AnchorSeen& a : scene.anchors) {
    add({a.position});
    if (shows_load(scene.rig->frame, a, facing))
      add_shown(scene, view, {force_tail(view, a.position, a.governing_N, force_arrow_mm)}, all);
  }
  for (const auto* rider : {&scene.rider_under_redirect, &scene.rider_at_contact})
    if (*rider) add((*rider)->corners(scene.rig->frame));
  if (facing == Facing::isometric) add(ground_of(scene).corners());
  if (const auto platform = platform_of(scene))
    add(facing == Facing::elevation ? Curve3{(*platform)[0], (*platform)[1]}
                                    : Curve3{platform->begin(), platform->end()});
  // A part may show nothing but where its lines would be.
  if (all.empty()) all.push_back(view.of(scene.at(scene.from_m, 0, scene.rig->layout.brake_unit.outlet.value.z)));
  Box box = bounds(all).grown(2.5);
  if (facing == Facing::isometric) return box;
  // A plan of a rig in one plane is a line: names and the site's axes need room beside it all the same.
  constexpr double least_plan_mm = 22;
  if (const double lacks = least_plan_mm - box.height(); facing == Facing::plan && lacks > 0) {
    box.bottom -= lacks / 2;
    box.top += lacks / 2;
  }
  // The sides are the chainages shown, whatever is drawn at them, so that both views share x.
  box.left = view.of(scene.at(scene.from_m, 0, 0)).x_mm;
  box.right = view.of(scene.at(scene.to_m, 0, 0)).x_mm;
  return box;
}

std::optional<std::array<Point3, 4>> platform_of(const Scene& scene) {
  const auto& landing = scene.rig->layout.landing;
  if (!landing || !scene.surroundings) return std::nullopt;
  const double half = platform_half_m(scene.rig->layout), z = landing->platform_level_m;
  return std::array{scene.at(landing->platform_from_m, -half, z), scene.at(landing->platform_to_m, -half, z),
                    scene.at(landing->platform_to_m, half, z), scene.at(landing->platform_from_m, half, z)};
}

namespace {

void draw_whole_rig(const Canvas& canvas, const Scene& scene, const View& view, Facing facing) {
  const Layout& layout = scene.rig->layout;
  for (const StructureSeen& structure : scene.structures) draw_structure(canvas, scene, structure, view, facing);
  for (const ScanSeen& scan : scene.scans) draw_scan(canvas, scene, scan, view, facing);
  draw_platform(canvas, scene, view, facing);
  for (const auto* rider : {&scene.rider_under_redirect, &scene.rider_at_contact})
    if (*rider) draw_rider(canvas, scene.rig->frame, view, **rider, layout.riders.hanging_length_m, facing);
  if (scene.surroundings)
    for (const MemberSeen& m : scene.members) draw_member(canvas, view, m, facing);
  for (const SheaveSeen& s : scene.ghosts) draw_sheave(canvas, view, s, ghost_pen);
  for (const SheaveSeen& s : scene.sheaves) draw_sheave(canvas, view, s, sheave_pen);
  for (const CableSeen& cable : scene.cables) canvas.line(seen(view, cable.curve), pen(wide_mm, Layer::main_line));
  if (scene.full) draw_pose(canvas, view, *scene.full, false);
  if (scene.rest) draw_pose(canvas, view, *scene.rest, true);
  draw_break(canvas, scene, view);
  if (layout.backup_brake && scene.rest && scene.surroundings)
    if (const auto at = scene.on_main_line(*scene.rest, layout.backup_brake->engages_m))
      draw_backup_brake(canvas, view.of(*at));
  draw_trolleys(canvas, scene, view, facing);
  const Vec3 axis = unit(layout.brake_unit.axis);
  draw_unit(canvas, view.of(layout.brake_unit.outlet), {fairlead::dot(axis, view.right), fairlead::dot(axis, view.up)});
  for (const AnchorSeen& a : scene.anchors) {
    if (shows_load(scene.rig->frame, a, facing))
      force_arrow(canvas, view, a.position, a.governing_N, force_arrow_mm, anchor_radius_mm);
    draw_anchor(canvas, view.of(a.position));
  }
}

}  // namespace

void draw_rig(const Canvas& canvas, const Scene& scene, const View& view, Facing facing) {
  if (!scene.is_part()) return draw_whole_rig(canvas, scene, view, facing);
  Drawing whole;
  draw_whole_rig(Canvas(whole, canvas.font()), scene, view, facing);
  draw_clipped(canvas, whole, part_window(scene, view));
}

BarUnit bar_unit(const Style& style) { return words::one_of(style) == Units::us ? BarUnit{"ft", 0.3048} : BarUnit{}; }

std::vector<ChainageTick> chainage_ticks(const Scene& scene, double mm_per_m, const Style& style) {
  struct Step {
    double figure, tick;  ///< in units
  };
  constexpr Step steps[] = {{1, 0.2}, {2, 1}, {5, 1}, {10, 2}, {20, 5}, {50, 10}, {100, 20}};
  constexpr double least_mm = 14;
  const BarUnit unit = bar_unit(style);
  const auto* step = std::find_if(std::begin(steps), std::end(steps) - 1,
                                  [&](const Step& s) { return s.figure * mm_per_m * unit.metres >= least_mm; });
  const int ratio = static_cast<int>(std::lround(step->figure / step->tick));
  const int first = static_cast<int>(std::ceil(scene.from_m / unit.metres / step->tick)),
            last = static_cast<int>(std::floor(scene.to_m / unit.metres / step->tick));
  std::vector<ChainageTick> ticks;
  for (int i = first; i <= last; ++i) {
    const double units = i * step->tick;
    ticks.push_back({units * unit.metres,
                     i % ratio == 0 ? fmt::format("CH {:g}{}", units, unit.metres == 1 ? "" : "'") : std::string()});
  }
  return ticks;
}

void draw_chainages(const Canvas& canvas, const Scene& scene, const View& view, double y_mm, const Style& style) {
  const Pen rule = pen(narrow_mm, Layer::grid);
  const auto x_of = [&](double chainage_m) { return view.of(scene.at(chainage_m, 0, 0)).x_mm; };
  const double left = x_of(scene.from_m), right = x_of(scene.to_m);
  canvas.line({{left, y_mm}, {right, y_mm}}, rule);
  for (const auto& [chainage_m, figure] : chainage_ticks(scene, view.mm_per_m(), style)) {
    const double x = x_of(chainage_m);
    canvas.line({{x, y_mm}, {x, y_mm - (figure.empty() ? 1.2 : 2.2)}}, rule);
    const double half = canvas.width(figure, small_cap_mm) / 2;
    if (!figure.empty() && x - half >= left && x + half <= right)
      canvas.text({x, y_mm - 3 - small_cap_mm}, figure, small_cap_mm, Layer::grid, Align::centre);
  }
}

}  // namespace fairlead::views
