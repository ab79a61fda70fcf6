// Who arrives, from where, and what stops them: the keys of the riders, their approach and the brakes.
#include "geometry/layout/differences.hpp"
#include "geometry/layout/items.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

// Conversions: NIST SP 811, Appendix B (ft2 to m2 9.290304 E-02, mile per hour 4.4704 E-01, pound 4.535924 E-01, pound-
// force 4.448222 E+00, each exact or to its last digit); the tolerance is half the last digit of the product.
TEST(ReadArrest, RidersAreReadInSi) {
  const Riders riders = layout_of(good_text()).riders;
  EXPECT_NEAR(riders.arrival_speed_m_per_s->value.high, 11.176, 5e-4);
  EXPECT_EQ(riders.rolling_resistance->value, (Range{0.01, 0.025}));
  EXPECT_NEAR(*riders.drag_area_m2, 0.65032128, 5e-9);
  EXPECT_EQ(riders.lanyard_stiffness_N_per_m->value, 4000);
  EXPECT_EQ(riders.lanyard_damping, 0.1);
}

TEST(ReadArrest, AnApproachBeginsWithAPushOffThatMayBeNone) {
  const Layout layout = layout_of(good_text());
  ASSERT_TRUE(layout.approach.has_value());
  EXPECT_NEAR(layout.approach->start_m, 12.192, 5e-4);
  EXPECT_EQ(layout.approach->push_off_m_per_s.value, (Range{0, 1.5}));
  EXPECT_FALSE(layout_of(edited("[approach]\nstart = \"40 ft\"\npush_off = [0, \"1.5 m/s\"]\n", "")).approach);
}

TEST(ReadArrest, TheBrakesAreReadInSi) {
  const Layout layout = layout_of(good_text());
  EXPECT_EQ(layout.brake_unit.return_drag->value, 0.25);
  EXPECT_EQ(layout.brake_unit.force_left, 0.9);
  EXPECT_NEAR(layout.brake_unit.moving_mass_kg, 1.3607772, 3e-7);
  EXPECT_NEAR(layout.brake_trolley.static_resistance_N, 4.448222, 5e-7);
  EXPECT_TRUE(layout.brake_trolley.held_back->value);
  const std::vector<CurvePoint>& rows = layout.backup_brake->resistance_N->value.points();
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_EQ(rows[1], (CurvePoint{1.5, 2000}));
  EXPECT_NEAR(rows[2].x, 3.048, 5e-4);
}

TEST(ReadArrest, LimitsOfTheStopAndOfTheWayBackAreReadInSi) {
  const Limits limits = layout_of(good_text()).limits;
  EXPECT_EQ(limits.stop_reserve_m->at, 2);
  EXPECT_NEAR(limits.swing_rad->at, 0.785398163, 5e-10);
  EXPECT_EQ(limits.rider_load_raw->at, 6);
  EXPECT_EQ(limits.rider_load_filtered->at, 3);
  EXPECT_EQ(limits.rider_load_held->at, 2.5);
  // 2.5 times standard gravity, 9.80665 m/s2.
  EXPECT_NEAR(limits.trolley_deceleration_m_per_s2->at, 24.516625, 5e-7);
  EXPECT_EQ(limits.reset_reserve_N->at, 10);
  EXPECT_EQ(limits.return_speed_m_per_s->at, 2);
  const Layout metric = layout_of(edited("at = \"2.5 g\"", "at = \"25 m/s2\""));
  EXPECT_EQ(metric.limits.trolley_deceleration_m_per_s2->at, 25);
}

std::string without(const std::vector<std::string>& lines) {
  std::string text = good_text();
  for (const std::string& line : lines) text = edited(line + "\n", "", text);
  return text;
}

TEST(ReadArrest, WhatIsAssumedOfTheBrakesIsSaid) {
  const Layout layout = layout_of(without({"force_left = 0.9", "moving_mass = \"3 lb\"", "return_drag = \"25 %\"",
                                           "static_resistance = \"1 lbf\"", "held_back = true"}));
  EXPECT_EQ(assumptions(layout),
            (std::vector<std::string>{"brake_unit.force_left = 100 %, a stated default (no loss is stated)",
                                      "brake_unit.moving_mass = 0 kg, a stated default (no moving mass is stated)",
                                      "brake_trolley.static_resistance = 0 N, a stated default (none is stated)"}));
  EXPECT_EQ(layout.brake_unit.force_left, 1);
  EXPECT_EQ(layout.brake_unit.moving_mass_kg, 0);
  EXPECT_EQ(layout.brake_trolley.static_resistance_N, 0);
  EXPECT_FALSE(layout.brake_unit.return_drag || layout.brake_trolley.held_back);
}

