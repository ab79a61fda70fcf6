#include "geometry/arrest/arrest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

#include "geometry/arrest/backup.hpp"
#include "geometry/arrest/reset.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

/// A corner with all that its motion needs.
struct Case {
  Corner corner;
  const Track* track{};
  Bodies bodies;
  Unit unit;
  Contact contact;
};

CornerResult settled(const Case& c, Solved<Motion> motion) {
  CornerResult result{
      .corner = c.corner, .arrival_speed_m_per_s = c.contact.speed_m_per_s, .motion = std::move(motion)};
  if (result.motion && (result.motion->outcome == Outcome::stops || result.motion->outcome == Outcome::creeps))
    result.rest = settle(*c.track, c.bodies, c.unit, result.motion->end_travel_m);
  return result;
}

CornerResult run(const Case& c) {
  std::vector<Instant> record, edges;
  CornerResult result = settled(c, solve_motion(*c.track, c.bodies, c.unit, c.contact, &record, &edges));
  if (!result.motion) return result;
  result.leans = leans_over_travel(record, result.motion->stop_time_s);
  result.load_instants = load_instants(*c.track, c.bodies, record, edges);
  return result;
}

bool holds_from(Case c, double x_m) {
  c.contact.x_m = x_m;
  // The brake trolley is x_m on: until there nothing brakes but the main line.
  const double gained_J = -c.track->potential_J(x_m);
  const double hanging_kg = c.bodies.rider_kg + c.bodies.rider_trolley_kg;
  const double squared = c.contact.speed_m_per_s * c.contact.speed_m_per_s + 2 * std::max(0.0, gained_J) / hanging_kg;
  c.contact.speed_m_per_s = std::sqrt(squared);
  return settled(c, solve_reach(*c.track, c.bodies, c.unit, c.contact)).comes_to_rest(c.unit.extension_limit_m);
}

/// Halves the travel for the corners that come farthest, then asks all of them; those that fail join the few.
NotReset farthest_dispatch(const std::vector<Case>& cases, const std::vector<CornerResult>& corners,
                           const Governing& governing, double travel_m, const Work& work) {
  NotReset found{.farthest_m = std::numeric_limits<double>::quiet_NaN()};
  if (std::none_of(corners.begin(), corners.end(), [](const CornerResult& c) { return c.arrives(); })) return found;
  const auto place_m = [](int step) { return dispatch_step_m * step; };
  std::set<int> few;
  for (const int c : {governing.farthest_travel, governing.extension, governing.line_speed, governing.swing_forward})
    if (c >= 0) few.insert(c);
  const auto holds = [&](int corner, int step) {
    const auto c = static_cast<std::size_t>(corner);
    return corners[c].motion && holds_from(cases[c], place_m(step));
  };
  int last = static_cast<int>(std::ceil(travel_m / dispatch_step_m)) - 1;
  for (;;) {
    int good = -1, bad = last + 1;
    while (bad - good > 1) {
      const int middle = (good + bad) / 2;
      const std::vector<int> asked(few.begin(), few.end());
      std::vector<char> held(asked.size());
      for_each_index(work, static_cast<int>(asked.size()), [&](int i) {
        held[static_cast<std::size_t>(i)] = holds(asked[static_cast<std::size_t>(i)], middle);
      });
      const auto failing = std::find(held.begin(), held.end(), 0);
      if (failing == held.end())
        good = middle;
      else
        bad = middle, found.first_failing = asked[static_cast<std::size_t>(failing - held.begin())];
    }
    if (good < 0) return found;
    std::vector<char> held(cases.size());
    // Who stalls short meets no trolley, wherever it was left.
    for_each_index(work, static_cast<int>(cases.size()), [&](int c) {
      const auto i = static_cast<std::size_t>(c);
      held[i] = !corners[i].arrives() || holds(c, good);
    });
    const auto fails = std::find(held.begin(), held.end(), 0);
    if (fails == held.end()) {
      found.farthest_m = place_m(good);
      return found;
    }
    found.first_failing = static_cast<int>(fails - held.begin());
    for (std::size_t c = 0; c < cases.size(); ++c)
      if (!held[c]) few.insert(static_cast<int>(c));
    last = good;
  }
}

/// The sweep of a path in still air that `wanted` names; nullptr without one.
template <class Wanted>
const reeving::Sweep* sweep_of(const reeving::Reeving& reeving, int path, const Wanted& wanted) {
  for (const reeving::Sweep& sweep : reeving.sweeps)
    if (sweep.path == path && !sweep.in_wind && wanted(sweep)) return &sweep;
  return nullptr;
}

const reeving::Sweep* returning_sweep(const reeving::Reeving& reeving, int path) {
  return sweep_of(reeving, path, [](const reeving::Sweep& s) {
    return s.running == reeving::Running::at_rest && s.friction != reeving::Friction::paying_out;
  });
}

