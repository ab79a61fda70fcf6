#include "geometry/reeving/sweep.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/reeving/plane.hpp"
#include "geometry/reeving/sweep_poses.hpp"

namespace fairlead::reeving {
namespace {

/// A NaN, once seen, stays: an extreme of something unknown is unknown.
Extreme worse(Extreme a, double value, double bound, int pose) {
  if (!(value <= a.value) && !std::isnan(a.value)) a.value = value, a.pose = pose;
  if (!(bound <= a.bound) && !std::isnan(a.bound)) a.bound = bound;
  return a;
}

/// The least of something, kept through its negative.
Extreme negated(Extreme e) { return {-e.value, -e.bound, e.pose}; }

constexpr double least_known = -std::numeric_limits<double>::infinity();

Leg leg_of(const MetLeg& met, const LegEnd& from, const LegEnd& to, double weight_N_per_m) {
  Leg leg;
  leg.from = from.centre + from.radius_m * met.from_e;
  leg.to = to.centre + to.radius_m * met.to_e;
  leg.length_m = met.hang.length_m;
  leg.sag_m = met.hang.sag_m();
  leg.from_tension_N = met.hang.from_tension_N();
  leg.least_tension_N = met.hang.least_tension_N();
  leg.to_tension_N = met.hang.to_tension_N();
  leg.H_N = met.hang.horizontal_N();
  leg.weight_N = weight_N_per_m * met.hang.length_m;
  leg.load_N_per_m = -met.hang.weight_N_per_m * met.hang.up;
  return leg;
}

Turn turn_of(const Sheave& sheave, const MetLeg& before, const MetLeg& after, double wrap_rad, double jump_N) {
  Turn turn;
  turn.on = sheave.centre + sheave.radius_m * before.to_e;
  turn.off = sheave.centre + sheave.radius_m * after.from_e;
  turn.on_tension_N = before.hang.to_tension_N();
  turn.off_tension_N = after.hang.from_tension_N();
  turn.on_leg = (1 / turn.on_tension_N) * before.hang.to_pull_N();
  turn.off_leg = (1 / turn.off_tension_N) * after.hang.from_pull_N();
  turn.force_N = turn.on_tension_N * turn.on_leg + turn.off_tension_N * turn.off_leg;
  turn.wrap_centre = sheave.centre;
  if (sheave.radius_m == 0) return turn;
  turn.wrap_rad = wrap_rad;
  turn.on_fleet_rad = fleet_angle(turn.on_leg, sheave.axle);
  turn.off_fleet_rad = fleet_angle(turn.off_leg, sheave.axle);
  // The line on the wrap rests on the groove; its load acts at the centroid of the arc.
  const double half = wrap_rad / 2, toward = half > 0 ? std::sin(half) / half : 1;
  const Vec3 middle_e = std::cos(half) * before.to_e + sheave.sense * std::sin(half) * cross(sheave.axle, before.to_e);
  turn.wrap_centre = sheave.centre + sheave.radius_m * toward * middle_e;
  turn.couple_N_m = sheave.sense * sheave.radius_m * jump_N;
  turn.force_N = turn.force_N - (after.hang.weight_N_per_m * sheave.radius_m * wrap_rad) * after.hang.up;
  return turn;
}

/// Turn, leg, block and tension records of one station.
void record(const Inputs& in, const Station& station, Sweep& sweep) {
  const Reeved& lines = station.lines;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const Line& line = in.lines[l];
    const std::size_t first = in.legs_before(l);
    double greatest_N = 0;
    for (int k = 0; k <= line.sheaves; ++k) {
      const std::size_t at = first + static_cast<std::size_t>(k);
      const int index = static_cast<int>(l);
      sweep.legs.push_back(
          leg_of(lines.legs[at], from_end(in, lines, index, k), to_end(in, lines, index, k), line.weight_N_per_m));
      greatest_N = std::max({greatest_N, sweep.legs.back().from_tension_N, sweep.legs.back().to_tension_N});
      if (k == 0) continue;
      const int sheave = line.first_sheave + k - 1;
      const Sheave where = placed(in, lines, sheave);
      const double jump_N = lines.leg_tension[at](where.centre) - lines.leg_tension[at - 1](where.centre);
      sweep.turns.push_back(
          turn_of(where, lines.legs[at - 1], lines.legs[at], lines.wrap_rad[static_cast<std::size_t>(sheave)], jump_N));
    }
    sweep.tension_N.push_back(greatest_N);
  }
  for (std::size_t b = 0; b < in.blocks.size(); ++b)
    sweep.blocks.push_back({lines.blocks[b], lines.blocks[b].move(in.blocks[b].centre_of_mass, in.blocks[b].drawn),
                            station.held_N[b], station.held_couple_N_m[b]});
}

/// Spread of the whole sweep's points about their plane and across from the main line, and of all they pass between.
void measure_plane(const Inputs& in, const std::vector<Between>& gaps, Sweep& sweep) {
  const std::size_t sheaves = in.sheaves.size();
  // The attachment, and both contacts of every sheave; not the wheels of support lines, and not the last contact of the
  // braking line, which leads to the unit and is judged by the lead angle.
  const Line& braking = in.lines[static_cast<std::size_t>(in.braking)];
  const int leads = braking.sheaves > 0 ? 2 * (braking.first_sheave + braking.sheaves - 1) + 1 : -1;
  std::vector<std::size_t> contacts;
  for (std::size_t i = 0; i < 2 * sheaves; ++i)
    if (in.sheaves[i / 2].radius_m > 0 && static_cast<int>(i) != leads) contacts.push_back(i);
  const std::size_t each = 1 + contacts.size();
  std::vector<Point3> points;
  std::vector<double> weights;
  for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
    // A pose counts by the travel it stands for: the plane is that of the passage, however fine its steps.
    const double from_m = sweep.poses[p > 0 ? p - 1 : p].travel_m,
                 to_m = sweep.poses[std::min(p + 1, sweep.poses.size() - 1)].travel_m;
    weights.insert(weights.end(), each, (to_m - from_m) / 2);
    points.push_back(sweep.poses[p].attachment);
    for (const std::size_t i : contacts) {
      const Turn& turn = sweep.turns[p * sheaves + i / 2];
      points.push_back(i % 2 == 0 ? turn.on : turn.off);
    }
  }
  // What runs straight lies between its ends: a point passes no further off, in a direction n, than at one of its two
  // poses and what it strays. The attachment strays up and down only.
  const auto bound = [&](std::size_t point, double off, double next_off, Vec3 n) {
    const std::size_t p = point / each, i = point % each;
    if (p >= gaps.size()) return off;
    const Vec3 stray = i == 0 ? Vec3{0, 0, gaps[p].stray.trolley_m} : gaps[p].contacts_m[contacts[i - 1]];
    const auto share = [&](Vec3 axis, double stray_m) {
      const double part = std::abs(dot(n, axis));
      return part > 0 ? part * stray_m : 0;
    };
    return greater(off, next_off) + share(in.along, stray.x) + share(in.across, stray.y) + share(in.up, stray.z);
  };
  const auto next = [&](std::size_t i) { return i + each < points.size() ? i + each : i; };

