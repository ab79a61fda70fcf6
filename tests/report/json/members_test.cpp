// Every key holds the member it is named after: double entry against the rig that was written.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "report/json/json.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

using Json = nlohmann::json;
using mainline::Path;
using reeving::Leg;
using reeving::Pose;
using reeving::Turn;

// A skew sheave off the plane: no two members are equal by symmetry.
const Dossier& dossier() {
  static const Dossier skew{judge(
      demo_layout({{"sheave.R1.axle", "[0.62, -0.78, 0.02]"}, {"sheave.R1.position", "[1349.14, 911.78, 331.35]"}}))};
  return skew;
}
const Rig& rig() { return dossier().judged.rig; }
const Json& record() {
  static const Json json = Json::parse(json::write(dossier()));
  return json;
}

/// Ten digits were printed: half of the last is 0.5e-9 of the number at most.
bool same(const Json& json, double value) {
  if (!std::isfinite(value)) return json.is_null();
  return json.is_number() && std::abs(json.get<double>() - value) <= 0.5e-9 * (1 + 1e-6) * std::abs(value);
}
bool same(const Json& json, Vec3 v) { return same(json[0], v.x) && same(json[1], v.y) && same(json[2], v.z); }
bool same(const Json& json, Point3 p) { return same(json, Vec3{p.x, p.y, p.z}); }

template <class T, class M>
void expect_column(const Json& columns, const char* key, M T::*member, const std::vector<T>& rows,
                   std::size_t first = 0, std::size_t stride = 1) {
  const Json& column = columns.at(key);
  ASSERT_EQ(column.size(), rows.size() / stride) << key;
  for (std::size_t i = 0; i < column.size(); ++i)
    ASSERT_TRUE(same(column[i], rows[first + i * stride].*member)) << key << " " << i << ": " << column[i];
}

template <class Get>
void expect_strays(const Json& column, const std::vector<reeving::Stray>& strays, Get get) {
  ASSERT_EQ(column.size(), strays.size());
  for (std::size_t i = 0; i < strays.size(); ++i) ASSERT_TRUE(same(column[i], get(strays[i]))) << i;
}

TEST(JsonMembers, OfEveryPose) {
  const auto& sweeps = rig().reeving.solved()->sweeps;
  ASSERT_EQ(record()["reeving"]["sweeps"].size(), sweeps.size());
  for (std::size_t s = 0; s < sweeps.size(); ++s) {
    const Json& columns = record()["reeving"]["sweeps"][s]["poses"];
    const auto expect = [&](const char* key, auto member) { expect_column(columns, key, member, sweeps[s].poses); };
    expect("travel_m", &Pose::travel_m);
    expect("trolley_m", &Pose::trolley);
    expect("attachment_m", &Pose::attachment);
    expect("rider_m", &Pose::rider);
    expect("extension_m", &Pose::extension_m);
    expect("ratio", &Pose::ratio);
    expect("pay_out", &Pose::pay_out);
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
    EXPECT_EQ(columns.size(), 20u) << "a key that is not held to its member";
  }
}

TEST(JsonMembers, OfEveryTurnAndLeg) {
  const auto& sweeps = rig().reeving.solved()->sweeps;
  for (std::size_t s = 0; s < sweeps.size(); ++s) {
    const Json& sweep = record()["reeving"]["sweeps"][s];
    ASSERT_EQ(sweep["turns"].size(), 1u);
    ASSERT_EQ(sweep["legs"].size(), 2u);
    const auto turn = [&](const char* key, auto member) {
      expect_column(sweep["turns"][0], key, member, sweeps[s].turns);
    };
    turn("on_m", &Turn::on);
    turn("off_m", &Turn::off);
    turn("on_leg", &Turn::on_leg);
    turn("off_leg", &Turn::off_leg);
    turn("on_tension_N", &Turn::on_tension_N);
    turn("off_tension_N", &Turn::off_tension_N);
    turn("wrap_rad", &Turn::wrap_rad);
    turn("on_fleet_rad", &Turn::on_fleet_rad);
    turn("off_fleet_rad", &Turn::off_fleet_rad);
    turn("force_N", &Turn::force_N);
    turn("wrap_centre_m", &Turn::wrap_centre);
    turn("couple_N_m", &Turn::couple_N_m);
    EXPECT_EQ(sweep["turns"][0].size(), 12u);
    for (std::size_t l = 0; l < 2; ++l) {
      const auto leg = [&](const char* key, auto member) {
        expect_column(sweep["legs"][l], key, member, sweeps[s].legs, l, 2);
      };
      leg("from_m", &Leg::from);
      leg("to_m", &Leg::to);
      leg("length_m", &Leg::length_m);
      leg("sag_m", &Leg::sag_m);
      leg("from_tension_N", &Leg::from_tension_N);
      leg("to_tension_N", &Leg::to_tension_N);
      leg("H_N", &Leg::H_N);
      leg("weight_N", &Leg::weight_N);
      leg("load_N_per_m", &Leg::load_N_per_m);
      expect_strays(sweep["legs"][l]["stray_m"], sweeps[s].strays, [l](const auto& stray) { return stray.legs_m[l]; });
      EXPECT_EQ(sweep["legs"][l].size(), 10u);
    }
  }
}

