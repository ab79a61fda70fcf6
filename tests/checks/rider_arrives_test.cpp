// Arrivals as measured and as computed, beside each other.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

/// What the finding says of that name, m/s; NaN where it says nothing.
double told(const Finding& finding, std::string_view name) {
  for (const Fact& fact : finding.facts)
    if (fact.name == name) return std::get<Quantity>(fact.value).si;
  return std::nan("");
}

TEST(RiderArrives, RidersComputedToComeFasterThanAnyWasMeasuredAreNotPassed) {
  const Rig rig = solve(layout_of(
      "heron_gully", {{"approach.start", R"("12 m")"}, {"riders.arrival_speed", R"(["6.2 m/s", "7.2 m/s"])"}}));
  double fastest = 0;
  for (const auto& approach : rig.approach.solved()->computed)
    fastest = std::max(fastest, approach->arrival_speed_m_per_s);
  const Finding finding = only(rider_arrives, rig);
  EXPECT_EQ(finding.verdict, Verdict::undetermined);
  EXPECT_EQ(told(finding, "computed"), fastest);
  EXPECT_EQ(told(finding, "measured"), 7.2);
}

TEST(RiderArrives, RidersComputedToComeSlowerThanMeasuredPassAndAreTold) {
  const Rig rig = solve(layout_of("heron_gully", {{"riders.arrival_speed", R"(["6.2 m/s", "12 m/s"])"}}));
  double slowest = 1e9;
  for (const auto& approach : rig.approach.solved()->computed)
    slowest = std::min(slowest, approach->arrival_speed_m_per_s);
  const Finding finding = only(rider_arrives, rig);
  EXPECT_EQ(finding.verdict, Verdict::pass);
  EXPECT_EQ(told(finding, "slowest"), slowest);
  EXPECT_EQ(told(finding, "least"), 6.2);
  EXPECT_TRUE(std::isnan(told(finding, "computed")));
}

TEST(RiderArrives, OfArrivalsMeasuredAsSlowAndAsFastAsComputedThereIsNothingToTell) {
  const Rig rig = solve(layout_of("heron_gully", {{"riders.arrival_speed", R"(["1 m/s", "12 m/s"])"}}));
  EXPECT_TRUE(only(rider_arrives, rig).facts.empty());
}

}  // namespace
}  // namespace fairlead
