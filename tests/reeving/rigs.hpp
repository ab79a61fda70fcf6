// The rigs the reeving's tests turn on.
#pragma once

#include <limits>

#include "geometry/mainline/cable.hpp"
#include "geometry/quantity/dimension.hpp"
#include "geometry/reeving/pose.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {

inline constexpr double g = standard_gravity;

/// The worked main line (source WR): span 220 m, end 11 m lower, 1.05 kg/m, EA 11 MN, horizontal tension
/// 15 kN bare.
inline mainline::Cable worked_cable() {
  const double w = 1.05 * g, c = 1 / 11e6;
  const auto length = mainline::length_from_tension(220, -11, w, c, 15e3, mainline::MeasuredAt::horizontal);
  return {220, -11, *length, w, c};
}

/// Height of the main line at the rest mark under the empty trolley without the braking line; the rigs' heights count
/// from it.
inline double worked_rest_height() {
  const mainline::Load trolley{188, 4 * g};
  return mainline::hang_rolling(worked_cable(), {&trolley, 1})->wheels[0].z_m;
}

/// The main line of a rig whose other lines all have their length from the rest position.
inline State alone(const mainline::Cable& cable) { return {cable, {std::numeric_limits<double>::quiet_NaN()}}; }

/// The one line of a 1:1 rig, over all of its sheaves to the outlet.
inline void lead_to(Inputs& in, Point3 outlet, double weight_N_per_m) {
  in.lines = {{.from = {{}, on_trolley},
               .to = {outlet, on_ground},
               .sheaves = static_cast<int>(in.sheaves.size()),
               .weight_N_per_m = weight_N_per_m}};
}

inline SweepInputs worked_sweep(double rider_kg, Running running) {
  const State lines = alone(worked_cable());
  return {0, lines, lines, 4 * g, rider_kg > 0 ? (rider_kg + 2.5) * g : 0, running};
}

/// The worked rig at 1:1: a redirect 1 m above and 1.7 m upstream of the rest mark, unit 45 N + 8 N/m, drag peaking at
/// 640 N and 30 m/s, riders of 30 and 120 kg. Not stated there, and assumed here: line of 0.12 kg/m, sheave of 120 mm,
/// outlet at x = 217 m level with the redirect, line's end 0.1 m below the wheel. In one vertical plane.
inline Inputs worked_rig() {
  Inputs in;
  in.along = {1, 0, 0};
  in.across = {0, 1, 0};
  in.up = {0, 0, 1};
  in.rest_m = 188;
  in.travel_m = 15;
  in.attachment = {0, 0, -0.1};
  in.upstream_m = -4;
  const double z = worked_rest_height();
  in.sheaves = {{{186.3, 0, z + 1}, {0, 1, 0}, 0.06, 1}};
  lead_to(in, {217, 0, z + 1}, 0.12 * g);
  in.outlet_axis = {-1, 0, 0};
  in.unit.retraction_N = Curve({{0, 45}, {30, 45 + 8 * 30}});
  in.unit.magnetic_N = EddyLaw{640, 30};
  in.rest_extension_m = 0.2;
  in.reference = alone(worked_cable());
  in.speed_m_per_s = 9.25;
  in.sweeps = {worked_sweep(0, Running::at_rest), worked_sweep(30, Running::at_rest),
               worked_sweep(30, Running::paying_out), worked_sweep(120, Running::at_rest),
               worked_sweep(120, Running::paying_out)};
  return in;
}

/// The same askew: redirect 40 mm across on a tilted axle, the line's end 30 mm to the other side and below the wheel,
/// a second sheave that turns the line down to the unit, and a retraction table with a kink. Invented.
inline Inputs skew_rig() {
  Inputs in = worked_rig();
  const double z = worked_rest_height();
  in.attachment = {0.05, -0.03, -0.12};
  in.sheaves = {{{186.3, 0.04, z + 1}, unit({0.03, 1, -0.02}), 0.06, 1},
                {{214, 0.3, z + 0.8}, unit({-0.02, 1, 0.02}), 0.05, 1}};
  lead_to(in, {214.1, 0.28, z - 0.9}, 0.12 * g);
  in.outlet_axis = unit({-0.01, 0.02, 1});
  in.unit.retraction_N = Curve({{0, 45}, {3, 60}, {20, 240}});
  return in;
}

/// What a sweep of a rig runs at: its lines' lengths at rest, and a held tension when it pays out.
inline Outlet outlet_of(const Inputs& in, int sweep, double held_N = 500) {
  const SweepInputs& s = in.sweeps[static_cast<std::size_t>(sweep)];
  Outlet outlet = *rest_outlet(in, s.reference, s.trolley_weight_N);
  if (s.running == Running::paying_out) outlet.held_tension_N = held_N;
  return outlet;
}

/// The first line of a rig from an attachment, at a tension at its other end.
inline tl::expected<void, Unsolved> reeve(const Inputs& in, Point3 attachment, double to_tension_N, Reeved& lines) {
  lines.attachment = attachment;
  lines.tension = {{.at_N = to_tension_N, .datum = in.lines[0].to.at}};
  load(lines.tension[0], -in.lines[0].weight_N_per_m * in.up, in.up);
  return hang_line(in, 0, lines);
}

}  // namespace fairlead::reeving
