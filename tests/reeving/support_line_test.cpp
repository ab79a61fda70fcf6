// A line from anchor to anchor that wheels of a block roll on: against the main line's solver, and in wind.
#include <gtest/gtest.h>

#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

constexpr double span = 38, weight_N_per_m = 0.3 * g, block_N = 120, above_m = 10;

struct Hung {
  double z_m, tension_N, tether_N;  ///< the tether pulls downstream where it is > 0
};

/// The worked rig, and off to its side a block on one wheel of a support line; a tether level with where the block
/// should come to hang, on the side it would run away from, holds it at x.
Inputs block_on_a_line(double x, const Hung& expected, double compliance_per_N, double unstretched_m) {
  Inputs in = worked_rig();
  const Point3 start{20, 5, above_m};
  const Point3 wheel{start.x + x, 5, expected.z_m};
  in.blocks = {{.drawn = wheel,
                .centre_of_mass = wheel + Vec3{0, 0, -0.3},
                .weight_N = block_N,
                .joint = Joint::carrier,
                .rest_m = wheel.x}};
  in.sheaves.push_back({wheel, {}, 0, 0, 0});
  in.lines.push_back({.from = {start, on_ground},
                      .to = {start + Vec3{span, 0, 2}, on_ground},
                      .first_sheave = 1,
                      .sheaves = 1,
                      .weight_N_per_m = weight_N_per_m,
                      .diameter_m = 10e-3,
                      .compliance_per_N = compliance_per_N,
                      .closing = Closing::length});
  in.lines.push_back({.from = {wheel, 0},
                      .to = {wheel + Vec3{std::copysign(30, expected.tether_N), 0, 0}, on_ground},
                      .first_sheave = 2,
                      .closing = Closing::block_at_rest});
  in.reference.unstretched_m = {unknown_length, unstretched_m, unknown_length};
  for (SweepInputs& s : in.sweeps) s.state.unstretched_m = s.reference.unstretched_m = in.reference.unstretched_m;
  return in;
}

mainline::Cable same_line(double compliance_per_N, double unstretched_m) {
  return {span, 2, unstretched_m, weight_N_per_m, compliance_per_N};
}

/// Where the main line's solver puts such a wheel, and what it takes to hold it there.
Hung rolling(double x, double compliance_per_N, double unstretched_m) {
  const mainline::Load load{x, block_N};
  const auto shape = mainline::hang_rolling(same_line(compliance_per_N, unstretched_m), {&load, 1});
  EXPECT_TRUE(shape);
  return {above_m + shape->wheels[0].z_m, shape->wheels[0].tension_N, -shape->wheels[0].force_x_N};
}
Hung reeved(double x, const Hung& expected, double compliance_per_N, double unstretched_m) {
  const Inputs in = block_on_a_line(x, expected, compliance_per_N, unstretched_m);
  const auto rest = solve_rest(in, in.reference, in.sweeps[0].trolley_weight_N);
  EXPECT_TRUE(rest) << rest.error().why;
  if (!rest) return {};
  const Point3 at = rest->lines.blocks[0].at;
  return {at.z, rest->lines.tension[1](at), std::copysign(rest->lines.tension[2].at_N, expected.tether_N)};
}

TEST(SupportLine, AnInextensibleOneCarriesABlockAsTheMainLineCarriesALoad) {
  for (const double x : {6.0, 12.0, 25.0})
    for (const double slack_m : {0.02, 0.3}) {
      const double length_m = std::hypot(span, 2) + slack_m;
      const Hung expected = rolling(x, 0, length_m), found = reeved(x, expected, 0, length_m);
      EXPECT_NEAR(found.z_m, expected.z_m, 1e-8) << x << " " << slack_m;
      EXPECT_NEAR(found.tension_N, expected.tension_N, 1e-6 * expected.tension_N);
      EXPECT_NEAR(found.tether_N, expected.tether_N, 1e-6 * expected.tension_N);
    }
}

