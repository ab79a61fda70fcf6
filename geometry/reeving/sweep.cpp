#include "geometry/reeving/sweep.hpp"

#include <fmt/format.h>

#include <limits>
#include <numbers>

#include "geometry/reeving/between.hpp"
#include "geometry/reeving/plane.hpp"
#include "geometry/reeving/sweep_poses.hpp"

namespace fairlead::reeving {
namespace {

Extreme worse(Extreme a, double value, double bound, int pose) {
  if (!(value <= a.value)) a.value = value, a.pose = pose;
  if (!(bound <= a.bound)) a.bound = bound;
  return a;
}

/// The least of something, kept through its negative.
Extreme negated(Extreme e) { return {-e.value, -e.bound, e.pose}; }

constexpr double least_known = -std::numeric_limits<double>::infinity();

/// Turn and leg records of one station.
void record(const Inputs& in, const Station& station, Sweep& sweep) {
  const std::size_t sheaves = in.sheaves.size();
  const double w = in.line_weight_N_per_m;
  for (std::size_t i = 0; i <= sheaves; ++i) {
    const MetLeg& met = station.line.legs[i];
    const LegEnd from = first_end(in, station.pose.attachment, static_cast<int>(i)),
                 to = second_end(in, static_cast<int>(i));
    Leg leg;
    leg.from = from.centre + from.radius_m * met.from_e;
    leg.to = to.centre + to.radius_m * met.to_e;
    leg.length_m = met.hang.length_m;
    leg.sag_m = met.hang.sag_m();
    leg.from_tension_N = met.hang.from_tension_N();
    leg.to_tension_N = met.hang.to_tension_N();
    leg.H_N = met.hang.horizontal_N();
    leg.weight_N = w * met.hang.length_m;
    sweep.legs.push_back(leg);
    if (i == 0) continue;
    const MetLeg& before = station.line.legs[i - 1];
    const Sheave& sheave = in.sheaves[i - 1];
    Turn turn;
    turn.on = sheave.centre + sheave.radius_m * before.to_e;
    turn.off = sheave.centre + sheave.radius_m * met.from_e;
    turn.on_tension_N = before.hang.to_tension_N();
    turn.off_tension_N = met.hang.from_tension_N();
    turn.on_leg = (1 / turn.on_tension_N) * before.hang.to_pull_N();
    turn.off_leg = (1 / turn.off_tension_N) * met.hang.from_pull_N();
    turn.wrap_rad = station.line.wrap_rad[i - 1];
    turn.on_fleet_rad = fleet_angle(turn.on_leg, sheave.axle);
    turn.off_fleet_rad = fleet_angle(turn.off_leg, sheave.axle);
    // The line on the wrap rests on the groove; its weight acts at the centroid of the arc.
    const double half = turn.wrap_rad / 2, toward = half > 0 ? std::sin(half) / half : 1;
    const Vec3 middle_e =
        std::cos(half) * before.to_e + sheave.sense * std::sin(half) * cross(sheave.axle, before.to_e);
    turn.wrap_centre = sheave.centre + sheave.radius_m * toward * middle_e;
    turn.force_N = turn.on_tension_N * turn.on_leg + turn.off_tension_N * turn.off_leg -
                   w * sheave.radius_m * turn.wrap_rad * in.up;
    turn.couple_N_m = 0;
    sweep.turns.push_back(turn);
  }
}

/// Spread of the whole sweep's points about their plane and across from the main line, with what the contacts and the
/// attachment add between poses.
void measure_plane(const Inputs& in, const std::vector<Between>& gaps, Sweep& sweep) {
  std::vector<Point3> points;
  const std::size_t sheaves = in.sheaves.size();
  for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
    points.push_back(sweep.poses[p].attachment);
    for (std::size_t i = 0; i < sheaves; ++i) {
      points.push_back(sweep.turns[p * sheaves + i].on);
      // The last sheave's off side leads to the unit; it is judged by the lead angle.
      if (i + 1 < sheaves) points.push_back(sweep.turns[p * sheaves + i].off);
    }
  }
  const auto plane = best_plane(points);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  if (!plane) {
    sweep.thickness_m = sweep.across_m = {nan, nan, -1};
    return;
  }
  double across_grows = 0, thickness_grows = 0, across = 0;
  int worst_pose = 0;
  for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
    for (std::size_t i = 0; i <= 2 * sheaves; ++i) {
      const Point3 point =
          i == 0 ? sweep.poses[p].attachment
                 : (i % 2 ? sweep.turns[p * sheaves + i / 2].on : sweep.turns[p * sheaves + i / 2 - 1].off);
      if (i == 2 * sheaves) continue;
      const double off = std::abs(dot(point - in.origin, in.across));
      if (off > across) across = off, worst_pose = static_cast<int>(p);
    }
    if (p >= gaps.size()) continue;
    const double half_ahead = std::abs(dot(sweep.poses[p + 1].attachment - sweep.poses[p].attachment, in.along)) / 2;
    double moves =
        half_ahead * std::abs(dot(plane->normal, in.along)) + gaps[p].up_m * std::abs(dot(plane->normal, in.up));
    for (std::size_t i = 0; i < sheaves; ++i) {
      const double arc = gaps[p].contact_moves_m[i];
      const auto out_of = [&](Vec3 normal) {
        const double c = dot(in.sheaves[i].axle, normal);
        return arc * std::sqrt(std::max(0.0, 1 - c * c));
      };
      moves = std::max(moves, out_of(plane->normal));
      across_grows = std::max(across_grows, out_of(in.across));
    }
    thickness_grows = std::max(thickness_grows, moves);
  }
  sweep.thickness_m = {plane->thickness_m, plane->thickness_m + 2 * thickness_grows, sweep.rest_pose};
  sweep.across_m = {across, across + across_grows, worst_pose};
}

