// Ids and what points at them, and what must agree between keys, items and sections.
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

TEST(LayoutReferences, AnIdIsUsedOnceInTheWholeFile) {
  const std::string own = "give it a name of its own";
  expect_each({
      {"id = \"L2\"", "id = \"L1\"", "\"L1\"", "the id \"L1\" is taken by a line in line 87", own},
      {"id = \"L2\"", "id = \"A3\"", "\"A3\"", "the id \"A3\" is taken by an anchor in line 58", own},
      {"id = \"L2\"", "id = \"brake_unit\"", "\"brake_unit\"",
       "\"brake_unit\" is a word of the layout file and can be no id", own},
      {"id = \"L2\"", "id = \"brake_trolley\"", "\"brake_trolley\"",
       "\"brake_trolley\" is a word of the layout file and can be no id", own},
      {"id = \"L2\"", "id = \"L 2\"", "\"L 2\"", "line \"L 2\": an id has no blanks, dots or quotes",
       "letters, digits, - and _ will do"},
      {"id = \"L2\"", "id = \"L.2\"", "\"L.2\"", "line \"L.2\": an id has no blanks, dots or quotes",
       "letters, digits, - and _ will do"},
      {"id = \"L2\"\n", "", "[[line]]", "line 2: \"id\" is missing",
       "add it: name on the drawings; for example id = \"L1\""},
      {"id = \"L2\"", "id = 2", "2", "line 2: \"id\" is a text, not a number", "for example id = \"L1\""},
  });
}

TEST(LayoutReferences, WhatPointsAtNothingIsNamedWithWhatIsThere) {
  expect_each({
      {"from = \"A1\"", "from = \"A7\"", "\"A7\"", "main line: there is no \"A7\"; an anchor is wanted",
       "known: A1, A2, A3, A4"},
      {"on = \"A3\"", "on = \"R2\"", "\"R2\"",
       "sheave \"R1\": \"R2\" is a sheave, and an anchor, a block or the brake trolley is wanted",
       "known: brake_trolley, A1, A2, A3, A4, B1"},
      {"to = \"brake_unit\"", "to = \"brake_unti\"", "\"brake_unti\"",
       "line \"L2\": there is no \"brake_unti\"; an anchor, a block, a connector, the brake trolley or the brake unit "
       "is "
       "wanted",
       "did you mean \"brake_unit\"?"},
      {"to = \"brake_unit\"", "to = \"R1\"", "\"R1\"",
       "line \"L2\": \"R1\" is a sheave, and an anchor, a block, a connector, the brake trolley or the brake unit is "
       "wanted",
       "known: brake_trolley, brake_unit, A1, A2, A3, A4, B1, C1"},
      {"sheave = \"R2\"", "sheave = \"R3\"", "\"R3\"", "line \"L1\": there is no \"R3\"; a sheave is wanted",
       "known: R1, R2"},
      {"on = \"A4\"", "on = \"brake_trolley\"", "\"brake_trolley\"",
       "brake unit: \"brake_trolley\" is the brake trolley, and an anchor is wanted", "known: A1, A2, A3, A4"},
      {"joins = [\"L1\", \"brake_trolley\"]", "joins = [\"L1\", \"brake_trolly\"]", "\"brake_trolly\"",
       "connector \"C1\": there is no \"brake_trolly\"; a line, a block, an anchor, the brake trolley or the brake "
       "unit is "
       "wanted",
       "did you mean \"brake_trolley\"?"},
      {"subject = \"R1\"", "subject = \"R5\"", "\"R5\"", "waiver 1: there is no \"R5\"",
       "known: brake_trolley, brake_unit, A1, A2, A3, A4, R1, R2, L1, L2, L3, B1, C1, S1, platform, mast, ground"},
  });
}

TEST(LayoutReferences, AWaiverMayNameAnItemASectionOrTheWholeLayout) {
  for (const char* subject : {"R2", "C1", "L1", "S1", "mast", "main_line", "brake_unit", "brake_trolley",
                              "backup_brake", "riders", "landing", "layout"})
    EXPECT_EQ(printed_errors(edited("subject = \"R1\"", std::string("subject = \"") + subject + "\"")), "") << subject;
  EXPECT_EQ(printed_errors(edited("subject = \"R1\"\n", "")), "");
  EXPECT_NE(printed_errors(edited("subject = \"R1\"", "subject = \"anchor\"")), "");
}