// With e = T/EA the main line weighs w per unstretched metre and stretches by (1 + e); a line of the reeving weighs w
// per metre as it hangs, and is shorter unstretched by (1 - e). Both differ by e of the line's own weight and e^2 of
// its length. At a sag d the first lowers the wheel by less than e d; the second, by dz = 3/16 (span/d) dS and with
// room for a load's kink by span/d e^2 S.
TEST(SupportLine, AStretchingOneDiffersByTheSecondOrderOfItsStretch) {
  const double x = 9, length_m = std::hypot(span, 2) + 0.02;
  for (const double c : {1 / 4.6e6, 1 / 2.3e6}) {
    const Hung expected = rolling(x, c, length_m), found = reeved(x, expected, c, length_m);
    const double e = c * expected.tension_N, d = above_m + 2 * x / span - expected.z_m;
    EXPECT_GT(std::abs(expected.z_m - rolling(x, 0, length_m).z_m), 0.01) << "it does stretch";
    EXPECT_NEAR(found.z_m, expected.z_m, e * d + span / d * e * e * length_m);
  }
}

// Bare, between its anchors, as a leg without a wheel: the main line's bare line.
TEST(SupportLine, WithoutABlockItHangsAsTheBareMainLine) {
  Inputs in = worked_rig();
  in.lines.push_back({.from = {{20, 5, above_m}, on_ground},
                      .to = {{20 + span, 5, above_m + 2}, on_ground},
                      .first_sheave = 1,
                      .weight_N_per_m = weight_N_per_m,
                      .closing = Closing::length});
  const double length_m = std::hypot(span, 2) + 0.05;
  in.reference.unstretched_m = {unknown_length, length_m};
  const auto rest = solve_rest(in, in.reference, in.sweeps[0].trolley_weight_N);
  ASSERT_TRUE(rest) << rest.error().why;
  const auto bare = mainline::hang(same_line(0, length_m));
  ASSERT_TRUE(bare);
  EXPECT_NEAR(rest->lines.legs[2].hang.horizontal_N(), bare->pieces[0].H_N, 1e-7 * bare->pieces[0].H_N);
}

// A side wind of q on a line of diameter d and weight w tilts its plane by atan(q d / w); a light block on weightless
// wheels goes along.
TEST(SupportLine, SideWindTiltsItsPlaneAndPullsTheBlockAcross) {
  Inputs in = two_to_one();
  const Outlet outlet = outlet_of(in, 0);
  const auto still = solve_pose(in, in.sweeps[0], outlet, 2);
  const double q = 60;
  in.sweeps[0].wind_Pa = {0, q, 0};
  const auto windy = solve_pose(in, in.sweeps[0], outlet, 2);
  in.sweeps[0].wind_Pa = {0, -q, 0};
  const auto from_the_right = solve_pose(in, in.sweeps[0], outlet, 2);
  ASSERT_TRUE(still && windy && from_the_right);
  EXPECT_GT(windy->lines.blocks[0].at.y, 0.005);
  EXPECT_NEAR(windy->lines.blocks[0].at.y, -from_the_right->lines.blocks[0].at.y, 1e-9) << "a mirror";
  const Tension& t = windy->lines.tension[2];
  EXPECT_NEAR(t.up.y / t.up.z, -q * in.lines[2].diameter_m / in.lines[2].weight_N_per_m, 1e-12);
  // The wind on all of the lines is carried by what holds them.
  double wind_N = 0, held_N = windy->pose.pull_on_trolley_N.y + windy->pose.pull_on_unit_N.y;
  for (int l = 0; l < int(in.lines.size()); ++l) {
    wind_N += q * in.lines[l].diameter_m * windy->lines.length_m[l];
    for (int k = 0; k <= in.lines[l].sheaves; ++k) {
      const Catenary& leg = windy->lines.legs[in.legs_before(l) + k].hang;
      if (from_body(in, l, k) == on_ground) held_N += leg.from_pull_N().y;
      if (to_body(in, l, k) == on_ground && !(l == in.braking)) held_N += leg.to_pull_N().y;
    }
    for (int i = in.lines[l].first_sheave; i < in.lines[l].first_sheave + in.lines[l].sheaves; ++i)
      if (in.sheaves[i].body == on_ground)
        held_N += q * in.lines[l].diameter_m * in.sheaves[i].radius_m * windy->lines.wrap_rad[i];
  }
  EXPECT_NEAR(held_N, wind_N, 1e-8 * wind_N);
}

}  // namespace
}  // namespace fairlead::reeving
