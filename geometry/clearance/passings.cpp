#include "geometry/clearance/passings.hpp"

#include <algorithm>

#include "geometry/clearance/moments.hpp"
#include "geometry/clearance/search.hpp"

namespace fairlead::clearance {
namespace {

using Kind = Thing::Kind;

struct Instant {
  Passing::Met met{};
  int pose{};
  double share{};
};

/// Where the rider comes level with a place that may move itself. Between poses both move straight.
template <class Place>
Instant level_with(const Passage& passage, Place place) {
  const auto ahead = [&](int i) { return dot(passage.pose(i).rider - place(i), passage.rig.along); };
  double before = ahead(0);
  if (before > 0) return {Passing::Met::stays_downstream};
  for (int i = 0; i < passage.poses; ++i) {
    const double now = ahead(i);
    if (now >= 0)
      return now > 0 ? Instant{Passing::Met::at_travel, i - 1, before / (before - now)}
                     : Instant{Passing::Met::at_travel, i, 0};
    before = now;
  }
  return {Passing::Met::stays_upstream};
}

void add(const Run& run, const Plan& plan, Thing other, const Instant& instant, std::vector<Passing>& passings) {
  const bool whole = run.passage.first == 0 && run.passage.pose(0).travel_m < 0;
  // A passage that begins at the mark does not tell what the rider passed before it.
  if (instant.met == Passing::Met::stays_downstream && !whole) return;
  Passing passing{.other = other, .sweep = run.sweep, .met = instant.met};
  if (instant.met == Passing::Met::at_travel) {
    passing.travel_m = travel_at(run.passage, instant.pose, instant.share);
    for (const Pair& pair : plan.pairs) {
      const bool at_redirect = other.kind == Kind::sheave && pair.b.kind == Kind::frame && pair.b.index == other.index;
      const bool line = other.kind == Kind::sheave && pair.b.kind == Kind::line;
      if (pair.a.kind == Kind::rider && (pair.b == other || at_redirect || line))
        passing.gaps.push_back(gap_then(run, pair, instant.pose, instant.share));
    }
    std::stable_sort(passing.gaps.begin(), passing.gaps.end(),
                     [](const Gap& a, const Gap& b) { return a.least_m.value < b.least_m.value; });
    if (!passing.gaps.empty()) passing.rider = rider_held(run, plan, passing.gaps.front(), instant.pose, instant.share);
  }
  passings.push_back(std::move(passing));
}

}  // namespace

Gap gap_then(const Run& run, const Pair& pair, int pose, double share, double within_m, const Mover* rider) {
  Gap gap{.a = pair.a, .b = pair.b, .sweep = run.sweep, .travel_m = travel_at(run.passage, pose, share)};
  gap.least_m.pose = std::max(0, run.passage.first + pose - run.added);
  bool first = true;
  for (const Pair::Meeting& meeting : pair.meetings) {
    const Mover &a = rider ? *rider : run.movers[static_cast<std::size_t>(meeting.a)],
                &b = run.movers[static_cast<std::size_t>(meeting.b)];
    const Nearest met = gap_at(a, b, pose, share, within_m);
    const double open_m = open_at(a, b, pose, share);
    const double value_m = met.distance_m + open_m, bound_m = met.distance_m - open_m;
    if (first || bound_m < gap.least_m.bound) gap.least_m.bound = bound_m;
    if (first || value_m < gap.least_m.value) {
      gap.least_m.value = value_m;
      gap.on_a = met.on_a;
      gap.on_b = met.on_b;
    }
    first = false;
  }
  return gap;
}

double travel_at(const Passage& passage, int pose, double share) {
  const double travel_m = passage.pose(pose).travel_m;
  return share == 0 ? travel_m : travel_m + share * (passage.pose(pose + 1).travel_m - travel_m);
}

std::vector<Passing> passings_of(const Run& run, const Plan& plan) {
  std::vector<Passing> passings;
  if (run.spans || !run.with_rider()) return passings;
  const Passage& passage = run.passage;
  for (const Pair& pair : plan.pairs) {
    if (pair.a.kind != Kind::rider) continue;
    if (pair.b.kind == Kind::sheave) {
      const reeving::Sheave& sheave = passage.rig.sheaves[static_cast<std::size_t>(pair.b.index)];
      const auto centre = [&](int i) {
        if (sheave.body < 0) return sheave.centre;
        const Point3 drawn = passage.rig.blocks[static_cast<std::size_t>(sheave.body)].drawn;
        return passage.block(i, sheave.body).placement.move(sheave.centre, drawn);
      };
      add(run, plan, pair.b, level_with(passage, centre), passings);
    }
    if (pair.b.kind == Kind::block)
      add(run, plan, pair.b, level_with(passage, [&](int i) { return passage.block(i, pair.b.index).placement.at; }),
          passings);
  }
  return passings;
}

void add_inside(const Run& run, const Pair& hands, Hands& told) {
  if (!run.with_rider()) return;
  const auto& rider = std::get<MovingBox>(run.movers[static_cast<std::size_t>(hands.meetings.front().a)]);
  const auto& stretch = std::get<Chain>(run.movers[static_cast<std::size_t>(hands.meetings.front().b)]);
  for (int pose = 0; pose < run.passage.poses; ++pose) {
    double inside_m = 0;
    for (int i = 0; i < stretch.pieces(); ++i)
      inside_m += length_within(stretch.piece(i, pose, 0), rider.piece(0, pose, 0));
    if (!(inside_m > told.inside_m)) continue;
    told.inside_m = inside_m;
    told.sweep = run.sweep;
    told.travel_m = run.passage.pose(pose).travel_m;
  }
}

}  // namespace fairlead::clearance
