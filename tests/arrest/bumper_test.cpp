// A bumper between the trolleys: the collision of two masses on a spring, and its limits.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/arrest/draws.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::arrest {
namespace {

/// Trolleys of 4 and 2.5 kg with an endlessly long lanyard, whose rider feels nothing of them.
Bodies on_bumper(double stiffness, double damping = 0) {
  return {.rider_kg = 80,
          .rider_trolley_kg = 4,
          .brake_trolley_kg = 2.5,
          .hanging_m = 1e6,
          .bumper_N_per_m = stiffness,
          .bumper_damping = damping,
          .bumper_give_m = no_limit_m};
}

/// Elastic collision of free masses: any textbook of mechanics. The rider leans v t / l at most, so that he pulls on
/// his trolley with m g v t / l < 0.002 N of 5 kN, which turns its speed by 1e-4 m/s in 0.2 s; peaks are read by
/// parabolas of a swing that turns 0.28 rad in a step, which leaves its fourth power over 384 of them, 2e-5.
TEST(Bumper, ThrowsTwoMassesApartAsTheirMomentumAndEnergySay) {
  const double m1 = 4, mb = 2.5, k = 5000, v = 8, reduced = m1 * mb / (m1 + mb);
  const Bodies b = on_bumper(k);
  std::vector<Instant> record;
  const auto m = solve_motion(level(60, weight_N(b)), b, no_brake(), {.speed_m_per_s = v}, &record);
  ASSERT_TRUE(m) << m.error().why;
  EXPECT_EQ(m->outcome, Outcome::travel_exhausted);
  EXPECT_NEAR(m->deceleration_raw_m_per_s2.value, v * std::sqrt(k * reduced) / m1, 1e-4 * v * std::sqrt(k * reduced));
  const Instant& after = record[40];  // half a swing takes 56 ms
  EXPECT_NEAR(after.speed_m_per_s, v * (m1 - mb) / (m1 + mb), 1e-4);
  EXPECT_NEAR(after.brake_speed_m_per_s, v * 2 * m1 / (m1 + mb), 1e-4);
  EXPECT_EQ(m->lost_at_contact_J, 0);
  EXPECT_EQ(m->speed_after_contact_m_per_s, v);
}

/// Critically damped, s'' + 2 w s' + w^2 s = 0 from s' = v: s = v t exp(-w t), so that the push w^2 s + 2 w s' is
/// greatest at contact, 2 w v of the reduced mass.
TEST(Bumper, CriticallyDampedPushesHardestAtContact) {
  const double m1 = 4, mb = 2.5, k = 5000, v = 8, reduced = m1 * mb / (m1 + mb), w = std::sqrt(k / reduced);
  const Bodies b = on_bumper(k, 1);
  std::vector<Instant> record;
  const auto m = solve_motion(level(60, weight_N(b)), b, no_brake(), {.speed_m_per_s = v}, &record);
  ASSERT_TRUE(m) << m.error().why;
  // The first step is shorter than a hundredth of 1/w, at whose end the push is read first.
  EXPECT_NEAR(m->deceleration_raw_m_per_s2.value, 2 * w * v * reduced / m1, 0.03 * 2 * w * v * reduced / m1);
  const double t = 4 * record_step_s, s = v * t * std::exp(-w * t);
  EXPECT_NEAR(record[4].travel_m - record[4].brake_travel_m, s, 1e-5);
}

TEST(Bumper, LosesNoEnergyUncountedOnAnyRig) {
  for (const unsigned seed : laws::seeds(400)) {
    laws::Draw draw(seed);
    Drawn c = drawn(draw);
    c.bodies.bumper_N_per_m = draw.between(2e3, 6e4);
    c.bodies.bumper_damping = draw.once_in(3) ? 0 : draw.between(0, 1);
    c.bodies.bumper_give_m = no_limit_m;
    c.bodies.coupled = draw.once_in(2);
    const Track track = *Track::plain({.ratio = draw.between(0.5, 4),
                                       .efficiency = draw.between(0.7, 1),
                                       .slope = draw.between(-0.1, 0.1),
                                       .travel_m = 12,
                                       .weight_N = weight_N(c.bodies),
                                       .inertia_kg = draw.between(0, 3)});
    const auto m = solve_motion(track, c.bodies, c.unit, c.contact);
    EXPECT_TRUE(m) << "seed " << seed << ": " << m.error().why;
  }
}

/// The stiffer a damped bumper between coupled trolleys, the nearer to the impact without one.
TEST(Bumper, TendsToTheRigidImpactAsItStiffens) {
  Bodies b = riding(80);
  b.coupled = true;
  const Track track = level(60, weight_N(b));
  const Unit u = unit(40, 8, reeving::EddyLaw{600, 20});
  const auto rigid = solve_motion(track, b, u, {.speed_m_per_s = 8});
  ASSERT_TRUE(rigid) << rigid.error().why;
  b.bumper_damping = 0.7, b.bumper_give_m = 1;
  double before_m = 1;
  for (const double stiffness : {1e4, 1e5, 1e6}) {
    b.bumper_N_per_m = stiffness;
    const auto m = solve_motion(track, b, u, {.speed_m_per_s = 8});
    ASSERT_TRUE(m) << m.error().why;
    const double off_m = std::abs(m->stop_travel_m - rigid->stop_travel_m);
    EXPECT_LT(off_m, before_m / 2) << stiffness;
    before_m = off_m;
  }
  EXPECT_LT(before_m, 2e-3);
}

TEST(Bumper, ThatIsPressedSolidIsNoResult) {
  Bodies b = on_bumper(5000);
  const double pressed_m = 8 * std::sqrt(4 * 2.5 / 6.5 / 5000);
  b.bumper_give_m = 1.01 * pressed_m;
  EXPECT_TRUE(solve_motion(level(60, weight_N(b)), b, no_brake(), {.speed_m_per_s = 8}));
  b.bumper_give_m = 0.99 * pressed_m;
  const auto m = solve_motion(level(60, weight_N(b)), b, no_brake(), {.speed_m_per_s = 8});
  ASSERT_FALSE(m);
  EXPECT_TRUE(m.error().why.starts_with("the bumper is pressed solid")) << m.error().why;
}

/// The line draws the brake trolley upstream, against its stop: there it stays until the bumper pushes harder.
TEST(Bumper, TheBrakeTrolleyWaitsAtItsStop) {
  const Bodies b = on_bumper(5000);
  std::vector<Instant> record;
  const double held_N = 600;
  ASSERT_TRUE(
      solve_motion(level(60, weight_N(b)), b, unit(held_N, 0, reeving::EddyLaw{1, 1}), {.speed_m_per_s = 8}, &record));
  int waited = 0;
  for (const Instant& i : record) {
    EXPECT_GE(i.brake_travel_m, 0);
    if (i.brake_travel_m > 0) continue;
    ++waited;
    EXPECT_LE(5000 * i.travel_m, held_N);
  }
  EXPECT_GE(waited, 3) << "15 ms at 8 m/s press it by 0.12 m, which is 600 N";
}

}  // namespace
}  // namespace fairlead::arrest
