// Every key of the reeving holds the member it is named after.
#include "tests/report/json/members.hpp"

#include <gtest/gtest.h>

namespace fairlead {
namespace {

using mainline::Path;
using reeving::BlockPlace;
using reeving::Leg;
using reeving::Placement;
using reeving::Pose;
using reeving::Stray;
using reeving::Turn;

class JsonMembers : public testing::TestWithParam<const Recorded& (*)()> {
 protected:
  const Recorded& recorded() const { return GetParam()(); }
  const Rig& rig() const { return recorded().rig(); }
  const Json& reeving() const { return recorded().json["reeving"]; }
  const reeving::Inputs& inputs() const { return *rig().reeving.inputs; }
  const std::vector<reeving::Sweep>& sweeps() const { return rig().reeving.solved()->sweeps; }
};
INSTANTIATE_TEST_SUITE_P(Rigs, JsonMembers, testing::Values(&skew, &reduced),
                         [](const auto& rig) { return rig.param == &skew ? "Direct" : "Reduced"; });

TEST_P(JsonMembers, OfEveryPose) {
  ASSERT_EQ(reeving()["sweeps"].size(), sweeps().size());
  for (std::size_t s = 0; s < sweeps().size(); ++s) {
    const Json& columns = reeving()["sweeps"][s]["poses"];
    const auto expect = [&](const char* key, auto member) {
      EXPECT_TRUE(same_column(columns.at(key), sweeps()[s].poses, member)) << key;
    };
    expect("travel_m", &Pose::travel_m);
    expect("trolley_m", &Pose::trolley);
    expect("attachment_m", &Pose::attachment);
    expect("rider_m", &Pose::rider);
    expect("extension_m", &Pose::extension_m);
    expect("ratio", &Pose::ratio);
    expect("pay_out", &Pose::pay_out);
    expect("efficiency", &Pose::efficiency);
    expect("lead_rad", &Pose::lead_rad);
    expect("trolley_tension_N", &Pose::trolley_tension_N);
    expect("outlet_tension_N", &Pose::outlet_tension_N);
    expect("pull_on_trolley_N", &Pose::pull_on_trolley_N);
    expect("pull_on_unit_N", &Pose::pull_on_unit_N);
    expect("hold_N", &Pose::hold_N);
    expect("start_support_N", &Pose::start_support_N);
    expect("end_support_N", &Pose::end_support_N);
    expect("main_line_weight_N", &Pose::main_line_weight_N);
    expect("main_line_moment_N_m", &Pose::main_line_moment_N_m);
    expect("line_weight_N", &Pose::line_weight_N);
    expect("tau_rad", &Pose::tau_rad);
    expect("lift_by_line_m", &Pose::lift_by_line_m);
    EXPECT_EQ(columns.size(), 21u) << "a key that is not held to its member";
    const Json& strays = reeving()["sweeps"][s]["strays"];
    EXPECT_TRUE(same_column(strays["trolley_m"], sweeps()[s].strays, &Stray::trolley_m));
    EXPECT_TRUE(same_column(strays["rider_m"], sweeps()[s].strays, &Stray::rider_m));
    EXPECT_EQ(strays.size(), 2u);
  }
}

TEST_P(JsonMembers, OfEveryTurnAndLeg) {
  const std::size_t sheaves = inputs().sheaves.size(), legs = inputs().legs();
  for (std::size_t s = 0; s < sweeps().size(); ++s) {
    const Json& sweep = reeving()["sweeps"][s];
    ASSERT_EQ(sweep["turns"].size(), sheaves);
    ASSERT_EQ(sweep["legs"].size(), legs);
    for (std::size_t k = 0; k < sheaves; ++k) {
      const auto turn = [&](const char* key, auto member) {
        EXPECT_TRUE(same_column(sweep["turns"][k].at(key), sweeps()[s].turns, member, k, sheaves)) << key;
      };
      turn("on_leg", &Turn::on_leg);
      turn("off_leg", &Turn::off_leg);
      turn("wrap_rad", &Turn::wrap_rad);
      turn("on_fleet_rad", &Turn::on_fleet_rad);
      turn("off_fleet_rad", &Turn::off_fleet_rad);
      turn("force_N", &Turn::force_N);
      turn("wrap_centre_m", &Turn::wrap_centre);
      turn("couple_N_m", &Turn::couple_N_m);
      EXPECT_EQ(sweep["turns"][k].size(), 8u);
    }
    for (std::size_t l = 0; l < legs; ++l) {
      const auto leg = [&](const char* key, auto member) {
        EXPECT_TRUE(same_column(sweep["legs"][l].at(key), sweeps()[s].legs, member, l, legs)) << key;
      };
      leg("from_m", &Leg::from);
      leg("to_m", &Leg::to);
      leg("length_m", &Leg::length_m);
      leg("sag_m", &Leg::sag_m);
      leg("from_tension_N", &Leg::from_tension_N);
      leg("to_tension_N", &Leg::to_tension_N);
      leg("H_N", &Leg::H_N);
      EXPECT_TRUE(same_column(sweep["legs"][l]["stray_m"], sweeps()[s].strays,
                              [l](const Stray& stray) { return stray.legs_m.at(l); }));
      EXPECT_EQ(sweep["legs"][l].size(), 8u);
    }
  }
}

// What is left out of a turn stands in the legs beside it, and what is left out of a leg follows from its line.
TEST_P(JsonMembers, LeaveOutOnlyWhatTheRestTells) {
  const std::size_t sheaves = inputs().sheaves.size(), legs = inputs().legs();
  for (std::size_t s = 0; s < sweeps().size(); ++s) {
    const Json& sweep = reeving()["sweeps"][s];
    for (std::size_t line = 0; line < inputs().lines.size(); ++line) {
      const auto first = static_cast<std::size_t>(inputs().lines[line].first_sheave);
      const std::size_t before = inputs().legs_before(line);
      for (std::size_t k = 0; k < static_cast<std::size_t>(inputs().lines[line].sheaves); ++k) {
        const Json &on = sweep["legs"][before + k], &off = sweep["legs"][before + k + 1];
        const auto left_out = [&](const Json& column, auto member) {
          EXPECT_TRUE(same_column(column, sweeps()[s].turns, member, first + k, sheaves));
        };
        left_out(on["to_m"], &Turn::on);
        left_out(off["from_m"], &Turn::off);
        left_out(on["to_tension_N"], &Turn::on_tension_N);
        left_out(off["from_tension_N"], &Turn::off_tension_N);
      }
      for (std::size_t p = 0; p < sweeps()[s].poses.size(); ++p)
        for (std::size_t l = before; l <= before + static_cast<std::size_t>(inputs().lines[line].sheaves); ++l) {
          const Leg& leg = sweeps()[s].legs[p * legs + l];
          EXPECT_TRUE(same(sweep["lines"][line]["load_N_per_m"], leg.load_N_per_m));
          EXPECT_NEAR(leg.weight_N, inputs().lines[line].weight_N_per_m * leg.length_m, 1e-9 * leg.weight_N);
        }
    }
  }
}

TEST_P(JsonMembers, OfEveryLineAndBlock) {
  const std::size_t lines = inputs().lines.size(), blocks = inputs().blocks.size();
  for (std::size_t s = 0; s < sweeps().size(); ++s) {
    const Json& sweep = reeving()["sweeps"][s];
    ASSERT_EQ(sweep["lines"].size(), lines);
    for (std::size_t l = 0; l < lines; ++l)
      EXPECT_TRUE(same_column(sweep["lines"][l]["tension_N"], sweeps()[s].tension_N, std::identity{}, l, lines));
    ASSERT_EQ(sweep["blocks"].size(), blocks);
    for (std::size_t b = 0; b < blocks; ++b) {
      const auto block = [&](const char* key, auto get) {
        EXPECT_TRUE(same_column(sweep["blocks"][b].at(key), sweeps()[s].blocks, get, b, blocks)) << key;
      };
      block("at_m", [](const BlockPlace& place) { return place.placement.at; });
      block("turned_x", [](const BlockPlace& place) { return place.placement.turned_x; });
      block("turned_y", [](const BlockPlace& place) { return place.placement.turned_y; });
      block("turned_z", [](const BlockPlace& place) { return place.placement.turned_z; });
      block("centre_of_mass_m", &BlockPlace::centre_of_mass);
      block("held_N", &BlockPlace::held_N);
      block("held_couple_N_m", &BlockPlace::held_couple_N_m);
      EXPECT_TRUE(same_column(sweep["blocks"][b]["stray_m"], sweeps()[s].strays,
                              [b](const Stray& stray) { return stray.blocks_m.at(b); }));
      EXPECT_EQ(sweep["blocks"][b].size(), 8u);
    }
  }
}

TEST_P(JsonMembers, OfEverySweepAndItsWorst) {
  const auto expect = [](const Json& json, const Extreme& extreme) {
    EXPECT_TRUE(same(json["value"], extreme.value) && same(json["bound"], extreme.bound)) << json;
    EXPECT_EQ(json["pose"], extreme.pose);
  };
  for (std::size_t s = 0; s < sweeps().size(); ++s) {
    const Json &sweep = reeving()["sweeps"][s], &worst = sweep["worst"];
    ASSERT_EQ(worst["fleet_rad"].size(), inputs().sheaves.size());
    for (std::size_t k = 0; k < inputs().sheaves.size(); ++k) expect(worst["fleet_rad"][k], sweeps()[s].fleet_rad[k]);
    for (std::size_t k = 0; k < inputs().sheaves.size(); ++k)
      expect(worst["least_wrap_rad"][k], sweeps()[s].least_wrap_rad[k]);
    for (std::size_t l = 0; l < inputs().legs(); ++l)
      expect(worst["least_tension_N"][l], sweeps()[s].least_tension_N[l]);
    expect(worst["lead_rad"], sweeps()[s].lead_rad);
    expect(worst["thickness_m"], sweeps()[s].thickness_m);
    expect(worst["across_m"], sweeps()[s].across_m);
    expect(worst["least_pay_out"], sweeps()[s].least_pay_out);
    expect(worst["least_efficiency"], sweeps()[s].least_efficiency);
    EXPECT_TRUE(same(worst["greatest_pay_out"], sweeps()[s].greatest_pay_out));
    expect(worst["greatest_extension_m"], sweeps()[s].greatest_extension_m);
    EXPECT_EQ(worst["beyond_data"], sweeps()[s].beyond_data);
    EXPECT_EQ(sweep["path"], sweeps()[s].path);
    EXPECT_EQ(sweep["rest_pose"], sweeps()[s].rest_pose);
    const reeving::SweepInputs& in = inputs().sweeps[s];
    EXPECT_TRUE(same(sweep["trolley_weight_N"], in.trolley_weight_N));
    EXPECT_TRUE(same(sweep["rider_weight_N"], in.rider_weight_N));
    EXPECT_TRUE(same(sweep["wind_Pa"], in.wind_Pa));
    for (const auto& [key, state] : {std::pair{"state", &in.state}, std::pair{"reference", &in.reference}}) {
      EXPECT_TRUE(same(sweep[key]["cable"]["unstretched_m"], state->cable.unstretched_m));
      EXPECT_TRUE(same_column(sweep[key]["unstretched_m"], state->unstretched_m, std::identity{}));
    }
  }
}

TEST_P(JsonMembers, OfTheReevingsInputs) {
  const Json& in = reeving()["inputs"];
  for (std::size_t k = 0; k < inputs().sheaves.size(); ++k) {
    const reeving::Sheave& sheave = inputs().sheaves[k];
    const Json& json = in["sheaves"][k];
    EXPECT_TRUE(same(json["centre_m"], sheave.centre) && same(json["radius_m"], sheave.radius_m));
    const bool wheel = sheave.radius_m == 0;
    EXPECT_TRUE(wheel ? json["axle"].is_null() : same(json["axle"], sheave.axle));
    EXPECT_EQ(json["turning"], wheel ? Json() : Json(sheave.sense > 0 ? "anticlockwise" : "clockwise"));
    EXPECT_EQ(json["moves_with"], sheave.body < 0 ? "ground" : rig().layout.blocks[0].id.value);
  }
  for (std::size_t l = 0; l < inputs().lines.size(); ++l) {
    const reeving::Line& line = inputs().lines[l];
    const Json& json = in["lines"][l];
    EXPECT_TRUE(same(json["first_sheave"], line.first_sheave) && same(json["sheaves"], line.sheaves));
    EXPECT_TRUE(same(json["weight_N_per_m"], line.weight_N_per_m) && same(json["diameter_m"], line.diameter_m));
    EXPECT_TRUE(same(json["compliance_per_N"], line.compliance_per_N));
    for (const auto& [key, end] : {std::pair{"from", &line.from}, std::pair{"to", &line.to}})
      EXPECT_TRUE(end->body == reeving::on_trolley ? json[key]["at_m"].is_null() : same(json[key]["at_m"], end->at));
  }
  EXPECT_EQ(in["pulling"], inputs().pulling);
  EXPECT_EQ(in["braking"], inputs().braking);
  for (std::size_t b = 0; b < inputs().blocks.size(); ++b) {
    const reeving::Block& block = inputs().blocks[b];
    const Json& json = in["blocks"][b];
    EXPECT_TRUE(same(json["drawn_m"], block.drawn) && same(json["centre_of_mass_m"], block.centre_of_mass));
    EXPECT_TRUE(same(json["weight_N"], block.weight_N) &&
                json["joint"] == (block.joint == reeving::Joint::carrier ? "carrier" : "none"));
    EXPECT_TRUE(block.rest_m ? same(json["rest_m"], *block.rest_m) : json["rest_m"].is_null());
  }
  const reeving::Reeving& solved = *rig().reeving.solved();
  EXPECT_TRUE(same_column(reeving()["finished_length_m"], solved.finished_length_m, std::identity{}));
  EXPECT_TRUE(same_column(reeving()["rest_tension_N"], solved.rest_tension_N, std::identity{}));
  EXPECT_TRUE(same(reeving()["nominal_ratio"], *rig().nominal_ratio));
  EXPECT_TRUE(same(reeving()["peak_tension_N"], solved.peak_tension_N));
}

TEST_P(JsonMembers, OfEveryKnot) {
  const auto& paths = rig().main_line.solved()->paths;
  for (std::size_t p = 0; p < paths.size(); ++p) {
    const Json& columns = recorded().json["main_line"]["paths"][p]["knots"];
    const auto expect = [&](const char* key, auto member) {
      EXPECT_TRUE(same_column(columns.at(key), paths[p].path.knots(), member)) << key;
    };
    expect("x_m", &Path::Knot::x_m);
    expect("z_m", &Path::Knot::z_m);
    expect("slope", &Path::Knot::slope);
    expect("curvature_per_m", &Path::Knot::curvature);
    expect("tau_rad", &Path::Knot::tau_rad);
    expect("potential_J", &Path::Knot::potential_J);
    expect("H_N", &Path::Knot::H_N);
  }
}

}  // namespace
}  // namespace fairlead
