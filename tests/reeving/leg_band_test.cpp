// A leg in bands against legs drawn from them.
#include "geometry/reeving/leg_band.hpp"

#include <gtest/gtest.h>

#include <random>

namespace fairlead::reeving {
namespace {

double uniform(std::mt19937_64& random, double from, double to) {
  return from + (to - from) * static_cast<double>(random() >> 11) * 0x1p-53;
}
double within(std::mt19937_64& random, Band band) {
  // An end as often as not: monotone parts are greatest there.
  const auto kind = random() % 4;
  return kind == 0 ? band.low : kind == 1 ? band.high : uniform(random, band.low, band.high);
}

void expect_in(Band band, double value, const char* what) {
  const double rounding = 1e-12 * (1 + std::abs(value));
  EXPECT_GE(value, band.low - rounding) << what;
  EXPECT_LE(value, band.high + rounding) << what;
}

void expect_holds(const LegBand& band, const Catenary& leg, double w) {
  const Vec3 from = leg.from_pull_N(), to = -leg.to_pull_N(), d = leg.span;
  // The end directions scaled to the span's plan part.
  if (norm({d.x, d.y, 0}) > 1e-3) {
    const double from_scale = std::hypot(d.x, d.y) / std::hypot(from.x, from.y);
    expect_in(band.from_rise, from.z * from_scale, "from_rise");
    expect_in(band.to_rise, to.z * from_scale, "to_rise");
  }
  expect_in(band.per_along, vary(leg, {1, 0, 0}, 0).length_m, "per_along");
  expect_in(band.per_across, vary(leg, {0, 1, 0}, 0).length_m, "per_across");
  expect_in(band.per_rise, vary(leg, {0, 0, 1}, 0).length_m, "per_rise");
  expect_in(band.per_mid_m_per_N, vary(leg, {}, 1).length_m, "per_mid");
  expect_in(band.from_V_N, from.z, "from_V");
  expect_in(band.V_per_along, vary(leg, {-1, 0, 0}, 0).from_pull_N.z, "V_per_along");
  expect_in(band.V_per_up, vary(leg, {0, 0, -1}, w / 2).from_pull_N.z, "V_per_up");
  expect_in(band.V_per_N, vary(leg, {}, 1).from_pull_N.z, "V_per_N");
  EXPECT_LE(std::max(leg.from_tension_N(), leg.to_tension_N()), band.greatest_tension_N + 1e-9);

  const auto turns = [](Vec3 force, Vec3 change) { return norm(cross(force, change)) / dot(force, force); };
  for (const Vec3 move : {Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}, unit(d), unit(cross(d, {1, 2, 3}))}) {
    const LegChange to_moves = vary(leg, move, move.z * w / 2), from_moves = vary(leg, -move, move.z * w / 2);
    EXPECT_LE(std::abs(to_moves.from_pull_N.z), band.V_per_to_N_per_m * (1 + 1e-12));
    for (const LegChange& c : {to_moves, from_moves}) {
      EXPECT_LE(turns(from, c.from_pull_N), band.swing_rad_per_m * (1 + 1e-12));
      EXPECT_LE(turns(to, c.to_pull_N), band.swing_rad_per_m * (1 + 1e-12));
    }
  }
  const LegChange tighter = vary(leg, {}, 1);
  EXPECT_LE(turns(from, tighter.from_pull_N), band.swing_rad_per_N * (1 + 1e-12) + 1e-15);
  EXPECT_LE(turns(to, tighter.to_pull_N), band.swing_rad_per_N * (1 + 1e-12) + 1e-15);
}

TEST(LegBand, OfTwentyThousandRandomLegsNoneLeavesItsBands) {
  std::mt19937_64 random(11);
  int hung = 0;
  for (int i = 0; i < 2000; ++i) {
    const double size = std::pow(10, uniform(random, -0.3, 1.5)), half = size * std::pow(10, uniform(random, -5, -0.8));
    const Vec3 to = unit({uniform(random, -1, 1), uniform(random, -0.3, 0.3), uniform(random, -1, 1)});
    const double w = i % 5 == 0 ? 0 : uniform(random, 0.1, 1.5), T = std::pow(10, uniform(random, 1.5, 2.9));
    // Plumb and level legs among them.
    const Band along = around(i % 7 == 0 ? 0 : size * to.x, half), across = around(i % 7 == 0 ? 0 : size * to.y, half),
               rise = around(i % 7 == 1 ? 0 : size * to.z, half), mid = around(T, T * half / size);
    const LegBand band = leg_between(along, across, rise, mid, w);
    if (!band.hangs) continue;
    ++hung;
    for (int k = 0; k < 12; ++k) {
      const auto leg =
          hang_leg({within(random, along), within(random, across), within(random, rise)}, within(random, mid), w);
      ASSERT_TRUE(leg) << "the band says that all of it hangs";
      expect_holds(band, *leg, w);
    }
    if (HasFailure()) FAIL() << "leg " << i << ": size " << size << ", half " << half << ", w " << w << ", T " << T;
  }
  EXPECT_GT(hung, 1600);
}

TEST(LegBand, OfASingleLegTheyAreThatLeg) {
  const Vec3 span{28, 3, 4};
  const auto leg = hang_leg(span, 47, 1.2);
  const LegBand band = leg_between(span.x, span.y, span.z, 47, 1.2);
  ASSERT_TRUE(leg && band.hangs);
  for (const Band b : {band.from_rise, band.to_rise, band.per_along, band.per_across, band.per_rise,
                       band.per_mid_m_per_N, band.from_V_N, band.V_per_along, band.V_per_up, band.V_per_N})
    EXPECT_LT(b.width(), 1e-12 * (1 + b.greatest_size()));
  expect_holds(band, *leg, 1.2);
}

TEST(LegBand, WhereSomeLegOfTheBandCannotHangNothingIsClaimed) {
  EXPECT_TRUE(leg_between({29, 30}, 0, 0, {45, 50}, 1.2).hangs);
  EXPECT_FALSE(leg_between({29, 31}, 0, 0, {20, 50}, 1.2).hangs);
  EXPECT_FALSE(leg_between({-0.1, 0.1}, {-0.1, 0.1}, {-0.1, 0.1}, 45, 1.2).hangs) << "it may have no length";
}

}  // namespace
}  // namespace fairlead::reeving
