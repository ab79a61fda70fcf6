#include "geometry/studies/set_out_points.hpp"

#include <set>

#include "geometry/studies/line_offsets.hpp"

namespace fairlead {
namespace {

class Points {
 public:
  void add(Item::Kind kind, std::size_t index, Mark mark, std::string id, std::optional<Point3> at) {
    // An author may name an anchor "unit"; a points file holds each name once.
    while (!taken_.insert(id).second) id += '\'';
    points_.push_back({{kind, static_cast<int>(index)}, mark, std::move(id), at});
  }
  std::vector<SetOutPoint> take() { return std::move(points_); }

 private:
  std::set<std::string> taken_;
  std::vector<SetOutPoint> points_;
};

std::optional<Point3> rest_mark(const Rig& rig) {
  const Frame& frame = rig.frame;
  const Point3 level = frame.origin + (rig.layout.brake_trolley.rest_m - frame.chainage_of_origin_m) * frame.along;
  const auto offset = offset_from_line(rig, level);
  if (!offset) return std::nullopt;
  return level - offset->up_m * frame.up;
}

}  // namespace

std::vector<SetOutPoint> set_out_points(const Rig& rig) {
  std::vector<SetOutPoint> points = set_out_points(rig.layout);
  points.back().at = rest_mark(rig);
  return points;
}

std::vector<SetOutPoint> set_out_points(const Layout& layout) {
  using Kind = Item::Kind;
  Points points;
  for (std::size_t a = 0; a < layout.anchors.size(); ++a)
    points.add(Kind::anchor, a, Mark::bearing_point, layout.anchors[a].id, layout.anchors[a].position.value);
  for (std::size_t s = 0; s < layout.sheaves.size(); ++s) {
    const Sheave& sheave = layout.sheaves[s];
    if (sheave.mount == Mount::fixed && sheave.position)
      points.add(Kind::sheave, s, Mark::axle_centre, sheave.id, sheave.position->value);
    if (sheave.mount == Mount::swivel && sheave.swivel_at)
      points.add(Kind::sheave, s, Mark::swivel_eye, sheave.id, sheave.swivel_at->value);
  }
  for (std::size_t m = 0; m < layout.members.size(); ++m)
    points.add(Kind::member, m, Mark::foot, layout.members[m].id, layout.members[m].to.value);
  for (std::size_t a = 0; a < layout.anchors.size(); ++a)
    if (layout.anchors[a].base)
      points.add(Kind::anchor, a, Mark::base, layout.anchors[a].id.value + "-base", layout.anchors[a].base->value);
  points.add(Kind::brake_unit, 0, Mark::outlet, "unit", layout.brake_unit.outlet.value);
  points.add(Kind::brake_trolley, 0, Mark::rest_mark, "rest", std::nullopt);
  return points.take();
}

Layout moved(Layout layout, const SetOutPoint& point, const Frame& frame, Vec3 by_m) {
  const auto index = static_cast<std::size_t>(point.item.index);
  const auto move = [&](Given<Point3>& place) { place.value = place.value + by_m; };
  switch (point.mark) {
    case Mark::bearing_point: {
      // Chainages are counted from the main line's start only where nothing else was said.
      const auto start = static_cast<std::size_t>(layout.main_line.from);
      if (index == start && !layout.site.chainage_zero)
        layout.site.chainage_zero = Given<Point3>{layout.anchors[start].position.value, {}};
      move(layout.anchors.at(index).position);
      for (Sheave& sheave : layout.sheaves)
        if (sheave.on == Carrier{static_cast<AnchorId>(index)} && sheave.mount == Mount::swivel && !sheave.swivel_at)
          move(*sheave.position);
      break;
    }
    case Mark::base:
      move(*layout.anchors.at(index).base);
      break;
    case Mark::axle_centre:
      move(*layout.sheaves.at(index).position);
      break;
    case Mark::swivel_eye:
      move(*layout.sheaves.at(index).swivel_at);
      move(*layout.sheaves.at(index).position);
      break;
    case Mark::foot:
      move(layout.members.at(index).to);
      break;
    case Mark::outlet:
      move(layout.brake_unit.outlet);
      break;
    case Mark::rest_mark:
      layout.brake_trolley.rest_m.value += dot(by_m, frame.along);
      break;
  }
  return layout;
}

}  // namespace fairlead
