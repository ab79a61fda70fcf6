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

/// A gap over the passage it is least in.
struct Followed {
  std::size_t gap{};
  const Run* run{};
  std::vector<int> poses;
};

Followed followed(std::size_t gap, const Run& run) {
  Followed one{gap, &run, {}};
  const int poses = run.passage.poses, step = (poses + most_poses - 1) / most_poses;
  for (int pose = 0; pose < poses; pose = pose < poses - 1 ? std::min(pose + step, poses - 1) : poses)
    one.poses.push_back(pose);
  return one;
}

double gap_in_pose_m(const Pair& pair, const Run& run, int pose, double within_m) {
  double least_m = std::numeric_limits<double>::infinity();
  for (const Pair::Meeting& meeting : pair.meetings) {
    const Mover &a = run.movers[static_cast<std::size_t>(meeting.a)],
                &b = run.movers[static_cast<std::size_t>(meeting.b)];
    least_m = std::min(least_m, gap_at(a, b, pose, 0, within_m).distance_m + open_at(a, b, pose, 0));
  }
  return least_m;
}

/// The least itself lies between two of the poses, or is one.
void add_least(const Gap& gap, Profile& profile) {
  const auto after = std::lower_bound(profile.at.begin(), profile.at.end(), gap.travel_m,
                                      [](const Profile::At& at, double travel_m) { return at.travel_m < travel_m; });
  if (after != profile.at.end() && after->travel_m == gap.travel_m)
    after->gap_m = std::min(after->gap_m, gap.least_m.value);
  else
    profile.at.insert(after, {gap.travel_m, gap.least_m.value});
}

}  // namespace

std::vector<Profile> profiles_of(const std::vector<Gap>& gaps, const Plan& plan, const std::vector<Run>& runs,
                                 const Work& work) {
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
  std::vector<Followed> all;
  for (const std::size_t i : least) {
    const auto run = std::find_if(runs.begin(), runs.end(), [&](const Run& one) {
      return one.sweep == gaps[i].sweep && one.spans == plan.pairs[i].spans;
    });
    if (run != runs.end()) all.push_back(followed(i, *run));
  }
  std::vector<Profile> profiles;
  struct Place {
    std::size_t profile, at;
  };
  std::vector<Place> places;
  for (const Followed& one : all) {
    Profile& profile = profiles.emplace_back(Profile{one.gap, {}});
    for (const int pose : one.poses) {
      places.push_back({profiles.size() - 1, profile.at.size()});
      profile.at.push_back({one.run->passage.pose(pose).travel_m, {}});
    }
  }
  for_each_index(work, static_cast<int>(places.size()), [&](int i) {
    const auto [n, at] = places[static_cast<std::size_t>(i)];
    const Followed& one = all[n];
    profiles[n].at[at].gap_m =
        gap_in_pose_m(plan.pairs[one.gap], *one.run, one.poses[at], gaps[one.gap].least_m.value + profile_reach_m);
  });
  for (Profile& profile : profiles) add_least(gaps[profile.gap], profile);
  return profiles;
}

}  // namespace fairlead::clearance
