// How far riders lean where: nothing of a motion lies outside what is told of it.
#include "geometry/arrest/leans.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace fairlead::arrest {
namespace {

/// A swing of so much amplitude and period about a lean, on a trolley at an even speed, as the record takes it.
std::vector<Instant> swinging(double mean_rad, double amplitude_rad, double period_s, double speed_m_per_s,
                              double to_s) {
  std::vector<Instant> record;
  for (int i = 0; record_step_s * i <= to_s; ++i) {
    const double t_s = record_step_s * i;
    record.push_back({.t_s = t_s,
                      .travel_m = speed_m_per_s * t_s,
                      .lean_rad = mean_rad + amplitude_rad * std::sin(2 * std::acos(-1.) * t_s / period_s)});
  }
  return record;
}

TEST(Leans, HoldASwingBetweenTheInstantsOfTheRecordToo) {
  for (const double period_s : {0.11, 0.7, 2.3}) {
    const auto lean = [&](double t_s) { return 0.2 + 0.9 * std::sin(2 * std::acos(-1.) * t_s / period_s); };
    const std::vector<Leans> told = leans_over_travel(swinging(0.2, 0.9, period_s, 2, 4), 1e9);
    for (int i = 0; i < 40000; ++i) {
      const double t_s = 3.99 * i / 40000;
      const Leans& here = told.at(static_cast<std::size_t>(2 * t_s / leans_step_m));
      EXPECT_LE(here.back_rad, lean(t_s));
      EXPECT_GE(here.forward_rad, lean(t_s));
    }
    // Nor is more told than the padding: an eighth of the second difference would be the middle's share.
    const double most = 0.9 * std::pow(2 * std::acos(-1.) * record_step_s / period_s, 2) / 4;
    for (const Leans& leans : told) EXPECT_LE(leans.forward_rad, 1.1 + most + 1e-12);
  }
}

TEST(Leans, OfOneStepAreThoseThatTheTrolleyHadInIt) {
  // 1 m/s: in the first quarter of a metre the swing of 1 s has come to its top, in the second to its middle.
  const std::vector<Leans> told = leans_over_travel(swinging(0, 0.5, 1, 1, 0.5), 1e9);
  EXPECT_NEAR(told[0].forward_rad, 0.5, 1e-3);
  EXPECT_NEAR(told[0].back_rad, 0, 1e-3);
  EXPECT_NEAR(told[1].forward_rad, 0.5, 1e-3);
  const std::vector<Leans> later = leans_over_travel(swinging(0, 0.5, 1, 1, 0.99), 1e9);
  EXPECT_NEAR(later[2].back_rad, -0.5, 1e-3);
  EXPECT_NEAR(later[2].forward_rad, 0, 0.5 * 2 * std::acos(-1.) * record_step_s + 1e-3)
      << "the instant before it came there counts too";
}

TEST(Leans, AfterTheStopCountInEveryStepBefore) {
  const std::vector<Leans> told = leans_over_travel(swinging(0, 0.5, 1, 1, 2), 1);
  for (const Leans& leans : told) EXPECT_NEAR(leans.forward_rad, 0.5, 1e-3);
  for (const Leans& leans : told) EXPECT_NEAR(leans.back_rad, -0.5, 1e-3);
}

TEST(Leans, OfSeveralMotionsAreTheWidestOfEachStep) {
  std::vector<Leans> all = {{-0.1, 0.2}};
  take_in(all, {{-0.3, 0.1}, {0, 0.6}});
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].back_rad, -0.3);
  EXPECT_EQ(all[0].forward_rad, 0.2);
  EXPECT_EQ(all[1].forward_rad, 0.6);
}

TEST(Leans, OfNoMotionAreNone) { EXPECT_TRUE(leans_over_travel({}, 0).empty()); }

}  // namespace
}  // namespace fairlead::arrest
