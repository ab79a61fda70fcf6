// The main line from support to support, in still air and wherever the wind may have it.
#include <algorithm>
#include <cmath>

#include "geometry/clearance/blown.hpp"

namespace fairlead::clearance {
namespace {

constexpr std::size_t parts = 3;  // to the rider, to the trolley, to the end support

using PerPart = std::array<double, parts>;

/// The line's ends and wheels at one pose, along from the start support.
using Ends = std::array<double, parts + 1>;
Ends ends_of(const Passage& passage, const reeving::Pose& pose, const WholeMainLine& tied) {
  const auto x = [&](Point3 p) { return dot(p - passage.rig.origin, passage.rig.along); };
  const double span_m = passage.given.state.cable.span_m, tied_m = passage.inputs.meeting_m, rider_m = x(pose.rider),
               trolley_m = x(pose.trolley);
  // A wheel nearer to the support than what is left out there leaves out half of its way.
  return {tied.tied_at_start ? std::min(tied_m, rider_m / 2) : 0, rider_m, trolley_m,
          tied.tied_at_end ? std::max(span_m - tied_m, (span_m + trolley_m) / 2) : span_m};
}

}  // namespace

// Every chord is a hull: of its two ends, each in a rectangle across the line. Its corners run straight from pose to
// pose. What leaves that way is proven: of the line in still air by reeving/line_between.hpp, of the rectangles, square
// to it, by blown.hpp.
Solved<MovingHulls> whole_main_line(const WholeMainLine& tied, const Passage& passage) {
  const mainline::Cable& cable = passage.given.state.cable;
  const reeving::Inputs& rig = passage.rig;
  const bool windy = !(passage.wind == SideWind{});
  std::vector<mainline::Shape> shapes;
  std::vector<reeving::LineBetween> between;
  std::vector<Ends> ends;
  double still_per_m2 = 0, blown_per_m2 = 0;
  PerPart reach_m{};
  for (int i = 0; i < passage.poses; ++i) {
    const auto shape = main_line_at(passage, passage.pose(i), shapes.empty() ? nullptr : &shapes.back());
    if (!shape) return tl::unexpected(shape.error());
    shapes.push_back(*shape);
    ends.push_back(ends_of(passage, passage.pose(i), tied));
    still_per_m2 = greater(still_per_m2, bulge_per_m2(cable, *shape));
    const Ends& here = ends.back();
    for (std::size_t k = 0; k < parts; ++k) reach_m[k] = greater(reach_m[k], here[k + 1] - here[k]);
    if (i == 0) continue;
    const Ends& before = *(ends.end() - 2);
    between.push_back(main_line_between(
        passage, i - 1, *(shapes.end() - 2), *shape,
        {{before.front(), here.front()}, {cable.span_m - before.back(), cable.span_m - here.back()}}));
    if (std::isfinite(between.back().stray_m)) still_per_m2 = greater(still_per_m2, between.back().bulge_per_m2);
  }
  std::vector<Blown> blown;
  std::vector<BlownBetween> blown_between;
  if (windy) blown = blown_along(passage, shapes, between);
  for (std::size_t i = 0; i + 1 < blown.size(); ++i) {
    blown_between.emplace_back(blown[i], blown[i + 1], between[i]);
    if (std::isfinite(between[i].stray_m)) blown_per_m2 = greater(blown_per_m2, blown_between[i].bulge_per_m2());
  }
  const double per_m2 = std::hypot(still_per_m2, blown_per_m2);
  std::array<int, parts> chords{};
  double slack_m = 0;
  int all = 0;
  for (std::size_t k = 0; k < parts; ++k) {
    const double bulge_m = per_m2 * reach_m[k] * reach_m[k];
    chords[k] = chords_for(bulge_m, passage.inputs);
    slack_m = greater(slack_m, bulge_m / (chords[k] * chords[k]));
    all += chords[k];
  }

  const std::ptrdiff_t around = windy ? 4 : 1;  // corners of what holds a point
  std::vector<Vec3> corners, held;
  corners.reserve(shapes.size() * static_cast<std::size_t>(2 * around * all));
  std::vector<double> stray_m, before_m, points_m;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    held.clear();
    points_m.clear();
    const auto add = [&](double x_m) {
      points_m.push_back(x_m);
      const double z_m = mainline::line_at(cable, shapes[i], x_m).z_m;
      const Vec3 place = x_m * rig.along + z_m * rig.up;
      if (!windy) return held.push_back(place);
      for (const double side : {-1., 1.})
        for (const double rise_m : {0., blown[i].rise_m(x_m, z_m)})
          held.push_back(place + side * blown[i].aside_m(x_m) * rig.across + rise_m * rig.up);
    };
    add(ends[i].front());
    for (std::size_t k = 0; k < parts; ++k) {
      const double part_m = ends[i][k + 1] - ends[i][k];
      for (int n = 1; n < chords[k]; ++n) add(ends[i][k] + n * part_m / chords[k]);
      add(ends[i][k + 1]);
    }
    for (auto first = held.begin(); first + around != held.end(); first += around)
      corners.insert(corners.end(), first, first + 2 * around);
    if (i > 0) {
      double over_m = 0;
      for (std::size_t p = 0; windy && p < points_m.size(); ++p)
        over_m = greater(over_m, blown_between[i - 1].over_m(before_m[p], points_m[p]));
      stray_m.push_back(std::hypot(between[i - 1].stray_m, over_m));
    }
    std::swap(before_m, points_m);
  }
  MovingHulls line(all, static_cast<int>(2 * around), std::move(corners),
                   std::vector<Point3>(shapes.size(), rig.origin));
  line.radius_m = passage.inputs.main_line_radius_m;
  line.slack_m = slack_m;
  line.stray_m = std::move(stray_m);
  return line;
}

}  // namespace fairlead::clearance
