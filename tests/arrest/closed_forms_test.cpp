// The motion where a formula knows the answer. The keys are those of tests/SOURCES.md, section arrest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/arrest/motion.hpp"
#include "tests/arrest/riding.hpp"

namespace fairlead::arrest {
namespace {

using reeving::EddyLaw;

/// Nothing hangs and nothing is lost at contact: all the mass is in the rider's trolley.
Bodies lump(double mass_kg) {
  return {.rider_kg = 1e-6, .rider_trolley_kg = mass_kg, .brake_trolley_kg = 1e-6, .hanging_m = 1.3};
}

/// Integration is held to 1e-7 a step; these take up to some hundred steps.
constexpr double integrated = 1e-5;

double eddy_stop_m(double mass_kg, EddyLaw law, double speed_m_per_s) {
  const double v = speed_m_per_s, vc = law.critical_speed_m_per_s;
  return mass_kg / (2 * law.peak_N * vc) * (v * v * v / 3 + vc * vc * v);
}

/// EDDY-STOP. On a level line an eddy law alone takes longer than any time: what stands is told by a speed.
TEST(EddyBrake, StopsAHundredKilogramsIn15m) {
  ASSERT_NEAR(eddy_stop_m(100, {1000, 5}, 15), 15.000, 1e-12);
  const Bodies b = lump(100);
  const auto m = solve_motion(level(30, weight_N(b)), b, unit(0, 0, EddyLaw{1000, 5}), {.speed_m_per_s = 15});
  ASSERT_TRUE(m) << m.error().why;
  EXPECT_EQ(m->outcome, Outcome::stops);
  EXPECT_NEAR(m->end_travel_m, 15.000, integrated);
  EXPECT_NEAR(m->stop_travel_m, 15.000, integrated);
  EXPECT_NEAR(m->brake_work_J, 100 * 15 * 15 / 2., 1e-2) << "all of the kinetic energy";
  // Hot, wet or worn, it takes longer by what is missing.
  Unit weak = unit(0, 0, EddyLaw{1000, 5});
  weak.share = 0.8;
  const auto longer = solve_motion(level(30, weight_N(b)), b, weak, {.speed_m_per_s = 15});
  ASSERT_TRUE(longer) << longer.error().why;
  EXPECT_NEAR(longer->end_travel_m, 15 / 0.8, integrated);
}

/// The reduction divides the unit's force and its line's speed; a rotor that turns along adds to the mass.
TEST(EddyBrake, StopsBehindAReductionAsBehindAWeakerUnitOfHigherCriticalSpeed) {
  const Bodies b = lump(100);
  for (const double n : {1.0, 1.5, 2.0})
    for (const double efficiency : {1.0, 0.9}) {
      const auto track = Track::plain(
          {.ratio = n, .efficiency = efficiency, .travel_m = 200, .weight_N = weight_N(b), .inertia_kg = 5});
      const auto m = solve_motion(*track, b, unit(0, 0, EddyLaw{1000, 5}), {.speed_m_per_s = 15});
      ASSERT_TRUE(m) << m.error().why;
      const double after = 15 * 100 / 105.;  // the rotor takes its share of the momentum
      EXPECT_NEAR(m->speed_after_contact_m_per_s, after, integrated);
      EXPECT_NEAR(m->end_travel_m, eddy_stop_m(105, {1000 / n / efficiency, 5 * n}, after), 10 * integrated) << n;
    }
}

/// LEAN. What brakes is steady, the trolley so heavy that the rider does not slow it.
TEST(SuddenDeceleration, SwingsTheRiderToTwiceTheSteadyLean) {
  struct Case {
    double over_g, swing_deg, lean_deg, tolerance_deg;
  };
  for (const Case& c : {Case{0.5, 53.130, 26.565, 5e-4}, Case{std::numbers::sqrt2 - 1, 45, 22.5, 5e-4}}) {
    Bodies b = lump(1e6);
    b.rider_kg = 1;
    std::vector<Instant> record;
    // The track ends before the trolley stands, for then the rider swings about another lean.
    const auto m = solve_motion(level(100, weight_N(b)), b, steady(c.over_g * g * 1e6), {.speed_m_per_s = 40}, &record);
    ASSERT_TRUE(m) << m.error().why;
    ASSERT_EQ(m->outcome, Outcome::travel_exhausted);
    EXPECT_NEAR(m->swing_forward_rad.value, 2 * std::atan(c.over_g), integrated);
    EXPECT_NEAR(m->swing_forward_rad.value / degree, c.swing_deg, c.tolerance_deg);
    const double mean = (m->swing_forward_rad.value - m->swing_back_rad.value) / 2;
    EXPECT_NEAR(mean / degree, c.lean_deg, c.tolerance_deg);
    EXPECT_NEAR(m->deceleration_held_m_per_s2.value, c.over_g * g, 1e-4);
    // At the end of the swing the lanyard carries the apparent weight by the cosine of the lean from it.
    EXPECT_NEAR(m->load_raw.value, std::hypot(1, c.over_g) * (3 - 2 * std::cos(std::atan(c.over_g))), 1e-4);
  }
}

/// Constant deceleration a after an impact: energy and the lanyard's tension about the apparent vertical, which leans
/// by atan(a/g). The lanyard goes slack where cos = (2 cos lean - l w2 / g') / 3, from 90 degrees off on.
double slack_lean_rad(double a, double rate, double hanging_m) {
  const double lean = std::atan(a / g), apparent = std::hypot(a, g);
  return lean + std::acos((2 * std::cos(lean) - hanging_m * rate * rate / apparent) / 3);
}

/// LEAN.
TEST(Lanyard, GoesSlackFrom90DegreesOffTheApparentVerticalOn) {
  for (const double a : {0.3 * g, 0.8 * g})
    for (const double more : {0.999, 1.001, 1.2}) {
      const double rate = std::sqrt(2 * g / 1.3) * more, impact = 1.3 * rate;
      // So heavy that he does not slow them; they keep ten elevenths of their speed, and do not stop within his swing.
      const Bodies b{.rider_kg = 1, .rider_trolley_kg = 1e6, .brake_trolley_kg = 1e5, .hanging_m = 1.3};
      const auto m = solve_motion(level(200, weight_N(b)), b, steady(a * 1.1e6), {.speed_m_per_s = 11 * impact});
      ASSERT_TRUE(m) << m.error().why;
      EXPECT_NEAR(m->swing_rate_after_contact_rad_per_s, rate, 1e-4);
      const double square = 90 * degree + std::atan(a / g);
      if (more < 1) {
        EXPECT_NE(m->outcome, Outcome::lanyard_slack);
        EXPECT_LT(m->swing_forward_rad.value, square);
      } else {
        EXPECT_EQ(m->outcome, Outcome::lanyard_slack);
        EXPECT_NEAR(m->swing_forward_rad.value, slack_lean_rad(a, rate, 1.3), 1e-4) << a << " m/s2, " << more;
        EXPECT_GE(m->swing_forward_rad.value, square);
      }
    }
}

/// CONTACT. A rider who leans takes part in the impact through the lanyard; at no lean he takes none.
TEST(Contact, WithLean6DegLeavesTheTrolleysFasterThanTheyWouldBeAlone) {
  const Bodies b = riding(150);
  const Track track = level(200, weight_N(b));
  const auto leaning =
      solve_motion(track, b, no_brake(), {.speed_m_per_s = 10.28, .acceleration_m_per_s2 = -g * std::tan(6 * degree)});
  const auto upright = solve_motion(track, b, no_brake(), {.speed_m_per_s = 10.28});
  ASSERT_TRUE(leaning && upright);
  EXPECT_NEAR(leaning->lean_rad, 6 * degree, 1e-12);
  EXPECT_NEAR(leaning->speed_after_contact_m_per_s, 5.228, 5e-4);
  EXPECT_NEAR(upright->speed_after_contact_m_per_s, 3.954, 5e-4);
  // Level: the rider's side weighs m1 + m sin2 at the wheel, and loses what a plastic impact of it loses.
  const double rider_side = 2.5 + 150 * std::pow(std::sin(6 * degree), 2), shared = rider_side * 4 / (rider_side + 4);
  EXPECT_NEAR(leaning->lost_at_contact_J, shared * 10.28 * 10.28 / 2, 1e-6);
}

/// Falls by `slope`; with the steady tension that the unit needs to hold all that hangs there.
TEST(EddyBrake, OnAFallingLineCreepsAtTheSpeedWhereItsDragEqualsTheWeightAlongTheLine) {
  struct Case {
    double ratio, slope;
  };
  for (const Case& c : {Case{1, -0.10}, Case{2, -0.05}, Case{2, -0.02}}) {
    const Bodies b = lump(86.5);
    const Unit u = unit(0, 0, EddyLaw{1000, 5});
    const auto track = Track::plain({.ratio = c.ratio, .slope = c.slope, .travel_m = 400, .weight_N = weight_N(b)});
    const auto m = solve_motion(*track, b, u, {.speed_m_per_s = 6});
    ASSERT_TRUE(m) << m.error().why;
    EXPECT_EQ(m->outcome, Outcome::creeps);
    // W s = T / n; of the two line speeds with that drag the slower one is stable.
    const double T = -c.ratio * c.slope * weight_N(b), vc = 5, F = 1000;
    const double line = (F - std::sqrt(F * F - T * T)) * vc / T;
    ASSERT_NEAR(2 * F / (line / vc + vc / line), T, 1e-9);
    EXPECT_NEAR(m->end_speed_m_per_s, c.ratio * line, 1e-4) << c.ratio;
  }
}

/// His swing brings both trolleys to a standstill and beyond, and yet he creeps, at the speed where drag and retraction
/// equal the weight along the line.
TEST(EddyBrake, ARiderWhoseSwingHoldsTheTrolleysForAMomentHasNotStopped) {
  const Bodies b = riding(120);
  const auto track = Track::plain({.slope = -0.1, .travel_m = 400, .weight_N = weight_N(b)});
  std::vector<Instant> record;
  const auto m = solve_motion(*track, b, unit(20, 0, EddyLaw{1000, 5}), {.speed_m_per_s = 4}, &record);
  ASSERT_TRUE(m) << m.error().why;
  const auto back = [](const Instant& i) { return !i.apart && i.speed_m_per_s < 0; };
  ASSERT_TRUE(std::any_of(record.begin(), record.end(), back));
  EXPECT_EQ(m->outcome, Outcome::creeps);
  EXPECT_EQ(m->end_s, longest_s);
  const double T = 0.1 * weight_N(b) - 20, line = (1000 - std::sqrt(1e6 - T * T)) * 5 / T;
  EXPECT_NEAR(m->end_speed_m_per_s, line, 0.01 * line) << "his swing dies out in the drag";
}

/// Drawn back, the light trolley goes as fast as its share of the drag lets it.
TEST(ReturnDrag, LimitsTheSpeedAtWhichALightTrolleyIsDrawnBack) {
  const Bodies b = lump(5);
  Unit u = unit(300, 0, EddyLaw{2000, 3});
  u.share = 0.8, u.return_share = 0.5;
  const auto m = solve_motion(level(30, weight_N(b)), b, u, {.speed_m_per_s = 12});
  ASSERT_TRUE(m) << m.error().why;
  const double F = 0.8 * 0.5 * 2000, speed = (F - std::sqrt(F * F - 300. * 300)) * 3 / 300;
  EXPECT_NEAR(m->end_speed_m_per_s, -speed, 1e-4);
}

/// Slower than what counts as standing it stops by that speed, and only then.
TEST(Creeping, IsToldFromStandingByTheStatedSpeed) {
  const Bodies b = lump(100);
  for (const double share : {0.9, 1.1}) {
    const double F = 1000, vc = 5, line = share * standing_m_per_s, T = 2 * F / (line / vc + vc / line);
    const auto track = Track::plain({.slope = -T / weight_N(b), .travel_m = 100, .weight_N = weight_N(b)});
    const auto m = solve_motion(*track, b, unit(0, 0, EddyLaw{F, vc}), {.speed_m_per_s = 10});
    ASSERT_TRUE(m) << m.error().why;
    EXPECT_NEAR(m->end_speed_m_per_s, line, 1e-5);
    EXPECT_EQ(m->outcome, share < 1 ? Outcome::stops : Outcome::creeps);
  }
}

/// Under a steady force the speed left follows from energy: v2 = v0 2 - 2 F x / m.
TEST(ExhaustedTravel, LeavesTheSpeedThatEnergySays) {
  const Bodies b = lump(100);
  const auto m = solve_motion(level(15, weight_N(b)), b, steady(300), {.speed_m_per_s = 12});
  ASSERT_TRUE(m) << m.error().why;
  EXPECT_EQ(m->outcome, Outcome::travel_exhausted);
  EXPECT_NEAR(m->end_travel_m, 15, 1e-9);
  EXPECT_NEAR(m->end_speed_m_per_s, std::sqrt(12 * 12 - 2 * 3 * 15.), integrated);
}

TEST(ExhaustedExtension, LeavesTheSpeedThatEnergySaysWhereTheLineIsOut) {
  const Bodies b = lump(100);
  Unit u = steady(600);
  u.extension_limit_m = 5.4;
  const auto track = Track::plain({.ratio = 2, .travel_m = 15, .rest_extension_m = 0.4, .weight_N = weight_N(b)});
  const auto m = solve_motion(*track, b, u, {.speed_m_per_s = 12});
  ASSERT_TRUE(m) << m.error().why;
  EXPECT_EQ(m->outcome, Outcome::extension_exhausted);
  EXPECT_NEAR(m->end_extension_m, 5.4, 1e-9);
  EXPECT_NEAR(m->end_travel_m, 10, 1e-9);
  EXPECT_NEAR(m->end_speed_m_per_s, std::sqrt(12 * 12 - 2 * 3 * 10.), integrated);
}

/// Rolling resistance of all that hangs, with a level line's own normal force; it holds where it stopped.
TEST(RollingResistance, StopsATrolleyAfterV2Over2gTimesIt) {
  Bodies b = lump(100);
  b.rolling = 0.1;
  const auto m = solve_motion(level(200, weight_N(b)), b, no_brake(), {.speed_m_per_s = 10});
  ASSERT_TRUE(m) << m.error().why;
  EXPECT_EQ(m->outcome, Outcome::stops);
  EXPECT_NEAR(m->stop_travel_m, 10 * 10 / (2 * 0.1 * g), 1e-4);
  EXPECT_NEAR(m->stop_time_s, 10 / (0.1 * g), 1e-4);
  EXPECT_NEAR(m->rolling_and_drag_J, 100 * 10 * 10 / 2., 1e-3);
}

/// On a slope gravity along the line adds to it: a2 = g (f cos - sin), friction by the normal force.
TEST(RollingResistance, OnAnInclineTakesTheNormalForce) {
  Bodies b = lump(100);
  b.rolling = 0.05;
  for (const double slope : {0.2, 0.02, -0.005}) {
    const auto track = Track::plain({.slope = slope, .travel_m = 200, .weight_N = weight_N(b)});
    const auto m = solve_motion(*track, b, no_brake(), {.speed_m_per_s = 8});
    ASSERT_TRUE(m) << m.error().why;
    const double angle = std::atan(slope), a = g * (std::sin(angle) + 0.05 * std::cos(angle));
    EXPECT_NEAR(m->stop_time_s > 0 ? m->stop_travel_m : 0, 8 * 8 / (2 * a) * std::cos(angle), 1e-4) << slope;
  }
}

}  // namespace
}  // namespace fairlead::arrest
