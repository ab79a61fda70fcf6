// Every key of rest positions, resting legs and stretch holds the member it is named after.
#include <gtest/gtest.h>

#include "geometry/checks/worst.hpp"
#include "report/tables/tables.hpp"
#include "tests/checks/rest_unsolved.hpp"
#include "tests/report/json/members.hpp"

namespace fairlead {
namespace {

TEST(JsonMembersAtRest, OfEveryRestPosition) {
  for (const Recorded* recorded : {&skew(), &reduced()}) {
    const auto& rest = recorded->rig().reeving.solved()->rest;
    const Json& json = recorded->json["rest_positions"];
    ASSERT_EQ(json.size(), rest.size());
    for (std::size_t i = 0; i < rest.size(); ++i) {
      EXPECT_EQ(json[i]["name"], rest_position_of(recorded->rig(), rest[i]));
      EXPECT_TRUE(json[i]["unsolved"].is_null());
      EXPECT_TRUE(same(json[i]["measured"], rest[i].measured));
      EXPECT_TRUE(same(json[i]["sweep"], rest[i].sweep));
      EXPECT_TRUE(same(json[i]["extension_m"], rest[i].rest->extension_m));
      EXPECT_TRUE(same(json[i]["outlet_tension_N"], rest[i].rest->outlet_tension_N));
      EXPECT_TRUE(same(json[i]["trolley_tension_N"], rest[i].rest->trolley_tension_N));
      EXPECT_TRUE(same(json[i]["shift_m"], rest[i].rest->shift_m));
    }
  }
}

TEST(JsonMembersAtRest, OfOneThatHasNoPlaceSayWhyAndHoldNoNumber) {
  const Recorded none{Dossier{Judged{without_a_cold_rest_place(), {}}}};
  const Json& cold = none.json["rest_positions"][1];
  ASSERT_TRUE(cold["unsolved"].is_object()) << cold;
  EXPECT_EQ(cold["unsolved"]["why"], "near its mark the trolley stands nowhere");
  EXPECT_TRUE(same(cold["unsolved"]["residual"], 0.25));
  EXPECT_EQ(cold["unsolved"]["iterations"], 3);
  for (const char* key : {"extension_m", "outlet_tension_N", "trolley_tension_N", "shift_m"})
    EXPECT_TRUE(cold[key].is_null()) << key;
}

TEST(JsonMembersAtRest, OfEveryRestingLeg) {
  for (const Recorded* recorded : {&skew(), &reduced()}) {
    const auto& legs = recorded->rig().reeving.solved()->resting_legs;
    const Json& json = recorded->json["legs"];
    ASSERT_EQ(json.size(), legs.size());
    EXPECT_EQ(json[0]["line"], "L1");
    EXPECT_EQ(json[0]["from"], "brake trolley");
    EXPECT_EQ(json[0]["to"], "R1");
    for (std::size_t i = 0; i < legs.size(); ++i) {
      EXPECT_TRUE(same(json[i]["length_m"], legs[i].length_m));
      EXPECT_TRUE(same(json[i]["horizontal_N"], legs[i].horizontal_N));
      EXPECT_TRUE(same(json[i]["sag_m"], legs[i].sag_m));
      EXPECT_TRUE(same(json[i]["square_sag_m"], legs[i].square_sag_m));
      EXPECT_TRUE(same(json[i]["sweep"], legs[i].sweep));
      EXPECT_TRUE(same(json[i]["pose"], legs[i].pose));
      ASSERT_GE(legs[i].wind_sweep, 0) << "both layouts have a side wind";
      EXPECT_TRUE(same(json[i]["blow_out_m"], legs[i].blow_out_m));
      EXPECT_TRUE(same(json[i]["wind_sweep"], legs[i].wind_sweep));
      EXPECT_TRUE(same(json[i]["wind_pose"], legs[i].wind_pose));
    }
  }
}

TEST(JsonMembersAtRest, OfTheStretchOfEveryLineThatHasAStiffness) {
  const Recorded stretched{Dossier{Judged{solve(demo_layout({{"line.L1.ea", "'100 kN'"}})), {}}}};
  const reeving::Stretch& stretch = stretched.rig().reeving.solved()->stretch[0];
  const Json& line = stretched.json["lines"][0];
  EXPECT_TRUE(same(line["stretch_at_rest_m"], stretch.at_rest_m));
  EXPECT_TRUE(same(line["stretch_from_rest_m"], stretch.greatest_m - stretch.at_rest_m));
  EXPECT_TRUE(skew().json["lines"][0]["stretch_at_rest_m"].is_null());
  EXPECT_TRUE(skew().json["lines"][0]["stretch_from_rest_m"].is_null());
}

}  // namespace
}  // namespace fairlead