TEST(LayoutReferences, AMainLineSpansAHorizontalDistance) {
  expect_each({
      {"to = \"A2\"", "to = \"A1\"", "\"A1\"", "main line: it ends where it begins, at \"A1\"", ""},
  });
  EXPECT_EQ(printed_errors(edited("position = [220.0, \"0 ft\", \"26 ft 3 in\"]", "position = [0, 0, 8]")),
            "otter.toml:37:6: error: main line: \"A1\" and \"A2\" stand above one another\n"
            "   37 |   to = \"A2\"\n"
            "      |        ^^^^ a main line spans a horizontal distance\n");
}

TEST(LayoutReferences, TheTrolleyRestsAndTravelsOnTheMainLine) {
  expect_each({
      {"rest = \"190 m\"", "rest = \"220 m\"", "\"220 m\"", "brake trolley: its rest mark is not on the main line",
       "the main line runs from chainage 0.000 m to 220.000 m"},
      {"rest = \"190 m\"", "rest = 0", "0", "brake trolley: its rest mark is not on the main line",
       "the main line runs from chainage 0.000 m to 220.000 m"},
      {"travel = \"14 m\"", "travel = \"30.5 m\"", "\"30.5 m\"",
       "brake trolley: it would travel off the main line, to chainage 220.500 m",
       "the main line runs from chainage 0.000 m to 220.000 m"},
  });
  const auto zero_at = [](const std::string& x_m, const std::string& block_rest) {
    return edited("chainage_zero = [0.0, ", "chainage_zero = [" + x_m + ", ", edited("\"208 m\"", block_rest));
  };
  EXPECT_EQ(printed_errors(zero_at("10", "198")), "");
  EXPECT_EQ(printed_errors(zero_at("50", "158")),
            "otter.toml:170:8: error: brake trolley: its rest mark is not on the main line\n"
            "  170 |   rest = \"190 m\"\n"
            "      |          ^^^^^^^ the main line runs from chainage -50.000 m to 170.000 m\n");
}

TEST(LayoutReferences, ASheaveOnAnAnchorHasAPositionAndOneOnWhatMovesAnOffset) {
  expect_each({
      {"on = \"A3\"", "on = \"brake_trolley\"", "[180.0, 0.0, 11.3]", "sheave \"R1\": what carries it moves",
       "give its \"offset\""},
      {"on = \"B1\"", "on = \"A3\"", "[\"-40 mm\", 0, \"1 in\"]", "sheave \"R2\": it stands on an anchor",
       "give its \"position\""},
  });
}

TEST(LayoutReferences, ATreadDiameterNeedsItsLine) {
  expect_each({
      {"route = [\"R1\", { sheave = \"R2\", turning = \"clockwise\" }]", "route = [\"R2\"]", "\"192 mm\"",
       "sheave \"R1\": no line runs over it, so its pitch diameter is not known", "give \"pitch_diameter\" instead"},
      {"mass = \"60 g/m\"", "mass = \"60 g/m\"\nroute = [\"R1\"]", "\"192 mm\"",
       "sheave \"R1\": lines of different diameters run over it, so its pitch diameter is not known",
       "give \"pitch_diameter\" instead"},
  });
}

TEST(LayoutReferences, ALineGoesSomewhereOverEachSheaveOnceAndItsConnectorsJoinIt) {
  expect_each({
      {"route = [\"R1\", {", "route = [\"R1\", \"R2\", {", "\"R2\"", "line \"L1\": it runs over this sheave twice", ""},
      {"to = \"brake_unit\"", "to = \"B1\"", "\"B1\"", "line \"L2\": it ends where it begins", ""},
      {"to = \"brake_unit\"", "to = \"C1\"", "\"C1\"", "line \"L2\": connector \"C1\" does not join it",
       "name \"L2\" in the connector's \"joins\""},
  });
}

TEST(LayoutReferences, LimitsOfTheSameThingAgree) {
  expect_each({
      {"warmest = \"104 F\"", "warmest = \"-16 C\"", "\"-16 C\"", "site: \"warmest\" lies below \"coldest\"", ""},
      {"rest_extension = \"1 m\"", "rest_extension = \"18 m\"", "\"18 m\"",
       "brake unit: \"rest_extension\" leaves nothing of \"extension_limit\"", ""},
      {"platform_to = \"214 m\"", "platform_to = \"196 m\"", "\"196 m\"",
       "landing: \"platform_to\" does not lie beyond \"platform_from\"", ""},
      {"latest_rest = \"204 m\"", "latest_rest = \"196.9 m\"", "\"196.9 m\"",
       "landing: \"latest_rest\" lies before \"earliest_rest\"", ""},
      {"tension = [\"14.5 kN\", \"3500 lbf\"]", "sag = \"4.2 m\"", "\"start\"",
       "main line: \"tension_at\" says nothing without \"tension\"", ""},
  });
}

}  // namespace
}  // namespace fairlead