  Extreme across{0, 0, sweep.rest_pose};
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto off = [&](std::size_t p) { return std::abs(dot(points[p] - in.origin, in.across)); };
    across = worse(across, off(i), bound(i, off(i), off(next(i)), in.across), static_cast<int>(i / each));
  }
  sweep.across_m = across;

  const auto plane = best_plane(points, weights);
  if (!plane) {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    sweep.thickness_m = {nan, nan, -1};
    return;
  }
  Extreme above{0, 0, sweep.rest_pose}, below = above;  // of the plane, both counted away from it
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto off = [&](std::size_t p) { return dot(points[p] - plane->centroid, plane->normal); };
    above = worse(above, off(i), bound(i, off(i), off(next(i)), plane->normal), static_cast<int>(i / each));
    below = worse(below, -off(i), bound(i, -off(i), -off(next(i)), plane->normal), static_cast<int>(i / each));
  }
  sweep.thickness_m = {above.value + below.value, above.bound + below.bound, below.pose};
}

void measure_poses(const Inputs& in, const std::vector<Between>& gaps, Sweep& sweep) {
  const std::size_t sheaves = in.sheaves.size();
  const Extreme none{least_known, least_known, -1};
  sweep.fleet_rad.assign(sheaves, none);
  for (std::size_t i = 0; i < sheaves; ++i)
    if (in.sheaves[i].radius_m == 0) sweep.fleet_rad[i] = {0, 0, -1};
  sweep.lead_rad = sweep.greatest_extension_m = none;
  sweep.least_wrap_rad = sweep.fleet_rad;                 // negated
  sweep.least_tension_N.assign(in.legs(), none);          // likewise
  Extreme least_pay_out = none, least_efficiency = none;  // negated
  for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
    const Pose& pose = sweep.poses[p];
    const int at = static_cast<int>(p);
    const Between* gap = p < gaps.size() ? &gaps[p] : nullptr;
    for (std::size_t i = 0; i < sheaves; ++i) {
      if (in.sheaves[i].radius_m == 0) continue;
      const Turn& turn = sweep.turns[p * sheaves + i];
      const double fleet = std::max(std::abs(turn.on_fleet_rad), std::abs(turn.off_fleet_rad));
      const double wrap = turn.wrap_rad;
      sweep.least_wrap_rad[i] =
          worse(sweep.least_wrap_rad[i], -wrap, gap ? greater(-wrap, -gap->wrap_rad[i].low) : -wrap, at);
      sweep.fleet_rad[i] = worse(sweep.fleet_rad[i], fleet, gap ? greater(fleet, gap->fleet_rad[i]) : fleet, at);
    }
    for (std::size_t i = 0; i < in.legs(); ++i) {
      const Leg& leg = sweep.legs[p * in.legs() + i];
      const double least_N = leg.least_tension_N;
      sweep.least_tension_N[i] =
          worse(sweep.least_tension_N[i], -least_N, gap ? greater(-least_N, -gap->least_tension_N[i]) : -least_N, at);
    }
    sweep.lead_rad =
        worse(sweep.lead_rad, pose.lead_rad, gap ? greater(pose.lead_rad, gap->lead_rad) : pose.lead_rad, at);
    double extension_bound = pose.extension_m;
    const auto rated = [&](Extreme& least, double value, Band between) {
      least = worse(least, -value, gap ? greater(-value, -between.low) : -value, at);
    };
    if (pose.travel_m >= 0) {
      rated(least_pay_out, pose.pay_out, gap ? gap->pay_out : Band());
      rated(least_efficiency, pose.efficiency, gap ? gap->efficiency : Band());
    }
    // Where the extension only rises, the later pose tops it.
    const bool rises = pose.travel_m >= 0 && gap && gap->pay_out.low >= 0;
    if (gap && !rises) extension_bound = greater(extension_bound, gap->extension_m.high);
    sweep.greatest_extension_m = worse(sweep.greatest_extension_m, pose.extension_m, extension_bound, at);
    sweep.beyond_data = sweep.beyond_data || !in.unit.retraction_N.covers(pose.extension_m);
  }
  for (Extreme& e : sweep.least_wrap_rad) e = negated(e);
  for (Extreme& e : sweep.least_tension_N) e = negated(e);
  sweep.least_pay_out = negated(least_pay_out);
  sweep.least_efficiency = negated(least_efficiency);
}

}  // namespace

