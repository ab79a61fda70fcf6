// The schedules of the record, worked out anew from the record alone.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/checks/findings.hpp"
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

const Recorded& larch() {
  static const Recorded recorded{Dossier{Judged{solve(layout_of("larch_spur")), {}}}};
  return recorded;
}

TEST(JsonSchedules, EveryPartOfTheLayoutIsListedAsItsAuthorGaveIt) {
  const Layout& layout = larch().rig().layout;
  const Json& json = larch().json["schedules"];
  ASSERT_EQ(json["sheaves"].size(), layout.sheaves.size());
  EXPECT_EQ(json["sheaves"][0]["mount"], "free");
  EXPECT_EQ(json["sheaves"][0]["on"], "A3");
  EXPECT_EQ(json["sheaves"][0]["line"], "L1");
  EXPECT_EQ(json["sheaves"][0]["friction"], 1.04);
  EXPECT_TRUE(same(json["sheaves"][0]["groove_m"], 4.3e-3));
  EXPECT_TRUE(same(json["sheaves"][0]["frame_m"], Vec3{0.16, 0.06, 0.20}));
  ASSERT_EQ(json["anchors"].size(), layout.anchors.size());
  for (std::size_t i = 0; i < layout.anchors.size(); ++i) {
    EXPECT_EQ(json["anchors"][i]["id"], layout.anchors[i].id.value);
    EXPECT_TRUE(same(json["anchors"][i]["position_m"], layout.anchors[i].position.value));
    EXPECT_EQ(json["anchors"][i]["force_N"]["value"], larch().json["loads"]["demands"][i]["force_N"]);
    EXPECT_EQ(json["anchors"][i]["force_N"]["case"], larch().json["loads"]["demands"][i]["case"]);
  }
  ASSERT_EQ(json["connectors"].size(), 1u);
  EXPECT_EQ(json["connectors"][0]["joins"], Json::array({"L1", "brake_trolley"}));
  EXPECT_EQ(json["connectors"][0]["mbs_N"], 25e3);
}

TEST(JsonSchedules, AMembersLengthIsThatBetweenItsTwoPlaces) {
  const Json& json = larch().json["schedules"];
  ASSERT_FALSE(json["members"].empty());
  for (const Json& member : json["members"])
    for (const Json& anchor : json["anchors"]) {
      if (anchor["id"] != member["anchor"]) continue;
      double squared = 0;
      for (int k = 0; k < 3; ++k)
        squared += std::pow(member["to_m"][k].get<double>() - anchor["position_m"][k].get<double>(), 2);
      // Ten digits of places 700 m from the datum: half of the last is 5e-8 m.
      EXPECT_NEAR(member["length_m"], std::sqrt(squared), 1e-6) << member["id"];
      const auto holds = anchor["held_by"].get<std::vector<std::string>>();
      EXPECT_EQ(std::count(holds.begin(), holds.end(), member["id"].get<std::string>()), 1);
    }
}

}  // namespace
}  // namespace fairlead
