// The rig the reeving's tests turn on: a 220 m line with a redirect 1 m above and 1.7 m upstream of the rest mark.
#pragma once

#include "geometry/mainline/cable.hpp"
#include "geometry/quantity/dimension.hpp"
#include "geometry/reeving/pose.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {

inline constexpr double g = standard_gravity;

/// Span 220 m, end 11 m lower, 1.05 kg/m, EA 11 MN, horizontal tension 15 kN bare.
inline mainline::Cable worked_cable() {
  const double w = 1.05 * g, c = 1 / 11e6;
  const auto length = mainline::length_from_tension(220, -11, w, c, 15e3, mainline::MeasuredAt::horizontal);
  return {220, -11, *length, w, c};
}

/// Height of the main line at the rest mark under the empty trolley, no braking line: where the rig's heights count
/// from.
inline double worked_rest_height() {
  const mainline::Load trolley{188, 4 * g};
  return mainline::hang_rolling(worked_cable(), {&trolley, 1})->wheels[0].z_m;
}

/// One redirect, outlet at x = 217 m; line of 0.12 kg/m; unit 45 N + 8 N/m, drag peaking at 640 N and 30 m/s. The
/// place of the outlet, the line's weight, radius and trolley's eye are this test's own assumptions.
inline Inputs worked_rig() {
  Inputs in;
  in.along = {1, 0, 0};
  in.across = {0, 1, 0};
  in.up = {0, 0, 1};
  in.rest_m = 188;
  in.travel_m = 15;
  in.upstream_m = -5;
  in.attachment = {0, 0, -0.1};
  const double z = worked_rest_height();
  in.sheaves = {{{186.3, 0, z + 1}, {0, 1, 0}, 0.06, 1}};
  in.outlet = {217, 0, z + 1};
  in.outlet_axis = {-1, 0, 0};
  in.unit.retraction_N = Curve({{0, 45}, {30, 45 + 8 * 30}});
  in.unit.magnetic_N = EddyLaw{640, 30};
  in.rest_extension_m = 0.2;
  in.reference = worked_cable();
  in.line_weight_N_per_m = 0.12 * g;
  in.speed_m_per_s = 9.25;
  const auto add = [&](double rider_kg, Running running) {
    in.sweeps.push_back({0, in.reference, in.reference, 4 * g, rider_kg > 0 ? (rider_kg + 2.5) * g : 0, running});
  };
  add(0, Running::at_rest);
  for (const double kg : {30.0, 120.0}) {
    add(kg, Running::at_rest);
    add(kg, Running::paying_out);
  }
  return in;
}

}  // namespace fairlead::reeving