Solved<Arrest> run_corners(const Inputs& in, const std::vector<Case>& cases, const Approaches* approaches,
                           const Work& work) {
  Arrest arrest;
  arrest.corners.resize(cases.size());
  for_each_index(
      work, static_cast<int>(cases.size()),
      [&](int index) {
        const auto i = static_cast<std::size_t>(index);
        CornerResult& result = arrest.corners[i];
        const bool arrives = cases[i].contact.speed_m_per_s > 0;
        if (arrives) result = run(cases[i]);
        result.corner = cases[i].corner;
        result.speed_over_wave = std::numeric_limits<double>::quiet_NaN();
        if (!arrives) result.motion = unsolved("the rider stalls short of the brake trolley");
        if (!approaches || !approaches->computed[i]) return;
        const Approach& approach = *approaches->computed[i];
        result.speed_over_wave = approach.speed_over_wave;
        if (!approach.stalled_at_m) result.computed_speed_m_per_s = approach.arrival_speed_m_per_s;
        if (arrives) return;
        result.hangs_at_m = approach.hangs_at_m;
        result.back_at_start_m_per_s = approach.back_at_start_m_per_s;
      },
      "arrest");
  arrest.governing = governing_of(arrest.corners);
  arrest.not_reset = farthest_dispatch(cases, arrest.corners, arrest.governing, in.travel_m, work);
  return arrest;
}

double hanging_kg(const Inputs& in, const Corner& corner) {
  return in.rider_kg[corner.heaviest ? 1 : 0] + in.rider_trolley_kg + in.brake_trolley_kg;
}

/// The worst of the backup brake alone: what is left after its stroke, then how far it gives.
template <class DriveOf>
Solved<BackupAlone> worst_backup(const std::vector<Case>& cases, const Inputs& in, const DriveOf& drive_of,
                                 const Work& work) {
  std::vector<std::optional<Solved<BackupAlone>>> each(cases.size());
  for_each_index(work, static_cast<int>(cases.size()), [&](int index) {
    const auto i = static_cast<std::size_t>(index);
    const Case& c = cases[i];
    if (c.contact.speed_m_per_s > 0)
      each[i] = backup_alone(in, drive_of(c.corner), hanging_kg(in, c.corner), c.bodies.drag_kg_per_m,
                             c.bodies.wind_m_per_s, c.bodies.rolling, c.contact.speed_m_per_s);
  });
  Solved<BackupAlone> worst = unsolved("no rider arrives");
  for (std::size_t i = 0; i < cases.size(); ++i) {
    if (!each[i]) continue;
    Solved<BackupAlone>& alone = *each[i];
    if (!alone) return alone;
    alone->corner = static_cast<int>(i);
    const bool worse =
        !worst || alone->residual_m_per_s > worst->residual_m_per_s ||
        (alone->residual_m_per_s == worst->residual_m_per_s && alone->compression_m > worst->compression_m);
    if (worse) worst = alone;
  }
  return worst;
}

double lift_difference(const reeving::Reeving& reeving) {
  double most = 0;
  for (const reeving::Sweep& peak : reeving.sweeps) {
    if (peak.running != reeving::Running::paying_out) continue;
    for (const reeving::Pose& pose : peak.poses) most = greater(most, pose.lift_by_line_m);
  }
  return most;
}

Case case_of(const Inputs& in, const Corner& corner, const Track& track, double air_kg_per_m3, double speed_m_per_s,
             double acceleration_m_per_s2) {
  return {.corner = corner,
          .track = &track,
          .bodies = bodies_of(in, corner, air_kg_per_m3),
          .unit = unit_of(in, corner),
          .contact = {.speed_m_per_s = speed_m_per_s, .acceleration_m_per_s2 = acceleration_m_per_s2}};
}

Case case_of(const Inputs& in, const Approaches& approaches, const mainline::MainLine& main_line, const Track& track,
             std::size_t i) {
  const Corner& corner = approaches.corners[i];
  const auto state = static_cast<std::size_t>(main_line.paths[static_cast<std::size_t>(corner.path)].state);
  return case_of(in, corner, track, in.air_kg_per_m3[state], approaches.speed_m_per_s[i],
                 approaches.acceleration_m_per_s2(i));
}

}  // namespace

Solved<Track> track_of(const Inputs& in, int path, const reeving::Inputs& reeving_in, const reeving::Reeving& reeving) {
  const reeving::Sweep* rest = sweep_of(reeving, path, [](const reeving::Sweep& s) {
    return s.running == reeving::Running::at_rest && s.friction != reeving::Friction::returning;
  });
  const reeving::Sweep* peak =
      sweep_of(reeving, path, [](const reeving::Sweep& s) { return s.running == reeving::Running::paying_out; });
  if (!rest || !peak) return unsolved("the reeving has no sweep of this path at rest and paying out");
  const reeving::Sweep* returning =
      rest->friction == reeving::Friction::none ? nullptr : returning_sweep(reeving, path);
  return Track::from_sweeps(reeving_in, *rest, *peak, returning, in.moving_mass_kg);
}

