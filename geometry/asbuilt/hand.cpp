#include "geometry/asbuilt/hand.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace fairlead {
namespace {

struct ReadWay {
  Vec3 read, drawn;
  bool either_end{};
};

std::vector<ReadWay> bearings(const std::vector<Characteristic>& all, const std::vector<MeasuredValue>& read) {
  std::vector<ReadWay> found;
  for (const MeasuredValue& value : read) {
    const Characteristic& one = all.at(static_cast<std::size_t>(value.characteristic));
    if (!one.drawn) continue;
    const Vec3 is = direction_of(value.value.at(0), value.value.at(1)), drawn = unit(*one.drawn);
    // What stands nearly plumb has no bearing to speak of.
    constexpr double level_share = 0.5;
    if (std::hypot(drawn.x, drawn.y) > level_share && std::hypot(is.x, is.y) > level_share)
      found.push_back({is, drawn, one.either_end});
  }
  return found;
}

/// In plan.
bool astray(const RigidMotion& motion, const ReadWay& bearing) {
  const Vec3 way = motion.turned(bearing.read);
  const double along = way.x * bearing.drawn.x + way.y * bearing.drawn.y;
  const double across = way.x * bearing.drawn.y - way.y * bearing.drawn.x;
  const double off_rad = std::atan2(std::abs(across), bearing.either_end ? std::abs(along) : along);
  return !(off_rad <= astray_rad);
}

/// The fit of the control points as another hand would have written them.
Solved<Fit> fit_of(const Placing& placing, Point3 (*mirror)(Point3)) {
  std::vector<FitPair> pairs;
  for (const int c : placing.control) {
    const PlacedPoint& point = placing.points.at(static_cast<std::size_t>(c));
    pairs.push_back({mirror(point.measured), point.design});
  }
  return best_fit(pairs, placing.terms.kind);
}

constexpr Point3 (*mirrors[])(Point3) = {[](Point3 p) {
                                           return Point3{p.y, p.x, p.z};
                                         },
                                         [](Point3 p) {
                                           return Point3{-p.x, p.y, p.z};
                                         },
                                         [](Point3 p) {
                                           return Point3{p.x, -p.y, p.z};
                                         },
                                         [](Point3 p) {
                                           return Point3{-p.y, -p.x, p.z};
                                         }};

}  // namespace

bool same_axes(const Placing& a, const Placing& b) {
  constexpr double near_m = 0.5;
  bool near = true, swapped_is_far = false;
  for (const PlacedPoint& one : a.points) {
    const auto other = std::ranges::find(b.points, one.id, &PlacedPoint::id);
    if (other == b.points.end() || !one.shot || !other->shot) continue;
    near = near && norm(one.measured - other->measured) <= near_m;
    swapped_is_far = swapped_is_far || norm(mirrors[0](one.measured) - other->measured) > near_m;
  }
  return near && swapped_is_far;
}

std::string hand_in_doubt(const Placing& placing, const std::vector<Characteristic>& all,
                          const std::vector<MeasuredValue>& read) {
  if (placing.hand_told) return {};
  std::string doubt = fmt::format(
      "the control points stand in one {}plane: with northing and easting swapped they would fit as well, with left "
      "for "
      "right, and no bearing tells; name one that stands aside",
      placing.terms.kind == FitKind::levelled ? "plumb " : "");
  if (!placing.fit)
    return "the points would lie on the layout as well with northing and easting swapped: name control points of which "
           "one stands aside";
  const std::vector<ReadWay> found = bearings(all, read);
  if (found.empty() || std::ranges::any_of(found, [&](const ReadWay& b) { return astray(placing.fit->motion, b); }))
    return doubt;
  for (const auto& mirror : mirrors) {
    const auto fit = fit_of(placing, mirror);
    if (!fit || std::ranges::none_of(found, [&](const ReadWay& b) { return astray(fit->motion, b); })) return doubt;
  }
  return {};
}

}  // namespace fairlead
