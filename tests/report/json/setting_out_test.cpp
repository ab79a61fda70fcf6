// What the rig is set out by: every key of the record holds the member it is named after, and keeps the schema.
#include <gtest/gtest.h>

#include <fstream>

#include "geometry/checks/worst.hpp"
#include "geometry/studies/lie.hpp"
#include "tests/report/json/members.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

Recorded set_out(const Layout& layout) {
  Dossier dossier{Judged{solve(layout), {}}};
  dossier.setting_out = setting_out(dossier.judged.rig);
  return Recorded(std::move(dossier));
}
const Recorded& spur() {
  static const Recorded recorded = set_out(shipped_layout("larch_spur.toml"));
  return recorded;
}

std::vector<std::string> faults_of(const Json& json) {
  std::ifstream file(FAIRLEAD_SOURCE_DIR "/report/json/schema.json");
  return SchemaCheck(Json::parse(file)).faults(json);
}

TEST(JsonSettingOut, KeepsTheSchemaAlsoWhereNothingIsSolved) {
  EXPECT_EQ(faults_of(spur().json), std::vector<std::string>{});
  const Recorded unsolved = set_out(demo_layout({{"main_line.tension", "'100 N'"}}));
  EXPECT_EQ(faults_of(unsolved.json), std::vector<std::string>{});
  EXPECT_TRUE(unsolved.json["setting_out"]["stringing"]["unsolved"].is_object());
  EXPECT_TRUE(unsolved.json["setting_out"]["hand_pulls"]["unsolved"].is_object());
  for (const Json& mark : unsolved.json["setting_out"]["marks"])
    EXPECT_TRUE(mark["from_bare_main_line"]["up_m"].is_null());
  EXPECT_TRUE(skew().json["setting_out"].is_null()) << "what nobody asked for";
}

TEST(JsonSettingOut, OfEveryMark) {
  const SettingOut& out = *spur().dossier.setting_out;
  const Json& json = spur().json["setting_out"]["marks"];
  const Frame& frame = spur().rig().frame;
  ASSERT_EQ(json.size(), out.marks.size());
  for (std::size_t i = 0; i < json.size(); ++i) {
    const SetOut& mark = out.marks[i];
    const Point3 at = *mark.point.at;
    EXPECT_EQ(json[i]["id"], mark.point.id);
    EXPECT_TRUE(same(json[i]["at_m"], at));
    EXPECT_TRUE(same(json[i]["chainage_m"], frame.chainage_m(at)));
    EXPECT_TRUE(same(json[i]["across_m"], frame.across_m(at)));
    EXPECT_TRUE(same(json[i]["above_start_m"], at.z - frame.origin.z));
    EXPECT_TRUE(same(json[i]["rise_m"], *mark.rise_m));
    const Json& from = json[i]["from_bare_main_line"];
    if (!mark.from_line) {
      EXPECT_EQ(from["unsolved"]["why"], mark.from_line.error().why);
      continue;
    }
    EXPECT_TRUE(from["unsolved"].is_null());
    EXPECT_TRUE(same(from["temperature_K"], mark.from_line->temperature_K));
    EXPECT_TRUE(same(from["from_rest_m"], mark.from_line->from_rest_m));
    EXPECT_TRUE(same(from["across_m"], mark.from_line->across_m));
    EXPECT_TRUE(same(from["up_m"], mark.from_line->up_m));
    EXPECT_TRUE(same(from["open_m"], mark.from_line->open_m));
  }
  EXPECT_EQ(spur().json["setting_out"]["bench_mark"], "P0");
  EXPECT_TRUE(same(spur().json["setting_out"]["platform_rise_m"], *out.platform_rise_m));
}