TEST(ReadArrest, ALanyardWithoutADampingLosesNothingAndOneThatDoesNotGiveHasNone) {
  const std::string damping = "lanyard_damping = \"10 %\"", stiffness = "lanyard_stiffness = \"4 kN/m\"";
  const Layout undamped = layout_of(without({damping}));
  EXPECT_EQ(undamped.riders.lanyard_damping, 0);
  EXPECT_EQ(
      assumptions(undamped),
      std::vector<std::string>{"riders.lanyard_damping = 0 %, a stated default (nothing is known to be lost in it)"});
  EXPECT_EQ(assumptions(layout_of(without({damping, stiffness}))), std::vector<std::string>{});
  EXPECT_NE(printed_errors(without({stiffness})).find("\"lanyard_damping\" says nothing without \"lanyard_stiffness\""),
            std::string::npos);
}

TEST(ReadArrest, ABumperHasAStiffnessAndAGiveOrIsNone) {
  const BrakeTrolley trolley = layout_of(good_text()).brake_trolley;
  EXPECT_EQ(*trolley.bumper_stiffness_N_per_m, 15000);
  EXPECT_EQ(*trolley.bumper_give_m, 0.3);
  EXPECT_EQ(trolley.bumper_damping, 0.2);
  const std::string stiffness = "bumper_stiffness = \"15 kN/m\"", give = "bumper_give = \"0.3 m\"",
                    damping = "bumper_damping = \"20 %\"";
  EXPECT_NE(printed_errors(without({give})).find("\"bumper_stiffness\" says nothing without \"bumper_give\""),
            std::string::npos);
  EXPECT_NE(printed_errors(without({stiffness})).find("\"bumper_give\" says nothing without \"bumper_stiffness\""),
            std::string::npos);
  EXPECT_FALSE(layout_of(without({stiffness, give, damping})).brake_trolley.bumper_stiffness_N_per_m);
}

// Which way a limit must go to let more pass.
TEST(ReadArrest, ALimitIsLoosenedByAskingForLessReserveOrAllowingMoreLoad) {
  const auto changed = [](const std::string& was, const std::string& is) {
    return strictness(differences(layout_of(good_text()), layout_of(edited(was, is))).at(0).keys.at(0));
  };
  for (const auto& [was, is] : {std::pair{"stop_reserve = { at = \"2 m\"", "stop_reserve = { at = \"1.9 m\""},
                                std::pair{"swing = { at = \"45", "swing = { at = \"46"},
                                std::pair{"rider_load_raw = { at = 6", "rider_load_raw = { at = 6.1"},
                                std::pair{"rider_load_filtered = { at = 3", "rider_load_filtered = { at = 3.1"},
                                std::pair{"rider_load_held = { at = \"250", "rider_load_held = { at = \"251"},
                                std::pair{"at = \"2.5 g\"", "at = \"2.6 g\""}, std::pair{"\"10 N\"", "\"9 N\""},
                                std::pair{"return_speed = { at = \"2 ", "return_speed = { at = \"2.1 "}})
    EXPECT_EQ(changed(was, is), Strictness::loosened) << is;
  EXPECT_EQ(changed("\"10 N\"", "\"11 N\""), Strictness::tightened);
}

TEST(ArrestErrors, AnArrivalIsMeasuredOrFollowsFromAnApproach) {
  const std::string speed = "arrival_speed = [\"5 m/s\", \"25 mph\"]",
                    approach = "[approach]\nstart = \"40 ft\"\npush_off = [0, \"1.5 m/s\"]\n";
  EXPECT_EQ(printed_errors(without({speed})), "");
  EXPECT_EQ(printed_errors(without({approach})), "");
  const std::string neither = without({speed, approach});
  EXPECT_EQ(printed_errors(neither),
            error_at(neither, neither.find("[riders]"), 8, "riders: nothing says how fast they arrive",
                     "give the \"arrival_speed\" measured, or a section [approach]"));
}

TEST(ArrestErrors, AnApproachNeedsWhatSlowsTheRiders) {
  const std::string text = without({"rolling_resistance = [0.01, \"2.5 %\"]", "drag_area = \"7 ft2\""});
  const std::size_t at = text.find("[approach]");
  const std::string instead = "add it to [riders], or leave out [approach]";
  EXPECT_EQ(printed_errors(text),
            error_at(text, at, 10, "approach: \"rolling_resistance\" of the riders is missing", instead) +
                error_at(text, at, 10, "approach: \"drag_area\" of the riders is missing", instead));
}

