// What else may load the main line and its anchors: rescue, backup brake, ice and storm, saddles, a line beside it.
#include "geometry/layout/items.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

TEST(ReadActions, WeatherWithoutRidersIsReadInSi) {
  const Site site =
      layout_of(edited("wind_across = \"8 m/s\"",
                       "wind_across = \"8 m/s\"\nice_thickness = \"0.5 in\"\nice_density = \"600 kg/m3\"\n"
                       "ice_temperature = \"23 F\"\nice_wind = \"36 km/h\"\nstorm_wind = \"35 m/s\""))
          .site;
  EXPECT_DOUBLE_EQ(*site.ice_thickness_m, 0.0127);
  EXPECT_EQ(site.ice_density_kg_per_m3, 600);
  EXPECT_NEAR(*site.ice_temperature_K, 268.15, 1e-9);
  EXPECT_DOUBLE_EQ(*site.ice_wind_m_per_s, 10);
  EXPECT_EQ(site.storm_wind_m_per_s->value, 35);
}

TEST(ReadActions, TheDensityOfIceIsAnAssumptionOnlyWhereThereIsIce) {
  const std::string words = "site.ice_density = 900 kg/m3, a stated default (glaze; ISO 12494, from memory)";
  const auto assumed = [&](const Layout& layout) {
    const std::vector<std::string> all = assumptions(layout);
    return std::find(all.begin(), all.end(), words) != all.end();
  };
  const Layout iced = layout_of(edited("[main_line]", "ice_thickness = \"12 mm\"\n\n[main_line]"));
  EXPECT_EQ(iced.site.ice_density_kg_per_m3, 900);
  EXPECT_TRUE(assumed(iced));
  EXPECT_FALSE(assumed(layout_of(good_text())));
}

TEST(ReadActions, ARescuerAndTheHoldOfABackupBrakeAreReadInSi) {
  std::string text = edited("stroke = \"3 m\"", "stroke = \"3 m\"\non = \"A2\"\nforce = \"6 kN\"");
  text = edited("trolley_mass = \"2.5 kg\"", "trolley_mass = \"2.5 kg\"\nrescuer_mass = \"220 lb\"", text);
  const Layout layout = layout_of(text);
  EXPECT_EQ(layout.backup_brake->on, AnchorId{1});
  EXPECT_EQ(layout.backup_brake->force_N->value, 6000);
  EXPECT_NEAR(*layout.riders.rescuer_mass_kg, 99.790321, 5e-7);
}

std::string with_back_anchors(const std::string& keys) {
  const std::string text = edited("[[sheave]]",
                                  "[[anchor]]\nid = \"A5\"\nposition = [-18, 1, 2]\nwll = \"6 t\"\n\n"
                                  "[[anchor]]\nid = \"A6\"\nposition = [236, 0, 1]\nwll = \"6 t\"\n\n[[sheave]]");
  return edited("at_temperature = \"59 F\"", "at_temperature = \"59 F\"\n" + keys, text);
}

TEST(ReadActions, TheMainLineMayRunOnOverSaddlesToBackAnchors) {
  const MainLine line =
      layout_of(with_back_anchors("from_back_anchor = \"A5\"\nto_back_anchor = \"A6\"\nsaddle_friction = 1.2"))
          .main_line;
  EXPECT_EQ(line.from_back_anchor, AnchorId{4});
  EXPECT_EQ(line.to_back_anchor, AnchorId{5});
  EXPECT_EQ(line.saddle_friction->value, 1.2);
  EXPECT_FALSE(layout_of(good_text()).main_line.from_back_anchor.has_value());
}

TEST(ReadActions, AParallelLineIsReadLikeTheMainLine) {
  const Layout layout =
      layout_of(edited("[[anchor]]",
                       "[[parallel_line]]\nid = \"M2\"\nfrom = \"A1\"\nto = \"A4\"\ndiameter = \"14 mm\"\n"
                       "mass = \"0.8 kg/m\"\nea = \"9 MN\"\ntension = \"11 kN\"\nat_temperature = \"15 C\"\n"
                       "rider_mass = \"122.5 kg\"\n\n[[anchor]]"));
  ASSERT_EQ(layout.parallel_lines.size(), 1u);
  const ParallelLine& line = layout.parallel_lines[0];
  EXPECT_EQ(line.id.value, "M2");
  EXPECT_EQ(line.from, AnchorId{0});
  EXPECT_EQ(line.to, AnchorId{3});
  EXPECT_EQ(line.ea_N->value, 9e6);
  EXPECT_EQ(line.tension_at.value, TensionAt::end);
  EXPECT_EQ(line.rider_mass_kg->value, 122.5);
  EXPECT_EQ(*given_id(layout, {Item::Kind::parallel_line, 0}), "M2");
}

TEST(ActionErrors, WhatSaysNothingAloneIsRefused) {
  const std::string wind = "wind_across = \"8 m/s\"", stroke = "stroke = \"3 m\"";
  expect_each({
      {wind, wind + "\nice_wind = \"9 m/s\"", "\"9 m/s\"", "site: \"ice_wind\" says nothing without \"ice_thickness\"",
       ""},
      {wind, wind + "\nice_thickness = \"0 mm\"", "\"0 mm\"", "site: \"ice_thickness\" must be above 0", ""},
      {stroke, stroke + "\nforce = \"6 kN\"", "\"6 kN\"", "backup brake: \"force\" says nothing without \"on\"", ""},
      {stroke, stroke + "\non = \"A2\"", "\"A2\"", "backup brake: \"on\" says nothing without \"force\"", ""},
      {stroke, stroke + "\non = \"R1\"\nforce = \"6 kN\"", "\"R1\"",
       "backup brake: \"R1\" is a sheave, and an anchor is wanted", "known: A1, A2, A3, A4"},
      {"at_temperature = \"59 F\"", "at_temperature = \"59 F\"\nsaddle_friction = 1.1", "1.1",
       "main line: it runs over no saddle", "give \"from_back_anchor\" or \"to_back_anchor\""},
  });
}

TEST(ActionErrors, ABackAnchorStandsBehindItsSaddle) {
  const std::string text = with_back_anchors("from_back_anchor = \"A6\"");
  EXPECT_EQ(printed_errors(text),
            error_at(text, text.find("from_back_anchor = \"A6\"") + 19, 4,
                     "main line: its back anchor \"A6\" does not stand behind its saddle at \"A1\"",
                     "name an anchor beyond the span"));
}

TEST(ActionErrors, ABackupBrakeThatPullsAnAnchorEngagesOnTheMainLine) {
  const std::string text = edited("engages = \"205 m\"", "engages = \"221 m\"\non = \"A2\"\nforce = \"6 kN\"");
  EXPECT_EQ(printed_errors(text),
            error_at(text, text.find("\"221 m\""), 7, "backup brake: it would engage off the main line",
                     "the main line runs from chainage 0.000 m to 220.000 m"));
}

}  // namespace
}  // namespace fairlead
