#include "geometry/rig/inputs.hpp"

#include <gtest/gtest.h>

#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

TEST(Frame, FollowsTheSupportsInPlanAndKeepsUpUpright) {
  const Frame frame = frame_of(demo_layout());
  EXPECT_NEAR(frame.span_m, 220, 1e-9);
  EXPECT_NEAR(frame.rise_m, -11, 1e-9);
  EXPECT_NEAR(norm(frame.along - Vec3{0.8, 0.6, 0}), 0, 1e-12);
  EXPECT_NEAR(norm(frame.across - Vec3{-0.6, 0.8, 0}), 0, 1e-12) << "across is to the left, looking toward the landing";
  EXPECT_EQ(frame.up, (Vec3{0, 0, 1}));
  EXPECT_NEAR(frame.chainage_m({1376.000, 932.000, 330.5}), 220, 1e-9);
}

TEST(Frame, ChainageCountsFromTheGivenZero) {
  const Frame frame = frame_of(demo_layout({{"site.chainage_zero", "[1208, 806, 0]"}}));
  EXPECT_NEAR(frame.chainage_of_origin_m, -10, 1e-9);
  EXPECT_NEAR(frame.chainage_m({1376.000, 932.000, 330.5}), 210, 1e-9);
}

TEST(MainLineInputs, AStiffnessRangeTurnsIntoComplianceEndsTheOtherWayRound) {
  const Layout layout = demo_layout({{"main_line.ea", "['10 MN', '12.5 MN']"}});
  std::vector<std::string> assumptions;
  const auto in = main_line_inputs(layout, frame_of(layout), assumptions);
  ASSERT_TRUE(in.has_value());
  EXPECT_NEAR(in->compliance_per_N.low, 8e-8, 1e-20);
  EXPECT_NEAR(in->compliance_per_N.high, 1e-7, 1e-20);
  EXPECT_TRUE(assumptions.empty());
  EXPECT_EQ(in->heaviest_kg, 120 + 2.5 + 6);
  EXPECT_EQ(in->lightest_kg, 50 + 2.5 + 6);
}

TEST(MainLineInputs, AnEstimatedStiffnessIsSaidToBeEstimated) {
  Layout layout = demo_layout();
  layout.main_line.ea_N.reset();
  layout.main_line.construction = Given<RopeConstruction>{RopeConstruction::rope_6x19_iwrc, {}};
  std::vector<std::string> assumptions;
  const auto in = main_line_inputs(layout, frame_of(layout), assumptions);
  ASSERT_TRUE(in.has_value());
  ASSERT_EQ(assumptions.size(), 1u);
  EXPECT_NE(assumptions[0].find("estimated from construction 6x19 IWRC"), std::string::npos) << assumptions[0];
  EXPECT_NE(assumptions[0].find("from memory"), std::string::npos) << assumptions[0];
  EXPECT_LT(in->compliance_per_N.low, in->compliance_per_N.high);
}

TEST(MainLineInputs, TravelBeyondTheLandingSupportIsRefusedWithItsExcess) {
  Layout layout = demo_layout();
  layout.brake_trolley.travel_m.value = 33.25;  // a study may move what the reader would have refused
  std::vector<std::string> assumptions;
  const auto in = main_line_inputs(layout, frame_of(layout), assumptions);
  ASSERT_FALSE(in.has_value());
  EXPECT_EQ(in.error().why, "the planned travel ends 1.250 m beyond the main line's landing support");
}

}  // namespace
}  // namespace fairlead