TEST(ArrestErrors, RidersSetOffOnTheMainLineUpstreamOfTheTrolley) {
  const std::string runs = "the main line runs from chainage 0.000 m to 220.000 m";
  expect_each({
      {"start = \"40 ft\"", "start = 0", "0", "approach: the push-off is not on the main line", runs},
      {"start = \"40 ft\"", "start = \"220.5 m\"", "\"220.5 m\"", "approach: the push-off is not on the main line",
       runs},
      {"start = \"40 ft\"", "start = \"190 m\"", "\"190 m\"",
       "approach: the push-off does not lie upstream of the brake trolley", "its rest mark is at chainage 190.000 m"},
      {"push_off = [0, ", "push_off = [\"-1 m/s\", ", "\"-1 m/s\"", "approach: \"push_off\" must not be negative", ""},
  });
  EXPECT_EQ(printed_errors(edited("start = \"40 ft\"", "start = \"189.999 m\"")), "");
}

TEST(ArrestErrors, SharesLieBetweenNoneAndAll) {
  expect_each({
      {"return_drag = \"25 %\"", "return_drag = \"101 %\"", "\"101 %\"",
       "brake unit: \"return_drag\" must lie from 0 to 1.000", ""},
      {"force_left = 0.9", "force_left = 0", "0", "brake unit: \"force_left\" must be above 0 and at most 1.000", ""},
      {"moving_mass = \"3 lb\"", "moving_mass = \"-3 lb\"", "\"-3 lb\"",
       "brake unit: \"moving_mass\" must not be negative", ""},
      {"rolling_resistance = [0.01, \"2.5 %\"]", "rolling_resistance = [0.01, 2.5]", "2.5",
       "riders: \"rolling_resistance\" must lie from 0 to below 1.000", ""},
      {"static_resistance = \"1 lbf\"", "static_resistance = \"1 lb\"", "\"1 lb\"",
       "brake trolley: \"lb\" is a mass, and a force is wanted", "write \"1 lbf\""},
      {"held_back = true", "held_back = \"yes\"", "\"yes\"",
       "brake trolley: \"held_back\" is true or false, not a text", "for example held_back = true"},
      {"drag_area = \"7 ft2\"", "drag_area = 0.65", "0.65", "riders: a unit is missing",
       "write an area in m2, mm2, cm2, in2, ft2"},
  });
}

TEST(ArrestErrors, TheResistanceOfABackupBrakeFillsItsStroke) {
  const std::string rows = "resistance = [[\"0 m\", \"300 N\"], [\"1.5 m\", \"2 kN\"], [\"10 ft\", \"5 kN\"]]";
  const std::string late = "[[\"0.2 m\", \"300 N\"], [\"3 m\", \"5 kN\"]]",
                    early = "[[\"0 m\", \"300 N\"], [\"2.9 m\", \"5 kN\"]]";
  expect_each({
      {rows, "resistance = " + late, late, "backup brake: \"resistance\" does not begin at compression 0",
       "let its first row say what resists at 0 m"},
      {rows, "resistance = " + early, early, "backup brake: \"resistance\" ends at 2.900 m, short of \"stroke\"",
       "let its last row say what resists at 3.000 m"},
      {"stroke = \"3 m\"\nresistance = [", "resistance = [",
       "[[\"0 m\", \"300 N\"], [\"1.5 m\", \"2 kN\"], [\"10 ft\", \"5 kN\"]]",
       "backup brake: \"resistance\" says nothing without \"stroke\"", ""},
      {"stroke = \"3 m\"", "stroke = \"3 m\"\non = \"A2\"\nforce = \"4.9 kN\"", "\"4.9 kN\"",
       "backup brake: its \"resistance\" rises to 5.00 kN, and what resists the trolley pulls the anchor",
       "let \"force\" be no less"},
  });
  // 10 ft are 3.048 m, in whatever unit.
  EXPECT_EQ(printed_errors(edited("stroke = \"3 m\"", "stroke = \"3048 mm\"")), "");
  EXPECT_EQ(printed_errors(edited("stroke = \"3 m\"", "stroke = \"3 m\"\non = \"A2\"\nforce = \"5 kN\"")), "");
}

}  // namespace
}  // namespace fairlead
