#include "report/json/json.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "report/formats/text.hpp"
#include "tests/checks/built_up.hpp"
#include "tests/demo_layout.hpp"
#include "tests/report/json/schema_check.hpp"

namespace fairlead {
namespace {

using Json = nlohmann::json;

Json written(const Layout& layout) { return Json::parse(json::write(Dossier{judge(layout)})); }

const Json& demo() {
  static const Json json = written(demo_layout());
  return json;
}

const SchemaCheck& schema() {
  static const SchemaCheck check{Json::parse(std::ifstream(FAIRLEAD_SOURCE_DIR "/report/json/schema.json"))};
  return check;
}

TEST(Json, KeepsItsSchemaWhetherTheRigIsClearedOrNot) {
  Layout unsolved = demo_layout(), ranges = demo_layout({{"main_line.ea", "['10 MN', '12 MN']"}});
  unsolved.lines.clear();
  const Layout unjudged = demo_layout({{"anchor.A3.mbs", "'1 kN'"}, {"main_line.tension", "['17 kN', '19 kN']"}});
  Layout bare = unjudged;
  bare.limits = {};
  bare.backup_brake.reset();
  const auto reduced = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/marten_ridge.toml");
  ASSERT_TRUE(reduced.has_value());
  for (const std::string& fault : schema().faults(Json::parse(json::write(Dossier{Judged{solve(*reduced), {}}}))))
    ADD_FAILURE() << fault;
  for (const Layout& layout : {demo_layout(), unsolved, ranges, unjudged, bare})
    for (const std::string& fault : schema().faults(written(layout))) ADD_FAILURE() << fault;
  const Layout held = built_up(guyed_pole("", "may_be_lost = true\n"), "base = [1348, 911, 331]");
  for (const std::string& fault : schema().faults(written(held))) ADD_FAILURE() << fault;
}

TEST(Json, ASchemaThatIsNotKeptIsNoticed) {
  Json broken = demo();
  broken["frame"].erase("span_m");
  broken["loads"]["unheard_of"] = 1;
  broken["verdict"]["cleared"] = "yes";
  EXPECT_EQ(schema().faults(broken).size(), 3u);
}

TEST(Json, SaysWhatTheTerminalSays) {
  const Dossier dossier{judge(demo_layout({{"anchor.A3.mbs", "'1 kN'"}}))};
  const Json json = Json::parse(json::write(dossier));
  const std::string text = text::write(dossier, Style{});
  EXPECT_EQ(text.substr(0, text.find('\n')), json["verdict"]["headline"].get<std::string>());
  EXPECT_EQ(json["verdict"]["exit_status"], 1);
  EXPECT_EQ(json["findings"].size(), dossier.judged.findings.size());
}

// From here on everything is worked out anew from the JSON alone, as anyone outside could.

double number(const Json& json) {
  return json.is_null() ? std::numeric_limits<double>::quiet_NaN() : json.get<double>();
}
Vec3 vector(const Json& json) { return {number(json[0]), number(json[1]), number(json[2])}; }

// Irvine, Cable Structures (1981): the end of an elastic catenary that starts with (H, V). Ten digits of 220 m and
// 20 kN leave 1e-8 m and 1e-6 N; their effect on the ends stays below 1e-6 m.
TEST(Json, TheBareMainLineClosesIrvinesEquations) {
  for (const Json& state : demo()["main_line"]["states"]) {
    const Json& cable = state["cable"];
    const double S = number(cable["unstretched_m"]), w = number(cable["weight_N_per_m"]),
                 c = number(cable["compliance_per_N"]);
    const double H = number(state["H_N"]), V = number(state["V_start_N"]), V_end = V - w * S;
    const double x = H * S * c + H / w * (std::asinh(V / H) - std::asinh(V_end / H));
    const double drop = S * c * (V - w * S / 2) + (std::hypot(H, V) - std::hypot(H, V_end)) / w;
    EXPECT_NEAR(x, number(cable["span_m"]), 1e-6);
    EXPECT_NEAR(-drop, number(cable["rise_m"]), 1e-6);
    EXPECT_NEAR(std::hypot(H, V), number(state["start_tension_N"]), 1e-4);
    EXPECT_NEAR(std::hypot(H, V_end), number(state["end_tension_N"]), 1e-4);
  }
}

TEST(Json, ExtensionIsTheLineThatIsOutBeyondThatAtRest) {
  const Json& reeving = demo()["reeving"];
  const double rest_m = number(reeving["inputs"]["rest_extension_m"]),
               finished_m = number(reeving["finished_length_m"][0]);
  const double radius_m = number(reeving["inputs"]["sheaves"][0]["radius_m"]);
  for (const Json& sweep : reeving["sweeps"])
    for (std::size_t p = 0; p < sweep["poses"]["travel_m"].size(); ++p) {
      const double out_m = number(sweep["legs"][0]["length_m"][p]) + number(sweep["legs"][1]["length_m"][p]) +
                           radius_m * number(sweep["turns"][0]["wrap_rad"][p]);
      EXPECT_NEAR(rest_m + out_m - finished_m, number(sweep["poses"]["extension_m"][p]), 1e-7);
    }
}

TEST(Json, FleetAnglesAreThoseOfTheLegsAgainstTheAxle) {
  const Json& reeving = demo()["reeving"];
  const Vec3 axle = vector(reeving["inputs"]["sheaves"][0]["axle"]);
  const Point3 centre = Point3{} + vector(reeving["inputs"]["sheaves"][0]["centre_m"]);
  for (const Json& sweep : reeving["sweeps"])
    for (std::size_t p = 0; p < sweep["poses"]["travel_m"].size(); ++p)
      for (const char* side : {"on", "off"}) {
        const Json& turn = sweep["turns"][0];
        const bool on = side == std::string("on");
        const Json& contact = on ? sweep["legs"][0]["to_m"] : sweep["legs"][1]["from_m"];
        const Vec3 leg = vector(turn[side + std::string("_leg")][p]);
        const Vec3 radius = Point3{} + vector(contact[p]) - centre;
        EXPECT_NEAR(norm(leg), 1, 1e-9);
        EXPECT_NEAR(dot(leg, radius) / norm(radius), 0, 1e-5)
            << "the leg leaves square to the radius; 1e-7 m in 0.08 m";
        EXPECT_NEAR(std::asin(dot(leg, axle)), number(turn[side + std::string("_fleet_rad")][p]), 1e-8);
      }
}

TEST(Json, EveryLoadCaseInTheArrestZoneCarriesItsWeights) {
  const Json& json = demo();
  int judged = 0;
  for (const Json& load_case : json["loads"]["cases"]) {
    if (load_case["sweep"] == -1) continue;  // a rider on the open span
    ++judged;
    const Json& sweep = json["reeving"]["sweeps"][load_case["sweep"].get<std::size_t>()];
    const Json& poses = sweep["poses"];
    const auto p = load_case["pose"].get<std::size_t>();
    Vec3 on_anchors;
    for (const Json& force : load_case["on_anchor_N"]) on_anchors += vector(force);
    const double weight_N = number(poses["main_line_weight_N"][p]) + number(poses["line_weight_N"][p]) +
                            number(sweep["trolley_weight_N"]) + number(sweep["rider_weight_N"]) +
                            number(json["loads"]["inputs"]["unit_weight_N"]);
    double hanging_m =
        number(sweep["turns"][0]["wrap_rad"][p]) * number(json["reeving"]["inputs"]["sheaves"][0]["radius_m"]);
    for (const Json& leg : sweep["legs"]) hanging_m += number(leg["length_m"][p]);
    const double exposed_m2 = hanging_m * number(json["reeving"]["inputs"]["lines"][0]["diameter_m"]);
    const Vec3 wind_N = exposed_m2 * vector(sweep["wind_Pa"]);
    const Vec3 left = on_anchors + Vec3{0, 0, weight_N} - wind_N - vector(poses["hold_N"][p]);
    EXPECT_NEAR(norm(left), 0, 2e-5) << load_case["name"] << ": ten digits of 16 kN, four anchors";
  }
  EXPECT_GE(judged, 2);
}

TEST(Json, PathsFallAsTheirDriveForcesSay) {
  for (const Json& path : demo()["main_line"]["paths"]) {
    const Json& knots = path["knots"];
    for (std::size_t i = 0; i < knots["x_m"].size(); ++i)
      EXPECT_NEAR(number(knots["drive_force_N"][i]), -number(path["weight_N"]) * std::tan(number(knots["tau_rad"][i])),
                  1e-5);
    // Simpson's rule over two metres against the printed potential: h5 f''''/90 of a force that changes over 10 m.
    for (std::size_t i = 20; i + 22 < knots["x_m"].size(); i += 2) {
      const double h = number(knots["x_m"][i + 1]) - number(knots["x_m"][i]);
      const auto Q = [&](std::size_t k) { return number(knots["drive_force_N"][k]); };
      const double fall = number(knots["potential_J"][i]) - number(knots["potential_J"][i + 2]);
      EXPECT_NEAR(fall, h / 3 * (Q(i) + 4 * Q(i + 1) + Q(i + 2)), 1e-4 * number(path["weight_N"]) / 1000 + 1e-5);
    }
  }
}

}  // namespace
}  // namespace fairlead
