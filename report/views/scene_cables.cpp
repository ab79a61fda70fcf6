// The cables that no rider of the arrest system rolls on: parallel lines, and the main line behind its saddles.
#include "geometry/mainline/cable.hpp"
#include "report/views/scene_parts.hpp"

namespace fairlead::views {
namespace {

constexpr int pieces = 200;  // of a whole line: a metre of a long one

/// The points of a cable within the chainages shown; `height_m` is above its beginning, by the share of its
/// length in plan.
template <class Height>
Curve3 shown(const Scene& scene, Point3 from, Point3 to, Height height_m) {
  Curve3 curve;
  for (int i = 0; i <= pieces; ++i) {
    const double share = static_cast<double>(i) / pieces;
    Point3 p = from + share * (to - from);
    p.z = from.z + height_m(share);
    const double chainage_m = scene.rig->frame.chainage_m(p);
    if (chainage_m >= scene.from_m && chainage_m <= scene.to_m) curve.push_back(p);
  }
  return curve;
}

void see(Scene& scene, std::string name, double diameter_m, Curve3 curve) {
  if (curve.size() > 1) scene.cables.push_back({std::move(name), diameter_m, std::move(curve)});
}

}  // namespace

void see_cables(const Rig& rig, int state, Scene& scene) {
  const auto at = [&](AnchorId id) -> Point3 { return rig.layout.anchors[static_cast<std::size_t>(id)].position; };
  for (std::size_t i = 0; rig.loads.inputs && i < rig.layout.parallel_lines.size(); ++i) {
    const ParallelLine& line = rig.layout.parallel_lines[i];
    const mainline::Cable& cable = rig.loads.inputs->beside[i].in_state[static_cast<std::size_t>(state)];
    const auto shape = mainline::hang(cable);
    if (!shape) continue;
    see(scene, "Parallel line " + line.id.value, line.diameter_m,
        shown(scene, at(line.from), at(line.to),
              [&](double share) { return mainline::line_at(cable, *shape, share * cable.span_m).z_m; }));
  }
  // Taut behind its saddle, it is drawn straight.
  const MainLine& line = rig.layout.main_line;
  for (const auto& [support, back] :
       {std::pair{line.from, line.from_back_anchor}, std::pair{line.to, line.to_back_anchor}}) {
    if (!back) continue;
    const Point3 from = at(support), to = at(*back);
    see(scene, "Main line to anchor " + rig.layout.anchors[static_cast<std::size_t>(*back)].id.value, line.diameter_m,
        shown(scene, from, to, [&](double share) { return share * (to.z - from.z); }));
  }
}

}  // namespace fairlead::views
