#include "geometry/clearance/moments.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::clearance {
namespace {

using When = Moment::When;
using reeving::Running;

/// A pose at which a moment may be looked for, with the rider as he is held then; none: as in the run.
struct Place {
  const Run* run;
  int pose;
  const Mover* rider{};
};

/// Pairs of the rider, the nearest over whole passages first: once a gap is seen, no pair whose least is more needs a
/// look.
std::vector<std::size_t> rider_pairs(const Plan& plan, const std::vector<Gap>& least) {
  std::vector<std::size_t> pairs;
  for (std::size_t i = 0; i < plan.pairs.size(); ++i)
    if (plan.pairs[i].a.kind == Thing::Kind::rider && std::isfinite(least[i].least_m.bound)) pairs.push_back(i);
  std::stable_sort(pairs.begin(), pairs.end(),
                   [&](std::size_t a, std::size_t b) { return least[a].least_m.bound < least[b].least_m.bound; });
  return pairs;
}

/// The rider in all leans of a run.
const MovingHulls* rider_of(const Run& run, const Plan& plan) {
  for (const Pair& pair : plan.pairs)
    if (pair.a.kind == Thing::Kind::rider && pair.spans == run.spans)
      return std::get_if<MovingHulls>(&run.movers[static_cast<std::size_t>(pair.meetings.front().a)]);
  return nullptr;
}

RiderHeld held(const MovingHulls& rider, const Gap& gap, int pose, double share) {
  RiderHeld held{{}, rider.radius_m};
  constexpr int few = 5;
  const int last = rider.pieces() - 1;
  std::vector<int> hulls;
  for (int i = 0; i < few; ++i) hulls.push_back(last * i / (few - 1));
  // Of two that are apart the nearest point of one is its farthest toward the other.
  if (const Vec3 way = gap.on_b - gap.on_a; norm(way) > 0) {
    int reaches = 0;
    double off_m = std::numeric_limits<double>::infinity();
    for (int i = 0; i <= last; ++i) {
      const OwnHull hull = rider.piece(i, pose, share);
      double farthest_m = -std::numeric_limits<double>::infinity();
      for (const Vec3& corner : hull.corners)
        farthest_m = std::max(farthest_m, dot(hull.at + corner - gap.on_a, unit(way)) + rider.radius_m);
      if (std::abs(farthest_m) < off_m) off_m = std::abs(farthest_m), reaches = i;
    }
    hulls.push_back(reaches);
  }
  std::sort(hulls.begin(), hulls.end());
  hulls.erase(std::unique(hulls.begin(), hulls.end()), hulls.end());
  for (const int i : hulls) rider.corners(i, pose, share, held.hulls.emplace_back());
  return held;
}

std::optional<Moment> nearest(When when, const std::vector<Place>& places, const Plan& plan,
                              const std::vector<Gap>& least) {
  std::optional<Moment> found;
  const Place* where = nullptr;
  for (const std::size_t i : rider_pairs(plan, least)) {
    const Pair& pair = plan.pairs[i];
    if (found && !(least[i].least_m.bound < found->gap.least_m.value)) break;
    for (const Place& at : places) {
      if (pair.spans != at.run->spans) continue;
      const double within_m = found ? std::max(0., found->gap.least_m.value) : std::numeric_limits<double>::infinity();
      const Gap gap = gap_then(*at.run, pair, at.pose, 0, within_m, at.rider);
      if (found ? !(gap.least_m.value < found->gap.least_m.value) : !std::isfinite(gap.least_m.value)) continue;
      found = Moment{when, gap, {}};
      where = &at;
    }
  }
  if (!found) return found;
  if (where->rider)
    found->rider = held(std::get<MovingHulls>(*where->rider), found->gap, where->pose, 0);
  else
    found->rider = rider_held(*where->run, plan, found->gap, where->pose, 0);
  return found;
}

/// The first pose of a passage at the mark, and its last, where it pays out.
std::vector<Place> ends(const std::vector<Run>& runs, When when) {
  std::vector<Place> places;
  for (const Run& run : runs) {
    if (!run.with_rider() || run.passage.sweep.running != Running::paying_out) continue;
    int pose = run.passage.poses - 1;
    if (when == When::contact)
      for (pose = 0; pose < run.passage.poses && run.passage.pose(pose).travel_m < 0;) ++pose;
    if (pose < run.passage.poses) places.push_back({&run, pose});
  }
  return places;
}

/// One of the rider's hulls over a whole passage.
MovingHulls hull_alone(const MovingHulls& rider, int hull, int poses) {
  std::vector<Vec3> corners;
  std::vector<Point3> at;
  std::size_t each = 0;
  for (int pose = 0; pose < poses; ++pose) {
    const OwnHull own = rider.piece(hull, pose, 0);
    each = own.corners.size();
    corners.insert(corners.end(), own.corners.begin(), own.corners.end());
    at.push_back(own.at);
  }
  MovingHulls alone(1, static_cast<int>(each), std::move(corners), std::move(at));
  alone.radius_m = rider.radius_m;
  alone.slack_m = rider.slack_m;
  alone.stray_m = rider.stray_m;
  return alone;
}

/// Where riders lean farthest one way, with the hull that holds that lean; none where they do not.
struct Farthest {
  std::vector<std::unique_ptr<Mover>> riders;
  std::vector<Place> places;
};
Farthest leaning_farthest(const std::vector<Run>& runs, const Plan& plan, bool forward) {
  Farthest all;
  double most_rad = 0;
  const auto lean_of = [&](const Run& run, int pose) {
    const Leans leans = leans_at(run.passage, pose);
    return forward ? leans.forward_rad : -leans.back_rad;
  };
  const auto each = [&](auto&& look) {
    for (const Run& run : runs)
      if (run.with_rider() && run.passage.sweep.running != Running::at_rest) look(run);
  };
  each([&](const Run& run) {
    for (int pose = 0; pose < run.passage.poses; ++pose) most_rad = std::max(most_rad, lean_of(run, pose));
  });
  if (!(most_rad > 0)) return all;
  each([&](const Run& run) {
    const MovingHulls* whole = rider_of(run, plan);
    if (!whole) return;
    const Mover* rider = nullptr;
    for (int pose = 0; pose < run.passage.poses; ++pose) {
      // Both are read from the same table.
      if (lean_of(run, pose) != most_rad) continue;
      if (!rider) {
        all.riders.push_back(
            std::make_unique<Mover>(hull_alone(*whole, forward ? whole->pieces() - 1 : 0, run.passage.poses)));
        rider = all.riders.back().get();
      }
      all.places.push_back({&run, pose, rider});
    }
  });
  return all;
}

}  // namespace

RiderHeld rider_held(const Run& run, const Plan& plan, const Gap& gap, int pose, double share) {
  const MovingHulls* rider = rider_of(run, plan);
  return rider ? held(*rider, gap, pose, share) : RiderHeld{};
}

std::vector<Moment> moments_of(const std::vector<Run>& runs, const Plan& plan, const std::vector<Gap>& least) {
  std::vector<Moment> moments;
  const auto add = [&](When when, const std::vector<Place>& places) {
    if (auto moment = nearest(when, places, plan, least)) moments.push_back(std::move(*moment));
  };
  add(When::contact, ends(runs, When::contact));
  add(When::full_travel, ends(runs, When::full_travel));
  const Farthest back = leaning_farthest(runs, plan, false), forward = leaning_farthest(runs, plan, true);
  add(When::leaning_back, back.places);
  add(When::leaning_forward, forward.places);
  return moments;
}

}  // namespace fairlead::clearance