void measure_poses(const Inputs& in, const std::vector<Between>& gaps, Sweep& sweep) {
  const std::size_t sheaves = in.sheaves.size();
  const Extreme none{least_known, least_known, -1};
  sweep.fleet_rad.assign(sheaves, none);
  sweep.lead_rad = sweep.greatest_extension_m = none;
  Extreme least_pay_out = none;  // negated
  for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
    const Pose& pose = sweep.poses[p];
    const int at = static_cast<int>(p);
    const Between* gap = p < gaps.size() ? &gaps[p] : nullptr;
    for (std::size_t i = 0; i < sheaves; ++i) {
      const Turn& turn = sweep.turns[p * sheaves + i];
      const double fleet = std::max(std::abs(turn.on_fleet_rad), std::abs(turn.off_fleet_rad));
      sweep.fleet_rad[i] = worse(sweep.fleet_rad[i], fleet, gap ? std::max(fleet, gap->fleet_rad[i]) : fleet, at);
    }
    sweep.lead_rad =
        worse(sweep.lead_rad, pose.lead_rad, gap ? std::max(pose.lead_rad, gap->lead_rad) : pose.lead_rad, at);
    double extension_bound = pose.extension_m;
    if (pose.travel_m >= 0) {
      least_pay_out =
          worse(least_pay_out, -pose.pay_out, gap ? std::max(-pose.pay_out, -gap->pay_out.low) : -pose.pay_out, at);
      // Between two poses the extension rises no faster than the greatest rate; where it only rises, the later pose
      // tops it.
      if (gap && !(gap->pay_out.low >= 0))
        extension_bound += gap->pay_out.greatest_size() * (sweep.poses[p + 1].travel_m - pose.travel_m);
    } else if (gap) {
      // Upstream of the mark the trolley bobs; no leg lengthens by more than its end moves.
      extension_bound += 2 * gap->up_m;
    }
    sweep.greatest_extension_m =
        worse(sweep.greatest_extension_m, pose.extension_m, std::max(pose.extension_m, extension_bound), at);
    sweep.beyond_data = sweep.beyond_data || !in.unit.retraction_N.covers(pose.extension_m);
  }
  sweep.least_pay_out = negated(least_pay_out);
}

}  // namespace

Solved<Sweep> solve_sweep(const Inputs& in, int index, const Outlet& outlet) {
  const SweepInputs& sweep_in = in.sweeps[static_cast<std::size_t>(index)];
  auto stations = solve_stations(in, sweep_in, outlet);
  if (!stations) return tl::unexpected(stations.error());
  Sweep sweep;
  sweep.path = sweep_in.path;
  sweep.running = sweep_in.running;
  std::vector<Between> gaps;
  for (std::size_t p = 0; p < stations->size(); ++p) {
    const Station& station = (*stations)[p];
    if (station.pose.travel_m == 0) sweep.rest_pose = static_cast<int>(p);
    sweep.poses.push_back(station.pose);
    record(in, station, sweep);
    if (p + 1 < stations->size()) gaps.push_back(between(in, station, (*stations)[p + 1]));
  }
  measure_poses(in, gaps, sweep);
  measure_plane(in, gaps, sweep);
  for (std::size_t p = static_cast<std::size_t>(sweep.rest_pose); p < gaps.size(); ++p)
    sweep.greatest_pay_out = std::max(sweep.greatest_pay_out, gaps[p].pay_out.high);
  return sweep;
}

}  // namespace fairlead::reeving
