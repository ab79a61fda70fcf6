// The main line from support to support, in still air and wherever the wind may have it.
#include <algorithm>
#include <cmath>

#include "geometry/clearance/blown.hpp"

namespace fairlead::clearance {
namespace {

constexpr std::size_t parts = 3;  // to the rider, to the trolley, to the end support

/// One pose: the line's ends and wheels, and the line between.
struct Hung {
  mainline::Shape shape;
  Blown blown;
  std::array<double, parts + 1> ends_m;  ///< along from the start support

  Hung(const Passage& passage, const reeving::Pose& pose, const mainline::Shape& hung, const WholeMainLine& ends)
      : shape(hung), blown(passage, pose, hung) {
    const auto x = [&](Point3 p) { return dot(p - passage.rig.origin, passage.rig.along); };
    const double span_m = passage.given.state.cable.span_m, tied_m = passage.inputs.meeting_m, rider_m = x(pose.rider),
                 trolley_m = x(pose.trolley);
    // A wheel nearer to the support than what is left out there leaves out half of its way.
    ends_m = {ends.tied_at_start ? std::min(tied_m, rider_m / 2) : 0, rider_m, trolley_m,
              ends.tied_at_end ? std::max(span_m - tied_m, (span_m + trolley_m) / 2) : span_m};
  }
};

/// A point of the line, and where the wind may have it.
struct Corner {
  Vec3 place;
  double aside_m, rise_m;
};

}  // namespace

// Every chord is a hull: of its two ends, each in a rectangle across the line. Its corners run straight from pose to
// pose. What the line in still air leaves that way by is proven (reeving/line_between.hpp); what the rectangles do is
// taken from their neighbours (bends_m).
Solved<MovingHulls> whole_main_line(const WholeMainLine& ends, const Passage& passage) {
  const mainline::Cable& cable = passage.given.state.cable;
  const reeving::Inputs& rig = passage.rig;
  std::vector<Hung> poses;
  std::vector<double> stray_m;
  double still_per_m2 = 0, blown_per_m2 = 0;
  for (int i = 0; i < passage.poses; ++i) {
    const auto shape = main_line_at(passage, passage.pose(i), poses.empty() ? nullptr : &poses.back().shape);
    if (!shape) return tl::unexpected(shape.error());
    poses.emplace_back(passage, passage.pose(i), *shape, ends);
    const Hung& here = poses.back();
    still_per_m2 = greater(still_per_m2, bulge_per_m2(cable, *shape));
    blown_per_m2 = greater(blown_per_m2, here.blown.bulge_per_m2());
    if (i == 0) continue;
    const Hung& before = poses[poses.size() - 2];
    const auto between = main_line_between(passage, i - 1, before.shape, here.shape,
                                           {{before.ends_m.front(), here.ends_m.front()},
                                            {cable.span_m - before.ends_m.back(), cable.span_m - here.ends_m.back()}});
    stray_m.push_back(between.stray_m);
    if (std::isfinite(between.stray_m)) still_per_m2 = greater(still_per_m2, between.bulge_per_m2);
  }
  const double per_m2 = std::hypot(still_per_m2, blown_per_m2);
  std::array<double, parts> reach_m{};
  for (const Hung& hung : poses)
    for (std::size_t k = 0; k < parts; ++k) reach_m[k] = greater(reach_m[k], hung.ends_m[k + 1] - hung.ends_m[k]);
  std::array<int, parts> chords{};
  double slack_m = 0;
  int all = 0;
  for (std::size_t k = 0; k < parts; ++k) {
    const double bulge_m = per_m2 * reach_m[k] * reach_m[k];
    chords[k] = chords_for(bulge_m, passage.inputs);
    slack_m = greater(slack_m, bulge_m / (chords[k] * chords[k]));
    all += chords[k];
  }

  const bool windy = !(passage.wind == SideWind{});
  std::vector<Vec3> corners;
  std::vector<Point3> at;
  std::vector<std::vector<Vec3>> winds(windy ? static_cast<std::size_t>(all + 1) : 0);  // of each point: aside and rise
  for (std::vector<Vec3>& way : winds) way.reserve(poses.size());
  corners.reserve(poses.size() * static_cast<std::size_t>(all) * (windy ? 8 : 2));
  std::vector<double> travels_m;
  std::vector<Corner> points;
  for (std::size_t i = 0; i < poses.size(); ++i) {
    const Hung& hung = poses[i];
    travels_m.push_back(passage.pose(static_cast<int>(i)).travel_m);
    points.clear();
    const auto add = [&](double x_m) {
      const double z_m = mainline::line_at(cable, hung.shape, x_m).z_m;
      points.push_back({x_m * rig.along + z_m * rig.up, hung.blown.aside_m(x_m), hung.blown.rise_m(x_m, z_m)});
    };
    add(hung.ends_m[0]);
    for (std::size_t k = 0; k < parts; ++k)
      for (int n = 1; n <= chords[k]; ++n)
        add(n == chords[k] ? hung.ends_m[k + 1]
                           : hung.ends_m[k] + n * (hung.ends_m[k + 1] - hung.ends_m[k]) / chords[k]);
    for (std::size_t p = 0; p < winds.size(); ++p) winds[p].push_back({0, points[p].aside_m, points[p].rise_m});
    at.push_back(rig.origin);
    for (std::size_t p = 0; p + 1 < points.size(); ++p)
      for (const Corner* c : {&points[p], &points[p + 1]}) {
        if (!windy) {
          corners.push_back(c->place);
          continue;
        }
        for (const double side : {-1., 1.})
          for (const double rise : {0., c->rise_m})
            corners.push_back(c->place + side * c->aside_m * rig.across + rise * rig.up);
      }
  }
  MovingHulls line(all, windy ? 8 : 2, std::move(corners), std::move(at));
  line.radius_m = passage.inputs.main_line_radius_m;
  line.slack_m = slack_m;
  std::vector<double> blown_m(stray_m.size(), 0);
  for (const std::vector<Vec3>& way : winds) {
    const std::vector<double> bend = bends_m(travels_m, way);
    for (std::size_t i = 0; i < blown_m.size(); ++i) blown_m[i] = greater(blown_m[i], bend[i]);
  }
  for (std::size_t i = 0; i < stray_m.size(); ++i) stray_m[i] += blown_m[i];
  line.stray_m = std::move(stray_m);
  return line;
}

}  // namespace fairlead::clearance
