#include "geometry/asbuilt/since.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/asbuilt/draws.hpp"

namespace fairlead {
namespace {

Vec3 in_frame(const Frame& frame, Vec3 v) { return {dot(v, frame.along), dot(v, frame.across), dot(v, frame.up)}; }

Vec3 of_both(Vec3 a, Vec3 b) { return {std::hypot(a.x, b.x), std::hypot(a.y, b.y), std::hypot(a.z, b.z)}; }

/// A number that is not known shows nothing and is no movement that was not shown either.
Moved judged(Vec3 by, Vec3 u) {
  const double off[] = {std::abs(by.x), std::abs(by.y), std::abs(by.z)}, of[] = {u.x, u.y, u.z};
  bool beyond = false, within = true;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    beyond = beyond || off[axis] > moved_beyond * of[axis];
    within = within && off[axis] <= moved_beyond * of[axis];
  }
  return beyond ? Moved::moved : within ? Moved::not_shown : Moved::not_believed;
}

const PlacedPoint* find(const Placing& placing, const std::string& id) {
  const auto found = std::ranges::find(placing.points, id, &PlacedPoint::id);
  return found == placing.points.end() ? nullptr : &*found;
}

}  // namespace

std::vector<Vec3> normal_vectors(std::uint64_t seed, std::uint64_t draw, std::size_t count) {
  std::vector<Vec3> out;
  for (std::size_t p = 0; p < count; ++p) {
    const auto normal = [&](std::uint64_t axis) { return standard_normal(seed, draw, 3 * p + axis); };
    out.push_back({normal(0), normal(1), normal(2)});
  }
  return out;
}

std::vector<Vec3> place_uncertainty_m(const Placing& placing, const Frame& frame, std::uint64_t seed) {
  constexpr int draws = 1000;
  const std::size_t points = placing.points.size();
  std::vector<Vec3> squares(points), u_m;
  for (int d = 0; d < draws; ++d) {
    const std::vector<Point3> at = places(
        placing, errors_m(placing, normal_vectors(seed, static_cast<std::uint64_t>(d), measured_places(placing))));
    for (std::size_t p = 0; p < points; ++p) {
      const Vec3 off = in_frame(frame, at[p] - placing.points[p].at);
      squares[p] += Vec3{off.x * off.x, off.y * off.y, off.z * off.z};
    }
  }
  for (const Vec3& sum : squares)
    u_m.push_back({std::sqrt(sum.x / draws), std::sqrt(sum.y / draws), std::sqrt(sum.z / draws)});
  return u_m;
}

Since moved_since(EarlierSurvey survey, Placing earlier, const Placing& later, const std::vector<Vec3>& uncertainty_m,
                  const Frame& frame, std::uint64_t seed) {
  Since since{
      .survey = std::move(survey), .placing = std::move(earlier), .movements = {}, .only_now = {}, .only_then = {}};
  const std::vector<Vec3> then_m = place_uncertainty_m(since.placing, frame, seed);
  const bool believed = later.doubt.empty() && since.placing.doubt.empty();
  for (std::size_t p = 0; p < later.points.size(); ++p) {
    const PlacedPoint& now = later.points[p];
    const PlacedPoint* then = find(since.placing, now.id);
    if (!then) {
      since.only_now.push_back(now.id);
      continue;
    }
    const auto at = static_cast<std::size_t>(then - since.placing.points.data());
    Movement one{.id = now.id,
                 .mark = now.mark,
                 .line = now.line,
                 .earlier_line = then->line,
                 .control = now.control,
                 .by_m = in_frame(frame, now.at - then->at),
                 .uncertainty_m = of_both(uncertainty_m[p], then_m[at])};
    if (believed) one.moved = judged(one.by_m, one.uncertainty_m);
    since.movements.push_back(std::move(one));
  }
  for (const PlacedPoint& then : since.placing.points)
    if (!find(later, then.id)) since.only_then.push_back(then.id);
  return since;
}

}  // namespace fairlead
