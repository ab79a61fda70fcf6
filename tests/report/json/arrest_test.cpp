// Riders on their way and their stop: every key of the record holds the member it is named after.
#include <gtest/gtest.h>

#include <fstream>

#include "geometry/arrest/names.hpp"
#include "tests/report/json/members.hpp"
#include "tests/report/json/schema_check.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead {
namespace {

using arrest::Arrest;
using arrest::Motion;
using arrest::Peak;

Recorded recorded_of(Rig rig) { return Recorded{Dossier{Judged{std::move(rig), {}}}}; }

const Recorded& demo() {
  static const Recorded recorded =
      recorded_of(solve(shipped_layout("heron_gully.toml"), {}, {0.1, 5e-3}, {.threads = 2}));
  return recorded;
}

std::vector<std::string> faults(const Json& json) {
  static const SchemaCheck schema{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/schema.json"))};
  return schema.faults(json);
}

bool same(const Json& json, const std::optional<double>& value) {
  return value ? fairlead::same(json, *value) : json.is_null();
}

void expect_corner(const Json& json, const arrest::Corner& corner) {
  EXPECT_EQ(json["name"], arrest::name_of(*demo().rig().approach.inputs, *demo().rig().main_line.solved(), corner));
  EXPECT_EQ(json["path"], corner.path);
  EXPECT_EQ(json["heaviest"], corner.heaviest);
  EXPECT_EQ(json["fastest"], corner.fastest);
  EXPECT_EQ(json["wind"], corner.wind == arrest::Wind::head ? "head" : "tail");
  EXPECT_EQ(json["high_rolling"], corner.high_rolling);
  EXPECT_EQ(json["strong_brake"], corner.strong_brake);
}

TEST(JsonApproach, OfEveryCorner) {
  const arrest::Approaches& approaches = *demo().rig().approach.solved();
  const Json& json = demo().json["approach"];
  EXPECT_TRUE(json["unsolved"].is_null());
  EXPECT_TRUE(fairlead::same(json["fastest_m_per_s"], approaches.fastest_m_per_s));
  ASSERT_EQ(json["corners"].size(), approaches.corners.size());
  for (std::size_t i = 0; i < approaches.corners.size(); ++i) {
    const Json &corner = json["corners"][i], &computed = corner["computed"];
    expect_corner(corner, approaches.corners[i]);
    EXPECT_TRUE(fairlead::same(corner["speed_m_per_s"], approaches.speed_m_per_s[i]));
    const arrest::Approach& approach = *approaches.computed[i];
    EXPECT_TRUE(computed["unsolved"].is_null());
    EXPECT_TRUE(fairlead::same(computed["arrival_speed_m_per_s"], approach.arrival_speed_m_per_s));
    EXPECT_TRUE(fairlead::same(computed["acceleration_m_per_s2"], approach.acceleration_m_per_s2));
    EXPECT_TRUE(fairlead::same(computed["time_s"], approach.time_s));
    EXPECT_TRUE(fairlead::same(computed["greatest_speed_m_per_s"], approach.greatest_speed_m_per_s));
    EXPECT_TRUE(fairlead::same(computed["speed_over_wave"], approach.speed_over_wave));
    EXPECT_TRUE(same(computed["stalled_at_m"], approach.stalled_at_m));
    EXPECT_TRUE(same(computed["hangs_at_m"], approach.hangs_at_m));
    EXPECT_TRUE(same(computed["back_at_start_m_per_s"], approach.back_at_start_m_per_s));
  }
}

TEST(JsonApproach, OfItsInputs) {
  const arrest::Inputs& in = *demo().rig().approach.inputs;
  const Json& json = demo().json["approach"]["inputs"];
  EXPECT_TRUE(fairlead::same(json["rider_kg"][0], in.rider_kg[0]));
  EXPECT_TRUE(fairlead::same(json["rider_kg"][1], in.rider_kg[1]));
  EXPECT_TRUE(fairlead::same(json["rolling"][0], in.rolling.low));
  EXPECT_TRUE(fairlead::same(json["rolling"][1], in.rolling.high));
  EXPECT_TRUE(fairlead::same(json["brake_share"][0], in.brake_share.low));
  EXPECT_TRUE(fairlead::same(json["brake_share"][1], in.brake_share.high));
  EXPECT_TRUE(fairlead::same(json["drag_area_m2"], in.drag_area_m2));
  EXPECT_TRUE(fairlead::same(json["wind_m_per_s"], in.wind_m_per_s));
  EXPECT_TRUE(fairlead::same(json["rider_trolley_kg"], in.rider_trolley_kg));
  EXPECT_TRUE(fairlead::same(json["brake_trolley_kg"], in.brake_trolley_kg));
  EXPECT_TRUE(fairlead::same(json["hanging_m"], in.hanging_m));
  EXPECT_TRUE(fairlead::same(json["extension_limit_m"], in.extension_limit_m));
  EXPECT_EQ(json["held_back"], in.held_back);
  EXPECT_EQ(json["coupled"], in.coupled);
  EXPECT_TRUE(same(json["start_m"], in.start_m));
  EXPECT_TRUE(same(json["backup_m"], in.backup_m));
  EXPECT_TRUE(same(json["backup_stroke_m"], in.backup_stroke_m));
  EXPECT_TRUE(same_column(json["air_kg_per_m3"], in.air_kg_per_m3, std::identity()));
  ASSERT_TRUE(in.backup_N.has_value());
  EXPECT_TRUE(same_column(json["backup"]["force_N"], in.backup_N->points(), &CurvePoint::y));
}

struct Number {
  const char* key;
  double Motion::*member;
};
constexpr Number numbers[] = {
    {"lean_rad", &Motion::lean_rad},
    {"speed_after_contact_m_per_s", &Motion::speed_after_contact_m_per_s},
    {"swing_rate_after_contact_rad_per_s", &Motion::swing_rate_after_contact_rad_per_s},
    {"lost_at_contact_J", &Motion::lost_at_contact_J},
    {"stop_travel_m", &Motion::stop_travel_m},
    {"stop_time_s", &Motion::stop_time_s},
    {"end_travel_m", &Motion::end_travel_m},
    {"end_speed_m_per_s", &Motion::end_speed_m_per_s},
    {"end_s", &Motion::end_s},
    {"end_extension_m", &Motion::end_extension_m},
    {"brake_work_J", &Motion::brake_work_J},
    {"rolling_and_drag_J", &Motion::rolling_and_drag_J},
};

struct PeakOf {
  const char* key;
  Peak Motion::*member;
};
constexpr PeakOf peaks[] = {
    {"extension_m", &Motion::extension_m},
    {"line_speed_m_per_s", &Motion::line_speed_m_per_s},
    {"unit_tension_N", &Motion::unit_tension_N},
    {"line_force_N", &Motion::line_force_N},
    {"trolley_speed_m_per_s", &Motion::trolley_speed_m_per_s},
    {"swing_forward_rad", &Motion::swing_forward_rad},
    {"swing_back_rad", &Motion::swing_back_rad},
    {"load_raw", &Motion::load_raw},
    {"load_filtered", &Motion::load_filtered},
    {"load_held", &Motion::load_held},
    {"load_onset_per_s", &Motion::load_onset_per_s},
    {"deceleration_raw_m_per_s2", &Motion::deceleration_raw_m_per_s2},
    {"deceleration_filtered_m_per_s2", &Motion::deceleration_filtered_m_per_s2},
    {"deceleration_held_m_per_s2", &Motion::deceleration_held_m_per_s2},
};

TEST(JsonArrest, OfEveryCorner) {
  const Arrest& arrest = *demo().rig().arrest.solved();
  const Json& json = demo().json["arrest"];
  EXPECT_TRUE(json["unsolved"].is_null());
  ASSERT_EQ(json["corners"].size(), arrest.corners.size());
  int solved = 0;
  for (std::size_t i = 0; i < arrest.corners.size(); ++i) {
    const arrest::CornerResult& corner = arrest.corners[i];
    const Json &written = json["corners"][i], &motion = written["motion"];
    expect_corner(written, corner.corner);
    EXPECT_TRUE(fairlead::same(written["arrival_speed_m_per_s"], corner.arrival_speed_m_per_s));
    EXPECT_TRUE(same(written["computed_speed_m_per_s"], corner.computed_speed_m_per_s));
    EXPECT_TRUE(fairlead::same(written["speed_over_wave"], corner.speed_over_wave));
    EXPECT_EQ(written["rest"].is_null(), !corner.rest.has_value());
    if (corner.rest) {
      EXPECT_TRUE(fairlead::same(written["rest"]["earliest_m"], corner.rest->earliest_m));
      EXPECT_TRUE(fairlead::same(written["rest"]["latest_m"], corner.rest->latest_m));
    }
    if (!corner.motion) continue;
    ++solved;
    for (const Number& number : numbers)
      EXPECT_TRUE(fairlead::same(motion[number.key], (*corner.motion).*number.member)) << number.key;
    for (const PeakOf& peak : peaks) {
      const Peak& meant = (*corner.motion).*peak.member;
      EXPECT_TRUE(fairlead::same(motion[peak.key]["value"], meant.value)) << peak.key;
      EXPECT_TRUE(fairlead::same(motion[peak.key]["at_s"], meant.at_s)) << peak.key;
      EXPECT_TRUE(fairlead::same(motion[peak.key]["travel_m"], meant.travel_m)) << peak.key;
    }
    EXPECT_EQ(motion["separations"], corner.motion->separations);
  }
  EXPECT_GT(solved, 32);
}

TEST(JsonArrest, OfWhatGovernsTheBackupBrakeTheDispatchAndTheWayBack) {
  const Arrest& arrest = *demo().rig().arrest.solved();
  const Json &json = demo().json["arrest"], &governing = json["governing"];
  EXPECT_EQ(governing["stop_travel"], arrest.governing.stop_travel);
  EXPECT_EQ(governing["shortest_stop"], arrest.governing.shortest_stop);
  EXPECT_EQ(governing["extension"], arrest.governing.extension);
  EXPECT_EQ(governing["line_speed"], arrest.governing.line_speed);
  EXPECT_EQ(governing["load_raw"], arrest.governing.load_raw);
  EXPECT_EQ(governing["load_filtered"], arrest.governing.load_filtered);
  EXPECT_EQ(governing["load_held"], arrest.governing.load_held);
  EXPECT_EQ(governing["load_onset"], arrest.governing.load_onset);
  EXPECT_EQ(governing["deceleration"], arrest.governing.deceleration);
  EXPECT_EQ(governing["swing_forward"], arrest.governing.swing_forward);
  EXPECT_EQ(governing["swing_back"], arrest.governing.swing_back);
  EXPECT_EQ(governing["unit_tension"], arrest.governing.unit_tension);
  EXPECT_EQ(governing["earliest_rest"], arrest.governing.earliest_rest);
  EXPECT_EQ(governing["latest_rest"], arrest.governing.latest_rest);
  EXPECT_EQ(governing["arrival_speed"], arrest.governing.arrival_speed);
  ASSERT_TRUE(arrest.backup.has_value());
  EXPECT_EQ(json["backup_alone"]["corner"], arrest.backup->corner);
  EXPECT_TRUE(fairlead::same(json["backup_alone"]["speed_m_per_s"], arrest.backup->speed_m_per_s));
  EXPECT_TRUE(fairlead::same(json["backup_alone"]["compression_m"], arrest.backup->compression_m));
  EXPECT_TRUE(fairlead::same(json["backup_alone"]["residual_m_per_s"], arrest.backup->residual_m_per_s));
  EXPECT_TRUE(fairlead::same(json["backup_alone"]["force_N"], arrest.backup->force_N));
  EXPECT_TRUE(fairlead::same(json["not_reset"]["farthest_m"], arrest.not_reset.farthest_m));
  EXPECT_EQ(json["not_reset"]["first_failing"], arrest.not_reset.first_failing);
  EXPECT_TRUE(fairlead::same(json["lift_difference_m"], arrest.lift_difference_m));
  ASSERT_EQ(json["resets"].size(), arrest.resets.size());
  for (std::size_t i = 0; i < arrest.resets.size(); ++i) {
    const arrest::Reset& reset = arrest.resets[i];
    const Json& written = json["resets"][i];
    EXPECT_EQ(written["path"], reset.path);
    EXPECT_EQ(written["returns"], reset.returns);
    EXPECT_TRUE(fairlead::same(written["least_reserve_N"], reset.least_reserve_N));
    EXPECT_TRUE(fairlead::same(written["at_travel_m"], reset.at_travel_m));
    EXPECT_TRUE(fairlead::same(written["time_s"], reset.time_s));
    EXPECT_TRUE(fairlead::same(written["speed_at_mark_m_per_s"], reset.speed_at_mark_m_per_s));
    EXPECT_TRUE(fairlead::same(written["ratio_at_which_it_stops"], reset.ratio_at_which_it_stops));
    EXPECT_TRUE(same_column(written["travel_m"], reset.travel_m, std::identity()));
    EXPECT_TRUE(same_column(written["reserve_N"], reset.reserve_N, std::identity()));
  }
}

TEST(JsonArrest, OneThatIsNotSolvedSaysWhyAndKeepsItsSchema) {
  Layout layout = shipped_layout("heron_gully.toml", {{"riders.arrival_speed", "['5 m/s', '7 m/s']"}});
  layout.riders.rolling_resistance.reset();
  const Recorded none = recorded_of(solve(layout, {}, {0.1, 5e-3}));
  EXPECT_EQ(none.json["approach"]["unsolved"]["why"], "the layout does not give riders.rolling_resistance");
  EXPECT_TRUE(none.json["arrest"]["unsolved"].is_object());
  EXPECT_TRUE(none.json["arrest"]["corners"].empty());
  EXPECT_TRUE(none.json["arrest"]["not_reset"]["farthest_m"].is_null());
  for (const std::string& fault : faults(none.json)) ADD_FAILURE() << fault;
}

TEST(JsonArrest, ACornerAndABackupThatAreNotSolvedHoldNoNumberAndKeepTheSchema) {
  Rig rig = demo().rig();
  Arrest arrest = *rig.arrest.solved();
  arrest.corners[2].motion = unsolved("energy does not close", 3e-5, 7);
  arrest.backup = unsolved("its stroke is not given");
  arrest.not_reset.farthest_m = std::nan("");
  rig.arrest.result = std::make_shared<const Solved<Arrest>>(std::move(arrest));
  const Recorded recorded = recorded_of(std::move(rig));
  const Json& motion = recorded.json["arrest"]["corners"][2]["motion"];
  EXPECT_EQ(motion["unsolved"]["why"], "energy does not close");
  EXPECT_EQ(motion["unsolved"]["iterations"], 7);
  EXPECT_EQ(motion.size(), 1u);
  EXPECT_EQ(recorded.json["arrest"]["backup_alone"].size(), 1u);
  EXPECT_TRUE(recorded.json["arrest"]["not_reset"]["farthest_m"].is_null());
  for (const std::string& fault : faults(recorded.json)) ADD_FAILURE() << fault;
  for (const std::string& fault : faults(demo().json)) ADD_FAILURE() << fault;
}

}  // namespace
}  // namespace fairlead
