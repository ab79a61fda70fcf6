// How far the marks may be off: every key of the record holds the member it is named after, and keeps the schema.
#include <gtest/gtest.h>

#include <fstream>

#include "tests/report/json/members.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

/// Made up, so that no search runs: every number its own.
Dossier placed(bool with_box) {
  Dossier dossier{judge(demo_layout())};
  const Rig& rig = dossier.judged.rig;
  Placement placement;
  placement.points = set_out_points(rig);
  placement.axes = point_axes(placement.points);
  placement.windows = Windows{};
  placement.windows->unwatched = {dossier.judged.findings.front()};
  Finding first = dossier.judged.findings.front();
  first.verdict = Verdict::fail;
  for (std::size_t v = 0; v < placement.axes.size(); ++v) {
    const double at = 0.01 * static_cast<double>(v + 1);
    placement.windows->windows.push_back(
        {{at, at + 0.001, first}, {.holds = 1, .fails = std::nullopt, .first = std::nullopt}});
  }
  if (with_box) {
    ToleranceBox box;
    for (std::size_t v = 0; v < placement.axes.size(); ++v) box.amount.push_back(0.002 * static_cast<double>(v + 1));
    box.step = 1e-3;
    box.most = 0.1;
    box.judged = 77;
    box.binding = {{dossier.judged.findings.front(), 0.05, 0.04, 0.003}};
    placement.box = box;
  }
  dossier.placement = placement;
  return dossier;
}

TEST(JsonPlacement, KeepsTheSchemaWithABoxAndWithout) {
  std::ifstream file(FAIRLEAD_SOURCE_DIR "/report/json/schema.json");
  const SchemaCheck schema(Json::parse(file));
  for (const bool with_box : {true, false})
    EXPECT_EQ(schema.faults(Recorded(placed(with_box)).json), std::vector<std::string>{});
  EXPECT_TRUE(skew().json["placement"].is_null()) << "what nobody asked for";
}

TEST(JsonPlacement, OfEveryWindow) {
  const Recorded recorded(placed(true));
  const Placement& placement = *recorded.dossier.placement;
  const Json& json = recorded.json["placement"]["windows"];
  EXPECT_TRUE(same(json["looked_m"], 1.0));
  EXPECT_EQ(json["unwatched"].size(), 1u);
  ASSERT_EQ(json["each"].size(), placement.axes.size());
  for (std::size_t v = 0; v < placement.axes.size(); ++v) {
    const Json& window = json["each"][v];
    EXPECT_EQ(window["mark"], placement.points[placement.axes[v].point].id);
    EXPECT_EQ(window["axis"], word_for(placement.axes[v].axis));
    EXPECT_TRUE(same(window["less"]["holds_m"], placement.windows->windows[v].less.holds));
    EXPECT_TRUE(same(window["less"]["fails_m"], *placement.windows->windows[v].less.fails));
    EXPECT_EQ(window["less"]["first"]["check"], recorded.dossier.judged.findings.front().check->name);
    EXPECT_TRUE(same(window["more"]["holds_m"], 1.0));
    EXPECT_TRUE(window["more"]["fails_m"].is_null() && window["more"]["first"].is_null());
  }
}

TEST(JsonPlacement, OfTheBox) {
  const Recorded recorded(placed(true));
  const Placement& placement = *recorded.dossier.placement;
  const Json& json = recorded.json["placement"]["box"];
  EXPECT_TRUE(json["unsolved"].is_null());
  EXPECT_EQ(json["combinations_judged"], 77);
  EXPECT_TRUE(same(json["most_m"], 0.1) && same(json["step_m"], 0.001));
  ASSERT_EQ(json["marks"].size(), placement.points.size());
  for (std::size_t v = 0; v < placement.axes.size(); ++v) {
    const Json& mark = json["marks"][placement.axes[v].point];
    const std::string key = std::string(word_for(placement.axes[v].axis)) + "_m";
    EXPECT_TRUE(same(mark[key], placement.box->amount[v])) << key;
  }
  EXPECT_TRUE(json["marks"].back()["up_m"].is_null()) << "the rest mark goes along alone";
  EXPECT_TRUE(same(json["binding"][0]["reserve"], 0.05) && same(json["binding"][0]["loss"], 0.04) &&
              same(json["binding"][0]["loss_together"], 0.003));
  const Json none = Recorded(placed(false)).json["placement"]["box"];
  EXPECT_EQ(none["unsolved"]["why"], "not asked for");
}

}  // namespace
}  // namespace fairlead
