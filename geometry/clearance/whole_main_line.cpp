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
// pose; what they leave that way by is taken from their neighbours (bends_m), for the poses are many and the line goes
// with the wheels.
Solved<MovingHulls> whole_main_line(const WholeMainLine& ends, const Passage& passage) {
  const mainline::Cable& cable = passage.given.state.cable;
  const reeving::Inputs& rig = passage.rig;
  std::vector<Hung> poses;
  double per_m2 = 0;
  for (int i = 0; i < passage.poses; ++i) {
    const auto shape = main_line_at(passage, passage.pose(i), poses.empty() ? nullptr : &poses.back().shape);
    if (!shape) return tl::unexpected(shape.error());
    poses.emplace_back(passage, passage.pose(i), *shape, ends);
    per_m2 = greater(per_m2, std::hypot(bulge_per_m2(cable, *shape), poses.back().blown.bulge_per_m2()));
  }
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
  std::vector<std::vector<Vec3>> ways(static_cast<std::size_t>(all + 1));  // of each point: place, then aside and rise
  std::vector<std::vector<Vec3>> winds(windy ? ways.size() : 0);
  for (auto* each : {&ways, &winds})
    for (std::vector<Vec3>& way : *each) way.reserve(poses.size());
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
    for (std::size_t p = 0; p < points.size(); ++p) {
      ways[p].push_back(points[p].place);
      if (windy) winds[p].push_back({0, points[p].aside_m, points[p].rise_m});
    }
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
  line.stray_m.assign(poses.size() - 1, 0);
  for (std::size_t p = 0; p < ways.size(); ++p) {
    const std::vector<double> bend = bends_m(travels_m, ways[p]);
    const std::vector<double> blown = windy ? bends_m(travels_m, winds[p]) : std::vector<double>(bend.size());
    for (std::size_t i = 0; i < bend.size(); ++i) line.stray_m[i] = greater(line.stray_m[i], bend[i] + blown[i]);
  }
  return line;
}

}  // namespace fairlead::clearance
