#include "geometry/clearance/profiles.hpp"

#include <algorithm>

#include "geometry/clearance/search.hpp"

namespace fairlead::clearance {
namespace {

/// More places than these a plot does not show.
constexpr int most_poses = 96;

/// Of what hangs or runs beside what a plot over the travel tells more than the least gap does.
bool is_followed(const Gap& gap) {
  using Kind = Thing::Kind;
  return gap.sweep >= 0 && (gap.a.kind == Kind::rider || gap.a.kind == Kind::block ||
                            (gap.a.kind == Kind::line && gap.b.kind == Kind::structure));
}

Profile profile_of(std::size_t index, const Gap& gap, const Pair& pair, const Run& run) {
  Profile profile{index, {}};
  const double within_m = gap.least_m.value + profile_reach_m;
  const int poses = run.passage.poses, step = (poses + most_poses - 1) / most_poses;
  for (int pose = 0; pose < poses; pose = pose < poses - 1 ? std::min(pose + step, poses - 1) : poses) {
    double least_m = std::numeric_limits<double>::infinity();
    for (const Pair::Meeting& meeting : pair.meetings) {
      const Mover &a = run.movers[static_cast<std::size_t>(meeting.a)],
                  &b = run.movers[static_cast<std::size_t>(meeting.b)];
      const Nearest met = gap_at(a, b, pose, 0, within_m);
      least_m = std::min(least_m, met.distance_m + open_at(a, b, pose, 0));
    }
    profile.at.push_back({run.passage.pose(pose).travel_m, least_m});
  }
  // The least itself lies between two of them, or is one.
  const auto after = std::lower_bound(profile.at.begin(), profile.at.end(), gap.travel_m,
                                      [](const Profile::At& at, double travel_m) { return at.travel_m < travel_m; });
  if (after != profile.at.end() && after->travel_m == gap.travel_m)
    after->gap_m = std::min(after->gap_m, gap.least_m.value);
  else
    profile.at.insert(after, {gap.travel_m, gap.least_m.value});
  return profile;
}

}  // namespace

std::vector<Profile> profiles_of(const std::vector<Gap>& gaps, const Plan& plan, const std::vector<Run>& runs) {
  std::vector<std::size_t> least;
  for (std::size_t i = 0; i < gaps.size(); ++i) {
    if (!is_followed(gaps[i])) continue;
    const auto same = std::find_if(least.begin(), least.end(), [&](std::size_t other) {
      return gaps[other].a.kind == gaps[i].a.kind && gaps[other].b.kind == gaps[i].b.kind;
    });
    if (same == least.end())
      least.push_back(i);
    else if (gaps[i].least_m.value < gaps[*same].least_m.value)
      *same = i;
  }
  std::vector<Profile> profiles;
  for (const std::size_t i : least)
    for (const Run& run : runs)
      if (run.sweep == gaps[i].sweep && run.spans == plan.pairs[i].spans) {
        profiles.push_back(profile_of(i, gaps[i], plan.pairs[i], run));
        break;
      }
  return profiles;
}

}  // namespace fairlead::clearance