TEST(JsonMembers, OfTheWorstOfEverySweep) {
  const auto& sweeps = rig().reeving.solved()->sweeps;
  for (std::size_t s = 0; s < sweeps.size(); ++s) {
    const Json& worst = record()["reeving"]["sweeps"][s]["worst"];
    const auto expect = [](const Json& json, const Extreme& extreme) {
      EXPECT_TRUE(same(json["value"], extreme.value) && same(json["bound"], extreme.bound)) << json;
      EXPECT_EQ(json["pose"], extreme.pose);
    };
    expect(worst["fleet_rad"][0], sweeps[s].fleet_rad[0]);
    expect(worst["lead_rad"], sweeps[s].lead_rad);
    expect(worst["thickness_m"], sweeps[s].thickness_m);
    expect(worst["across_m"], sweeps[s].across_m);
    expect(worst["least_pay_out"], sweeps[s].least_pay_out);
    expect(worst["greatest_extension_m"], sweeps[s].greatest_extension_m);
  }
}

TEST(JsonMembers, OfEveryKnot) {
  const auto& paths = rig().main_line.solved()->paths;
  for (std::size_t p = 0; p < paths.size(); ++p) {
    const Json& columns = record()["main_line"]["paths"][p]["knots"];
    const auto expect = [&](const char* key, auto member) {
      expect_column(columns, key, member, paths[p].path.knots());
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

TEST(JsonMembers, OfWhatHoldsWhat) {
  const Json& in = record()["loads"]["inputs"];
  EXPECT_EQ(in["start_anchor"], "P1");
  EXPECT_EQ(in["end_anchor"], "P2");
  EXPECT_EQ(in["unit_anchor"], "B1");
  EXPECT_EQ(in["sheave_anchors"], Json::array({"A3"}));
  for (std::size_t i = 0; i < rig().layout.anchors.size(); ++i) {
    EXPECT_EQ(in["anchors"][i]["id"], rig().layout.anchors[i].id.value);
    EXPECT_TRUE(same(in["anchors"][i]["position_m"], rig().layout.anchors[i].position.value));
  }
  const auto& loads = *rig().loads.solved();
  for (std::size_t i = 0; i < loads.demands.size(); ++i) {
    const Json& demand = record()["loads"]["demands"][i];
    EXPECT_TRUE(same(demand["force_N"], loads.demands[i].force_N.value));
    EXPECT_TRUE(same(demand["bound_N"], loads.demands[i].force_N.bound));
    EXPECT_EQ(demand["case"], loads.demands[i].force_N.pose);
  }
}

TEST(JsonMembers, OfEveryFinding) {
  const auto& findings = dossier().judged.findings;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const Json& json = record()["findings"][i];
    const Finding& finding = findings[i];
    EXPECT_EQ(json["check"], finding.check->name);
    EXPECT_TRUE(finding.measured ? same(json["value"], finding.value) && same(json["bound"], finding.bound)
                                 : json["value"].is_null() && json["bound"].is_null())
        << json;
    EXPECT_TRUE(finding.limit ? same(json["limit"], finding.limit->at.value) : json["limit"].is_null()) << json;
    EXPECT_TRUE(finding.at ? same(json["at_m"], *finding.at) : json["at_m"].is_null()) << json;
  }
}

}  // namespace
}  // namespace fairlead