void add_pose(const Inputs& in, const Station& station, Sweep& sweep) {
  if (station.pose.travel_m == 0) sweep.rest_pose = static_cast<int>(sweep.poses.size());
  sweep.poses.push_back(station.pose);
  record(in, station, sweep);
}

Solved<Sweep> solve_sweep(const Inputs& in, int index, const Outlet& outlet) {
  const SweepInputs& sweep_in = in.sweeps[static_cast<std::size_t>(index)];
  const auto passage = pass(in, sweep_in, outlet);
  if (!passage) return tl::unexpected(passage.error());
  Sweep sweep;
  sweep.path = sweep_in.path;
  sweep.running = sweep_in.running;
  sweep.friction = sweep_in.friction;
  sweep.tension_ratio = outlet.tension_ratio;
  sweep.in_wind = norm(sweep_in.wind_Pa) > 0;
  for (const Station& station : passage->stations) add_pose(in, station, sweep);
  for (const Between& gap : passage->gaps) sweep.strays.push_back(gap.stray);
  measure_poses(in, passage->gaps, sweep);
  measure_plane(in, passage->gaps, sweep);
  for (std::size_t p = static_cast<std::size_t>(sweep.rest_pose); p < passage->gaps.size(); ++p)
    sweep.greatest_pay_out = greater(sweep.greatest_pay_out, passage->gaps[p].pay_out.high);
  return sweep;
}

}  // namespace fairlead::reeving
