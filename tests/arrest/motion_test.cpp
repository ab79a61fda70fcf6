#include "geometry/arrest/motion.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/arrest/riding.hpp"

namespace fairlead::arrest {
namespace {

struct FromContactAlone {
  double rider_kg, swing_deg;
};

/// Own computation, printed to a tenth of a degree: 10 m/s, trolleys 2.5 and 4 kg, 1.3 m, no brake. The closed form of
/// the swing is cos = 1 - M (v0 - v1)2 / (2 m g l), M = m mT / (m + mT).
TEST(Motion, ContactAloneSwingsTheRiderAsEnergyAndMomentumSay) {
  for (const FromContactAlone& c :
       {FromContactAlone{15, 56.6}, FromContactAlone{80, 27.3}, FromContactAlone{150, 20.2}}) {
    std::vector<Instant> record;
    const auto m = solve_motion(level(200, (c.rider_kg + 6.5) * standard_gravity), riding(c.rider_kg), no_brake(),
                                {.speed_m_per_s = 10}, &record);
    ASSERT_TRUE(m) << m.error().why;
    const double lost = 10 - 10 * 2.5 / 6.5, shared_kg = c.rider_kg * 6.5 / (c.rider_kg + 6.5);
    const double cosine = 1 - shared_kg * lost * lost / (2 * c.rider_kg * standard_gravity * 1.3);
    EXPECT_NEAR(m->swing_forward_rad.value, std::acos(cosine), 1e-5) << c.rider_kg << " kg";
    EXPECT_NEAR(m->swing_forward_rad.value / degree, c.swing_deg, 0.05) << c.rider_kg << " kg";
    const double load = record.front().lanyard_N / (c.rider_kg * standard_gravity);
    EXPECT_NEAR(load, 1 + lost * lost / (standard_gravity * 1.3), 1e-9) << c.rider_kg << " kg";
    EXPECT_NEAR(load, 3.970, 5e-4) << "own computation";
  }
}

/// The light trolley is dragged on by the swinging rider, to twice the common speed less its own.
TEST(Motion, TrolleyOvershootsTheSpeedItHadAfterContact) {
  const auto m = solve_motion(level(200, 86.5 * standard_gravity), riding(80), no_brake(), {.speed_m_per_s = 10});
  ASSERT_TRUE(m) << m.error().why;
  const double after = 10 * 2.5 / 6.5, common = (80 * 10 + 6.5 * after) / 86.5;
  EXPECT_NEAR(m->speed_after_contact_m_per_s, after, 1e-12);
  EXPECT_NEAR(m->trolley_speed_m_per_s.value, 2 * common - after, 2e-3);
  EXPECT_NEAR(m->trolley_speed_m_per_s.value, 15.2, 0.05);  // own computation
}

/// He leans forward as he slows down, and the record ends before he has swung back.
TEST(Swing, OfWhoNeverLeansBackIsNoneAndNotBelow) {
  const Bodies b = riding(80);
  const auto m =
      solve_motion(level(0.4, weight_N(b)), b, no_brake(), {.speed_m_per_s = 9, .acceleration_m_per_s2 = -1});
  ASSERT_TRUE(m) << m.error().why;
  ASSERT_EQ(m->outcome, Outcome::travel_exhausted);
  EXPECT_GT(m->lean_rad, 5 * degree);
  EXPECT_GE(m->swing_forward_rad.value, m->lean_rad);
  EXPECT_EQ(m->swing_back_rad.value, 0);
}

}  // namespace
}  // namespace fairlead::arrest