Solved<Arrest> solve(const Inputs& in, const Approaches& approaches, const mainline::MainLine& main_line,
                     const reeving::Inputs& reeving_in, const reeving::Reeving& reeving, const Work& work) {
  std::vector<Track> tracks(main_line.paths.size());
  for (std::size_t p = 0; p < tracks.size(); ++p) {
    if (main_line.paths[p].loading == mainline::Loading::empty) continue;
    auto track = track_of(in, static_cast<int>(p), reeving_in, reeving);
    if (!track) return tl::unexpected(track.error());
    tracks[p] = std::move(*track);
  }
  std::vector<Case> cases;
  for (std::size_t i = 0; i < approaches.corners.size(); ++i)
    cases.push_back(
        case_of(in, approaches, main_line, tracks[static_cast<std::size_t>(approaches.corners[i].path)], i));
  auto arrest = run_corners(in, cases, &approaches, work);
  if (!arrest) return arrest;
  arrest->backup = worst_backup(
      cases, in,
      [&](const Corner& corner) {
        const mainline::Path& path = main_line.paths[static_cast<std::size_t>(corner.path)].path;
        return Drive{[&path](double x_m) { return path.drive_force_N(x_m); }, path.to_m()};
      },
      work);
  for (std::size_t p = 0; p < main_line.paths.size(); ++p) {
    if (main_line.paths[p].loading != mainline::Loading::empty) continue;
    const reeving::Sweep* returning = returning_sweep(reeving, static_cast<int>(p));
    if (!returning) return unsolved("the reeving has no sweep of the empty trolley's return");
    auto back = reset(in, reeving_in, *returning, main_line.paths[p].path);
    if (!back) return tl::unexpected(back.error());
    arrest->resets.push_back(std::move(*back));
  }
  arrest->lift_difference_m = lift_difference(reeving);
  return arrest;
}

std::vector<Instant> history(const Inputs& in, const Approaches& approaches, const mainline::MainLine& main_line,
                             const reeving::Inputs& reeving_in, const reeving::Reeving& reeving, int corner) {
  std::vector<Instant> record;
  const auto i = static_cast<std::size_t>(corner);
  const auto track = track_of(in, approaches.corners[i].path, reeving_in, reeving);
  if (!track) return record;
  const Case c = case_of(in, approaches, main_line, *track, i);
  if (!solve_motion(*c.track, c.bodies, c.unit, c.contact, &record)) record.clear();
  return record;
}

Solved<Arrest> solve_plain(const Inputs& in, const Plain& plain, const Work& work) {
  if (!in.measured_speed_m_per_s) return unsolved("without a main line the arrival speeds must be given");
  const double trolleys_kg = in.rider_trolley_kg + in.brake_trolley_kg;
  std::array<Track, 3> tracks;  // lightest, heaviest, empty
  for (std::size_t i = 0; i < tracks.size(); ++i) {
    const double kg = i < 2 ? in.rider_kg[i] + trolleys_kg : in.brake_trolley_kg;
    auto track = Track::plain({.ratio = plain.ratio,
                               .efficiency = plain.efficiency,
                               .slope = plain.slope,
                               .travel_m = in.travel_m,
                               .rest_extension_m = plain.rest_extension_m,
                               .weight_N = kg * standard_gravity,
                               .inertia_kg = in.moving_mass_kg / (plain.ratio * plain.ratio)});
    if (!track) return tl::unexpected(track.error());
    tracks[i] = std::move(*track);
  }
  std::vector<Case> cases;
  for (const Corner& corner : plain_corners(in)) {
    const mainline::Span& speed = *in.measured_speed_m_per_s;
    cases.push_back(case_of(in, corner, tracks[corner.heaviest ? 1 : 0], in.air_kg_per_m3.front(),
                            corner.fastest ? speed.high : speed.low, 0));
  }
  auto arrest = run_corners(in, cases, nullptr, work);
  if (!arrest) return arrest;
  arrest->backup = worst_backup(
      cases, in,
      [&](const Corner& corner) {
        const double down_N = -hanging_kg(in, corner) * standard_gravity * plain.slope;
        return Drive{[down_N](double) { return down_N; }, std::numeric_limits<double>::infinity()};
      },
      work);
  arrest->resets.push_back(reset_plain(in, tracks[2], plain.ratio, plain.rest_extension_m));
  return arrest;
}

}  // namespace fairlead::arrest
