#include "geometry/arrest/motion.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

constexpr double degree = std::numbers::pi / 180;

Track level(double travel_m, double weight_N, double ratio = 1, double slope = 0) {
  return *Track::plain({.ratio = ratio, .slope = slope, .travel_m = travel_m, .weight_N = weight_N});
}

Unit no_brake() {
  return {.law = {.retraction_N = Curve({{0, 0}, {1, 0}}), .magnetic_N = reeving::EddyLaw{0, 1}},
          .extension_limit_m = 1e6};
}

Bodies bodies(double rider_kg) {
  return {.rider_kg = rider_kg, .rider_trolley_kg = 2.5, .brake_trolley_kg = 4, .hanging_m = 1.3};
}

struct Swing {
  double rider_kg, above_three_s, greatest_deg;
};

TEST(Motion, SwingFromContactAlone) {
  for (const Swing& c : {Swing{15, .057, 56.6}, Swing{80, .025, 27.3}, Swing{150, 0, 20.2}}) {
    const Track track = level(200, (c.rider_kg + 6.5) * standard_gravity);
    std::vector<Instant> record;
    const auto m = solve_motion(track, bodies(c.rider_kg), no_brake(), {.speed_m_per_s = 10}, &record);
    ASSERT_TRUE(m) << m.error().why;
    std::printf("%g kg: load0 %.4f held %.3f filt %.3f fwd %.3f back %.3f vpeak %.3f v1 %.4f res %.2g out %d sep %d t %g\n", c.rider_kg, m->load_raw.value, m->load_held.value, m->load_filtered.value,
                m->swing_forward_rad.value / degree, m->swing_back_rad.value / degree, m->trolley_speed_m_per_s.value, m->speed_after_contact_m_per_s,
                m->energy_residual, int(m->outcome), m->separations, m->end_s);
  }
  const auto start = std::chrono::steady_clock::now();
  const Track track = level(15, 126.5 * standard_gravity);
  Unit unit{.law = {.retraction_N = Curve({{0, 45}, {18, 190}}), .magnetic_N = reeving::EddyLaw{640, 30}}, .share=1, .extension_limit_m = 18};
  for (int i = 0; i < 3000; ++i) {
    auto b = bodies(120); b.rolling = .01; b.drag_kg_per_m=.3;
    const auto m = solve_motion(track, b, unit, {.speed_m_per_s = 9.25});
    if (i == 0) {
    ASSERT_TRUE(m) << m.error().why;
    std::printf("stop %.4f at %.3f end %.3f (%.3f) load0 %.4f held %.3f filt %.3f fwd %.3f back %.3f vpeak %.3f v1 %.4f res %.2g out %d sep %d T %.1f line %.2f\n", m->stop_travel_m, m->stop_time_s, m->end_travel_m, m->end_s, m->load_raw.value, m->load_held.value, m->load_filtered.value,
                m->swing_forward_rad.value / degree, m->swing_back_rad.value / degree, m->trolley_speed_m_per_s.value, m->speed_after_contact_m_per_s,
                m->energy_residual, int(m->outcome), m->separations, m->unit_tension_N.value, m->line_speed_m_per_s.value);
    }
  }
  std::printf("%.3f ms each\n", std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count() / 3);
}

}  // namespace
}  // namespace fairlead::arrest
