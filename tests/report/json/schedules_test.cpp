// The schedules of the record, worked out anew from the record alone.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/report/json/members.hpp"

namespace fairlead {
namespace {

// Ten digits of lengths below 100 m: half of the last is 5e-9 m; sums of four of them.
constexpr double printed_m = 4 * 5e-9;

TEST(JsonSchedules, AnAdjustersNeedFollowsFromTheLengthsOfEveryState) {
  for (const Recorded* recorded : {&skew(), &reduced()}) {
    const Json& json = recorded->json;
    const Json& lines = json["schedules"]["lines"];
    ASSERT_EQ(lines.size(), recorded->rig().layout.lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const Json &line = lines[i], &need = line["adjuster_need"];
      const auto made = line["made_lengths_m"].get<std::vector<double>>();
      ASSERT_EQ(made.size(), json["main_line"]["states"].size());
      const double unloaded_m = line["unloaded_length_m"];
      EXPECT_NEAR(made[0], unloaded_m, printed_m) << "the first state is the main line as measured";
      EXPECT_NEAR(need["shorter_m"], unloaded_m - *std::min_element(made.begin(), made.end()), printed_m);
      EXPECT_NEAR(need["longer_m"], *std::max_element(made.begin(), made.end()) - unloaded_m, printed_m);
      EXPECT_NEAR(need["stretch_m"], json["lines"][i]["finished_length_m"].get<double>() - unloaded_m, printed_m);
      const double tolerance_m = need["tolerance_m"];
      EXPECT_NEAR(need["take_in_m"], need["shorter_m"].get<double>() + need["stretch_m"].get<double>() + tolerance_m,
                  printed_m);
      EXPECT_NEAR(need["let_out_m"], need["longer_m"].get<double>() + tolerance_m, printed_m);
      EXPECT_NEAR(need["whole_m"], need["take_in_m"].get<double>() + need["let_out_m"].get<double>(), printed_m);
    }
  }
}

TEST(JsonSchedules, AdjustersAreTheLayouts) {
  const Json& lines = reduced().json["schedules"]["lines"];
  EXPECT_EQ(lines[0]["id"], "L1");
  EXPECT_EQ(lines[0]["adjuster_m"], 0.3);
  EXPECT_EQ(lines[0]["adjuster_need"]["tolerance_m"], 0.02);
  EXPECT_TRUE(lines[0]["adjuster_need"]["unknown"].is_null());
  EXPECT_EQ(lines[0]["taken_up_by_unit"], false);
  EXPECT_EQ(lines[1]["taken_up_by_unit"], true);
  EXPECT_TRUE(lines[1]["adjuster_m"].is_null());
  EXPECT_FALSE(lines[1]["adjuster_need"]["unknown"].is_null()) << "it has no length_tolerance";
}

}  // namespace
}  // namespace fairlead
