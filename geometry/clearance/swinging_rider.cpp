#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/clearance/blown.hpp"

namespace fairlead::clearance {
namespace {

/// Into how many steps a range of angles is cut, so that what turns at radius_m leaves the chords between them by no
/// more than bulge_m, unless that takes more than most_chords.
int steps_of(double range_rad, double radius_m, double bulge_m) {
  if (!(range_rad > 0)) return 1;
  const double widest = radius_m > bulge_m ? 2 * std::acos(1 - bulge_m / radius_m) : range_rad;
  return static_cast<int>(std::clamp(std::ceil(range_rad / widest), 1., double{most_chords}));
}

/// How far an arc leaves its chord.
double bulge_m(double turn_rad, double radius_m) { return radius_m * (1 - std::cos(turn_rad / 2)); }

/// Where the wind may have the rider's wheel at a pose, and how much farther aside than evenly from it to the next.
struct Aside {
  double aside_m{}, rise_m{}, over_m{};
};
Solved<std::vector<Aside>> asides_of(const Passage& passage) {
  std::vector<Aside> all(static_cast<std::size_t>(passage.poses));
  if (passage.wind == SideWind{}) return all;
  std::vector<mainline::Shape> shapes;
  std::vector<reeving::LineBetween> between;
  for (int i = 0; i < passage.poses; ++i) {
    const auto shape = main_line_at(passage, passage.pose(i), shapes.empty() ? nullptr : &shapes.back());
    if (!shape) return tl::unexpected(shape.error());
    if (i > 0) between.push_back(main_line_between(passage, i - 1, shapes.back(), *shape, {}));
    shapes.push_back(*shape);
  }
  const std::vector<Blown> blown = blown_along(passage, shapes, between);
  double before_m = 0;
  for (std::size_t i = 0; i < blown.size(); ++i) {
    const Vec3 wheel = passage.pose(static_cast<int>(i)).rider - passage.rig.origin;
    const double x_m = dot(wheel, passage.rig.along);
    all[i] = {blown[i].aside_m(x_m), blown[i].rise_m(x_m, dot(wheel, passage.rig.up))};
    if (i > 0) all[i - 1].over_m = BlownBetween(blown[i - 1], blown[i], between[i - 1]).over_m(before_m, x_m);
    before_m = x_m;
  }
  return all;
}

/// The same to both sides: what lies to the right counts to the left as well. None lies in the middle.
std::vector<Vec3> both_sides(std::vector<Vec3> corners) {
  constexpr double off_middle_m = 1e-6;
  for (Vec3& corner : corners)
    if (corner.y == 0) corner.y = off_middle_m;
  for (std::size_t i = 0, n = corners.size(); i < n; ++i) {
    const Vec3 other{corners[i].x, -corners[i].y, corners[i].z};
    if (std::find(corners.begin(), corners.end(), other) == corners.end()) corners.push_back(other);
  }
  return corners;
}

}  // namespace

Leans leans_at(const Passage& passage, int pose) {
  Leans all;
  if (passage.sweep.running == reeving::Running::at_rest || !passage.inputs.swing) return all;
  const Swing& swing = *passage.inputs.swing;
  const auto step_of = [&](int i) {
    const double travel_m = passage.pose(std::clamp(i, 0, passage.poses - 1)).travel_m;
    const double last = static_cast<double>(swing.leans.size()) - 1;
    return static_cast<std::size_t>(std::clamp(std::floor(travel_m / swing.step_m), 0., last));
  };
  for (std::size_t step = step_of(pose - 1); step <= step_of(pose + 1); ++step) {
    all.back_rad = std::min(all.back_rad, swing.leans[step].back_rad);
    all.forward_rad = std::max(all.forward_rad, swing.leans[step].forward_rad);
  }
  return all;
}

std::vector<Vec3> corners_of(const Envelope& reach) {
  if (!reach.corners.empty()) return reach.corners;
  std::vector<Vec3> corners(8);
  for (std::size_t i = 0; i < 8; ++i)
    corners[i] = {(i & 1 ? 0.5 : -0.5) * reach.length_m, (i & 2 ? 0.5 : -0.5) * reach.width_m,
                  i & 4 ? reach.above_m : -reach.below_m};
  return corners;
}

// First the lean sideways, about the line's direction, then the one along it. A hull holds two neighbouring leans along
// the line and all sideways: one of them all would reach far above a rider who leans forward. From pose to pose each
// lean turns on to that of the next; what lies between is within both ranges, but for the arc over its chord.
//
// Wind moves all of that aside, to both sides, and up. Of a hull that is alike to both sides a corner on the left is
// moved to the left alone: whatever direction to the right it would be farthest in, its mirror image is so farther.
// Leans to both sides are the same to the last digit, and one in the middle goes the way it leans, its image the other.
Solved<MovingHulls> swinging_rider(const Passage& passage) {
  const Swing swing = passage.inputs.swing.value_or(Swing{});
  const Envelope& reach = *passage.inputs.rider;
  const reeving::Inputs& rig = passage.rig;
  const auto asides = asides_of(passage);
  if (!asides) return tl::unexpected(asides.error());
  const bool windy = !(passage.wind == SideWind{});
  std::vector<Leans> leans;
  double widest_rad = 0;
  for (int i = 0; i < passage.poses; ++i) {
    leans.push_back(leans_at(passage, i));
    widest_rad = std::max(widest_rad, leans.back().forward_rad - leans.back().back_rad);
  }
  const std::vector<Vec3> upright = windy ? both_sides(corners_of(reach)) : corners_of(reach);
  double wide_m = 0, long_m = 0;
  for (const Vec3& corner : upright) wide_m = std::max(wide_m, std::hypot(corner.y, corner.z));
  for (const Vec3& corner : upright) long_m = std::max(long_m, std::hypot(corner.x, wide_m));
  const double most_m = chord_share * passage.inputs.resolution_m / 2,
               sideways_rad = swing.sideways_rad + passage.wind.lean_rad;
  const bool leans_at_all = widest_rad > 0;
  const int hulls = steps_of(widest_rad, long_m, most_m),
            sides = steps_of(2 * sideways_rad, wide_m, most_m) * (sideways_rad > 0);

  const auto lean_of = [&](int pose, int k) {
    const Leans& range = leans[static_cast<std::size_t>(pose)];
    return range.back_rad + (range.forward_rad - range.back_rad) * k / hulls;
  };
  std::vector<Vec3> corners;
  const auto add_leaning = [&](double lean, const Aside& wind) {
    for (int side = 0; side <= sides; ++side) {
      const double aside = sides > 0 ? sideways_rad * ((side - sides / 2.) / (sides / 2.)) : 0;
      for (const Vec3& c : upright) {
        const double y = c.y * std::cos(aside) - c.z * std::sin(aside),
                     z = c.y * std::sin(aside) + c.z * std::cos(aside);
        const Vec3 corner = (c.x * std::cos(lean) - z * std::sin(lean)) * rig.along +
                            (y + std::copysign(wind.aside_m, y != 0 ? y : aside)) * rig.across +
                            (c.x * std::sin(lean) + z * std::cos(lean)) * rig.up;
        corners.push_back(corner);
        if (windy) corners.push_back(corner + wind.rise_m * rig.up);
      }
    }
  };
  std::vector<Point3> at;
  std::vector<double> stray_m;
  for (int i = 0; i < passage.poses; ++i) {
    at.push_back(passage.pose(i).rider);
    for (int k = 0; k < hulls; ++k) {
      add_leaning(lean_of(i, k), (*asides)[static_cast<std::size_t>(i)]);
      if (leans_at_all) add_leaning(lean_of(i, k + 1), (*asides)[static_cast<std::size_t>(i)]);
    }
    if (i == 0) continue;
    double turn_rad = 0;
    for (int k = 0; k <= hulls; ++k) turn_rad = std::max(turn_rad, std::abs(lean_of(i, k) - lean_of(i - 1, k)));
    stray_m.push_back(passage.stray(i - 1).rider_m + bulge_m(turn_rad, long_m) +
                      (*asides)[static_cast<std::size_t>(i - 1)].over_m);
  }
  const int each = static_cast<int>(upright.size()) * (windy ? 2 : 1) * (leans_at_all ? 2 : 1);
  MovingHulls rider(hulls, (sides + 1) * each, std::move(corners), std::move(at));
  rider.radius_m = reach.margin_m;
  rider.slack_m = bulge_m(widest_rad / hulls, long_m);
  if (sides > 0) rider.slack_m += bulge_m(2 * sideways_rad / sides, wide_m);
  rider.stray_m = std::move(stray_m);
  return rider;
}

}  // namespace fairlead::clearance
