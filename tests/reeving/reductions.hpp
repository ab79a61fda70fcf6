// Reductions n:1 on the worked main line, for the reeving's tests. All in one vertical plane; invented.
#pragma once

#include <limits>

#include "tests/reeving/rigs.hpp"

namespace fairlead::reeving {

inline constexpr double unknown_length = std::numeric_limits<double>::quiet_NaN();

struct ReductionParts {
  int parts = 2;        ///< n of n:1, 2 to 4
  bool carried = true;  ///< on a support line, its attitude held; else it floats and turns freely
  double weight_N = 58.84;
  double line_kg_per_m = 0.12, support_kg_per_m = 0.3;
};

/// Redirect 1 m above and 1.7 m upstream of the rest mark, block downstream with its centre 17 m beyond the mark at
/// rest, unit 12 m further: the line runs from the trolley over the redirect to the block's sheave and back, at 3:1 on
/// over a second sheave below the redirect to a becket on the block, at 4:1 over a second sheave of the block too; 2:1
/// and 4:1 end at an eye below the redirect. The parts are level and 0.1 m apart. Line 0 is the reduction line, line 1
/// the braking line, line 2 the support line, 38 m long and 1.2 m above. The unit pulls n times as hard as the worked
/// one.
inline Inputs reduction(const ReductionParts& given) {
  Inputs in = worked_rig();
  const int n = given.parts;
  const double top = worked_rest_height() + 1.06, r = 0.05, x = 205;
  const Vec3 axle{0, 1, 0};
  const Point3 block{x, 0, top - 0.1};
  in.nominal_ratio = n;
  in.sheaves = {{{186.3, 0, top - 0.06}, axle, 0.06, 1, on_ground}, {{x, 0, top - r}, axle, r, 1, 0}};
  if (n >= 3) in.sheaves.push_back({{186.5, 0, top - 3 * r}, axle, r, -1, on_ground});
  if (n >= 4) in.sheaves.push_back({{x, 0, top - 5 * r}, axle, r, 1, 0});
  const End dead_end =
      n == 3 ? End{{x - 0.1, 0, top - 4 * r}, 0} : End{{186.3, 0, top - (n == 2 ? 2 : 6) * r}, on_ground};
  const double w = given.line_kg_per_m * g;
  in.lines = {{.from = {{}, on_trolley},
               .to = dead_end,
               .first_sheave = 0,
               .sheaves = static_cast<int>(in.sheaves.size()),
               .weight_N_per_m = w,
               .diameter_m = 8e-3,
               .closing = Closing::block_at_rest},
              {.from = {block + Vec3{0.15, 0, n == 2 ? 0 : -0.05}, 0},
               .to = {{217, 0, top - 0.1}, on_ground},
               .first_sheave = static_cast<int>(in.sheaves.size()),
               .weight_N_per_m = w,
               .diameter_m = 8e-3}};
  in.braking = 1;
  in.pulling = 0;
  in.blocks = {{.drawn = block,
                .centre_of_mass = block + Vec3{0.02, 0, -0.1},
                .weight_N = given.weight_N,
                .joint = given.carried ? Joint::carrier : Joint::none,
                .rest_m = x}};
  in.unit.retraction_N = Curve({{0, 45.0 * n}, {30, 45.0 * n + 8 * n * n * 30}});
  in.unit.magnetic_N = EddyLaw{640.0 * n, 30.0 / n};
  std::vector<double> lengths{unknown_length, unknown_length};
  if (given.carried) {
    const double wheel_above = 0.35, span = 38, above = 1.2;
    for (const double at : {-0.12, 0.12}) in.sheaves.push_back({block + Vec3{at, 0, wheel_above}, {}, 0, 0, 0});
    const double rope_w = given.support_kg_per_m * g, c = 1 / 4.6e6;
    in.lines.push_back({.from = {{180, 0, top + above}, on_ground},
                        .to = {{180 + span, 0, top + above}, on_ground},
                        .first_sheave = static_cast<int>(in.sheaves.size()) - 2,
                        .sheaves = 2,
                        .weight_N_per_m = rope_w,
                        .diameter_m = 10e-3,
                        .compliance_per_N = c,
                        .closing = Closing::length});
    // 0.9 m of sag empty, more under the block.
    lengths.push_back(span * (1 + 8.0 / 3 * (0.9 / span) * (0.9 / span)));
  }
  in.reference.unstretched_m = lengths;
  for (SweepInputs& s : in.sweeps) s.state.unstretched_m = s.reference.unstretched_m = lengths;
  return in;
}

/// A reduction askew: sheaves off the plane on tilted axles, block's parts to both sides, a line that stretches.
inline Inputs skew_reduction(const ReductionParts& given) {
  Inputs in = reduction(given);
  int i = 0;
  for (Sheave& s : in.sheaves) {
    ++i;
    s.centre.y += s.radius_m > 0 ? 0.02 * (i % 3) - 0.02 : 0.03;
    if (s.radius_m > 0) s.axle = unit({0.03 * (i % 2), 1, -0.02 * (i % 3)});
  }
  in.attachment = {0.05, -0.03, -0.12};
  in.lines[0].compliance_per_N = 1 / 0.3e6;
  in.lines[0].to.at.y -= 0.03;
  in.lines[1].from.at.y += 0.02;
  in.lines[1].to.at.y += 0.2;
  in.blocks[0].centre_of_mass.y -= 0.02;
  return in;
}

/// Level parts: the trolley's end as high as the top of the redirect, which stands far upstream with all that hangs
/// there; lines without weight, and a block of a gram that never turns.
inline Inputs level_parts(int n, double upstream_m) {
  Inputs in = reduction({.parts = n, .carried = false, .weight_N = 0.01, .line_kg_per_m = 0});
  in.blocks[0].joint = Joint::carrier;
  for (Sheave& s : in.sheaves)
    if (s.body == on_ground) s.centre.x -= upstream_m;
  if (in.lines[0].to.body == on_ground) in.lines[0].to.at.x -= upstream_m;
  in.attachment = {0, 0, 1.06};
  return in;
}

/// Hangs a trolley of that weight, its line's end at `at`, on the middle of a main line of 1 GN, which gives by 1e-7 m
/// for the pull.
inline mainline::Cable stand_trolley(Inputs& in, Point3 at, double weight_N) {
  in.along = {1, 0, 0};
  in.across = {0, 1, 0};
  in.up = {0, 0, 1};
  in.rest_m = 50;
  in.travel_m = 1;
  const double span = 100, w = 1e4, H = 1e9;
  const auto length = mainline::length_from_tension(span, 0, w, 0, H, mainline::MeasuredAt::horizontal);
  const mainline::Cable cable{span, 0, *length, w, 0};
  const mainline::Load trolley{in.rest_m, weight_N};
  in.origin = {at.x - in.rest_m, at.y, at.z - mainline::hang_rolling(cable, {&trolley, 1})->wheels[0].z_m};
  return cable;
}

/// Source TWO: 2:1 in a vertical plane on weightless lines, block of r 50 mm and 58.84 N, dead end (0, 0.25), unit
/// (-6, 0.1), trolley's end at (3, 0), line of 14 m that crosses. The braking line takes hold of the block at its axle.
inline Inputs two_to_one_in_a_plane() {
  Inputs in;
  const mainline::Cable cable = stand_trolley(in, {3, 0, 0}, 40);
  in.sheaves = {{{-5.4, 0, 0.1}, {0, 1, 0}, 0.05, -1, 0}};
  in.lines = {{.from = {{}, on_trolley}, .to = {{0, 0, 0.25}, on_ground}, .sheaves = 1, .closing = Closing::length},
              {.from = {{-5.4, 0, 0.1}, 0}, .to = {{-6, 0, 0.1}, on_ground}, .first_sheave = 1}};
  in.braking = 1;
  in.blocks = {{.drawn = {-5.4, 0, 0.1}, .centre_of_mass = {-5.4, 0, 0.1}, .weight_N = 58.84, .joint = Joint::carrier}};
  in.outlet_axis = {1, 0, 0};
  in.unit.retraction_N = Curve({{0, 800}, {1, 800}});
  in.unit.magnetic_N = EddyLaw{1, 1};
  in.reference = {cable, {14, unknown_length}};
  in.sweeps = {{0, in.reference, in.reference, 40, 0, Running::paying_out}};
  in.nominal_ratio = 2;
  return in;
}

/// Source HANGS: a redirect that hangs free, its line weightless: legs to (-2, -1.5) and (3, -0.8), link of 0.4 m from
/// the origin, r 60 mm, 20 N, 1000 N on the side of the first.
inline Inputs free_redirect_in_a_plane() {
  Inputs in;
  const mainline::Cable cable = stand_trolley(in, {3, 0, -0.8}, 5000);
  in.sheaves = {{{0, 0, -0.4}, {0, 1, 0}, 0.06, -1, 0}};
  in.lines = {{.from = {{}, on_trolley}, .to = {{-2, 0, -1.5}, on_ground}, .sheaves = 1}};
  in.blocks = {{.drawn = {0, 0, 0}, .centre_of_mass = {0, 0, -0.4}, .weight_N = 20, .joint = Joint::ball}};
  in.outlet_axis = {1, 0, 0};
  in.unit.retraction_N = Curve({{0, 1000}, {1, 1000}});
  in.unit.magnetic_N = EddyLaw{1, 1};
  in.reference = {cable, {unknown_length}};
  in.sweeps = {{0, in.reference, in.reference, 5000, 0, Running::paying_out}};
  return in;
}

/// What is settled for a sweep when every sheave rubs by K: the sense in which each turns is seen without friction.
inline Outlet rubbing(const Inputs& in, const SweepInputs& sweep, Outlet outlet, double K) {
  outlet.tension_ratio.clear();
  const auto mark = solve_pose(in, sweep, outlet, 0);
  const std::vector<double> flow = flow_of(in, *mark);
  for (std::size_t i = 0; i < in.sheaves.size(); ++i) {
    const bool toward_from = (flow[i] > 0) == (sweep.friction == Friction::paying_out);
    outlet.tension_ratio.push_back(in.sheaves[i].radius_m == 0 ? 1 : toward_from ? K : 1 / K);
  }
  return outlet;
}

inline Inputs two_to_one() { return reduction({.parts = 2}); }
inline Inputs two_to_one_floating() { return reduction({.parts = 2, .carried = false}); }
inline Inputs three_to_one() { return reduction({.parts = 3}); }
inline Inputs four_to_one() { return reduction({.parts = 4}); }

/// 1:1 on a main line that hardly gives: the trolley's leg runs 12 m level upstream to the bottom of a sheave of r 60
/// mm and leaves it at the top, 20 m level to the unit, which pulls 25 N whatever is out.
inline Inputs level_rig(double weight_N_per_m) {
  Inputs in;
  const mainline::Cable cable = stand_trolley(in, {12, 0, 0}, 400);
  in.sheaves = {{{0, 0, 0.06}, {0, 1, 0}, 0.06, 1}};
  lead_to(in, {20, 0, 0.12}, weight_N_per_m);
  in.lines[0].diameter_m = 8e-3;
  in.outlet_axis = {-1, 0, 0};
  in.unit.retraction_N = Curve({{0, 25}, {30, 25}});
  in.unit.magnetic_N = EddyLaw{300, 10};
  in.rest_extension_m = 0.5;
  in.reference = alone(cable);
  in.speed_m_per_s = 5;
  in.sweeps = {{0, in.reference, in.reference, 400, 0, Running::at_rest}};
  return in;
}

}  // namespace fairlead::reeving
