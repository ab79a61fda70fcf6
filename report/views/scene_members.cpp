// What holds built-up anchors, as far as the views go.
#include <algorithm>
#include <array>
#include <initializer_list>

#include "report/views/scene_parts.hpp"

namespace fairlead::views {
namespace {

using Place3 = std::array<double, 3>;  // along, across and up
constexpr std::size_t along = 0, across = 1, up = 2;

struct Shown {
  Place3 low, high;

  double beyond(const Place3& p, std::size_t i) const { return std::max(low[i] - p[i], p[i] - high[i]); }
  void take(const Place3& p, std::size_t i) { low[i] = std::min(low[i], p[i]), high[i] = std::max(high[i], p[i]); }
  /// How much of the way from one point, inside, to another lies inside, as a view sees it.
  double share(const Place3& from, const Place3& to, std::initializer_list<std::size_t> seen) const {
    double least = 1;
    for (const std::size_t i : seen) {
      if (to[i] < low[i]) least = std::min(least, (low[i] - from[i]) / (to[i] - from[i]));
      if (to[i] > high[i]) least = std::min(least, (high[i] - from[i]) / (to[i] - from[i]));
    }
    return least;
  }
};

Place3 place(const Frame& frame, Point3 p) { return {frame.chainage_m(p), frame.across_m(p), p.z}; }

Shown shown_by(const Rig& rig, const Scene& scene) {
  const Reach3 reach = reach_of(rig, scene);
  return {{scene.from_m, reach.right_m, reach.low_m}, {scene.to_m, reach.left_m, reach.high_m}};
}

/// Calls use(index, member) for the members of the anchors that a scene shows.
template <class Use>
void for_members(const Rig& rig, const Scene& scene, Use use) {
  for (std::size_t i = 0; i < rig.layout.members.size(); ++i) {
    const Member& member = rig.layout.members[i];
    if (std::any_of(scene.anchors.begin(), scene.anchors.end(),
                    [&](const AnchorSeen& a) { return a.index == static_cast<int>(member.anchor); }))
      use(static_cast<int>(i), member);
  }
}

}  // namespace

std::vector<double> ends_beyond(const Rig& rig, const Scene& scene) {
  const Shown shown = shown_by(rig, scene);
  std::vector<double> beyond;
  for_members(rig, scene, [&](int, const Member& member) {
    for (const std::size_t i : {along, across, up}) beyond.push_back(shown.beyond(place(rig.frame, member.to), i));
  });
  return beyond;
}

void see_members(const Rig& rig, const MemberReach& reach, Scene& scene) {
  const Shown without = shown_by(rig, scene);
  Shown shown = without;
  for_members(rig, scene, [&](int, const Member& member) {
    const Place3 end = place(rig.frame, member.to);
    for (const std::size_t i : {along, across, up})
      if (without.beyond(end, i) <= reach.whole_m) shown.take(end, i);
  });
  for (double& low : shown.low) low -= reach.stub_m;
  for (double& high : shown.high) high += reach.stub_m;
  for_members(rig, scene, [&](int index, const Member& member) {
    const Point3 from = rig.layout.anchors[static_cast<std::size_t>(member.anchor)].position;
    const Place3 a = place(rig.frame, from), b = place(rig.frame, member.to);
    scene.members.push_back(
        {index, from, member.to, shown.share(a, b, {along, up}), shown.share(a, b, {along, across})});
  });
}

}  // namespace fairlead::views