TEST(JsonSettingOut, OfEveryTie) {
  const SettingOut& out = *spur().dossier.setting_out;
  const Json& json = spur().json["setting_out"]["ties"];
  const auto id = [&](int index) { return out.marks.at(static_cast<std::size_t>(index)).point.id; };
  ASSERT_EQ(json.size(), out.ties.size());
  EXPECT_TRUE(same(spur().json["setting_out"]["longest_tape_m"], 30.0));
  int tied = 0;
  for (std::size_t i = 0; i < json.size(); ++i) {
    EXPECT_EQ(json[i]["mark"], out.marks[i].point.id);
    if (!out.ties[i]) {
      EXPECT_EQ(json[i]["unsolved"]["why"], out.ties[i].error().why);
      EXPECT_TRUE(json[i]["tapes"].empty() && json[i]["dilution"].is_null());
      continue;
    }
    const TiedMark& mark = *out.ties[i];
    ++tied;
    ASSERT_EQ(json[i]["tapes"].size(), 3u);
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_EQ(json[i]["tapes"][k]["from"], id(mark.ties[k].from));
      EXPECT_TRUE(same(json[i]["tapes"][k]["distance_m"], mark.ties[k].distance_m));
    }
    EXPECT_TRUE(same(json[i]["dilution"], mark.dilution));
    EXPECT_TRUE(same(json[i]["side"], mark.normal));
    EXPECT_TRUE(same(json[i]["height_m"], mark.height_m));
    EXPECT_TRUE(same(json[i]["mirror_m"], mark.mirror));
    if (!mark.check) continue;
    EXPECT_EQ(json[i]["check"]["from"], id(mark.check->tie.from));
    EXPECT_TRUE(same(json[i]["check"]["distance_m"], mark.check->tie.distance_m));
    EXPECT_TRUE(same(json[i]["check"]["at_mirror_m"], mark.check->at_mirror_m));
    EXPECT_TRUE(same(json[i]["check"]["tells_mirror"], mark.check->tells_mirror));
  }
  EXPECT_GT(tied, 3);
}

bool same_line(const Json& json, const mainline::Strung& line) {
  return same(json["unstretched_m"], line.cable.unstretched_m) && same(json["horizontal_N"], line.horizontal_N) &&
         same(json["start_tension_N"], line.start_tension_N) && same(json["end_tension_N"], line.end_tension_N) &&
         same(json["sag_m"], line.sag_m) && same(json["greatest_sag_m"], line.greatest_sag_m) &&
         same(json["three_returns_s"], line.three_returns_s);
}

TEST(JsonSettingOut, OfEveryTemperature) {
  const Recorded open = set_out(demo_layout({{"main_line.tension", "['17 kN', '19 kN']"}}));
  for (const Recorded* recorded : {&spur(), &open}) {
    const auto& rows = *recorded->dossier.setting_out->stringing;
    const Json& json = recorded->json["setting_out"]["stringing"]["rows"];
    ASSERT_EQ(json.size(), rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
      EXPECT_TRUE(same(json[i]["temperature_K"], rows[i].temperature_K));
      EXPECT_TRUE(same(json[i]["as_measured"], rows[i].as_measured));
      EXPECT_TRUE(same_line(json[i]["tightest"], rows[i].tightest));
      EXPECT_TRUE(same_line(json[i]["slackest"], rows[i].slackest));
    }
  }
}

TEST(JsonSettingOut, OfEveryHandPullAndAxle) {
  const auto& pulls = *spur().dossier.setting_out->hand_pulls;
  const Json& json = spur().json["setting_out"]["hand_pulls"]["states"];
  ASSERT_EQ(json.size(), pulls.size());
  for (std::size_t i = 0; i < pulls.size(); ++i) {
    const auto& position = spur().rig().reeving.solved()->rest[static_cast<std::size_t>(pulls[i].position)];
    EXPECT_EQ(json[i]["state"], weather_of(spur().rig(), position));
    EXPECT_EQ(json[i]["friction"], pulls[i].friction == reeving::Friction::paying_out ? "paying out" : "returning");
    ASSERT_EQ(json[i]["at"].size(), 3u);
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_TRUE(json[i]["at"][k]["unsolved"].is_null());
      EXPECT_TRUE(same(json[i]["at"][k]["travel_m"], pulls[i].at[k].travel_m));
      EXPECT_TRUE(same(json[i]["at"][k]["along_N"], *pulls[i].at[k].along_N));
    }
  }
  EXPECT_TRUE(spur().json["setting_out"]["axles"][0]["left_end_bearing_rad"].is_null()) << "it hangs free";
  const Recorded fixed = set_out(demo_layout({{"sheave.R1.axle", "[0.62, -0.78, 0.02]"}}));
  const Lie lie = lie_of(fixed.rig().frame, left_end(fixed.rig().frame, fixed.rig().layout.sheaves[0].axle));
  const Json& axle = fixed.json["setting_out"]["axles"][0];
  EXPECT_EQ(axle["sheave"], "R1");
  EXPECT_TRUE(same(axle["left_end_bearing_rad"], *lie.bearing_rad));
  EXPECT_TRUE(same(axle["left_end_tilt_rad"], lie.tilt_rad));
}

}  // namespace
}  // namespace fairlead
