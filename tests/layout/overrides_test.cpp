// Changes from the command line: applied before the file is read, listed as assumptions, refused in its words.
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

TEST(Overrides, AChangeIsReadAsIfTheFileHeldIt) {
  const Layout layout = layout_of(good_text(), {{"sheave.R1.position", "[181, \"1 in\", 11.4]"},
                                                {"brake_unit.extension_limit", "60 ft"},
                                                {"limits.fleet_angle.at", "2 deg"},
                                                {"main_line.tension", "[\"14 kN\", \"15 kN\"]"},
                                                {"brake_unit.eddy.peak", "650"},
                                                {"riders.envelope.width", "2.2"},
                                                {"line.L2.material", "steel"},
                                                {"project.date", "2026-06-01"},
                                                {"anchor.A4.wll", "\"3 t\""}});
  EXPECT_EQ(layout.sheaves[0].position->value, (Point3{181, 0.0254, 11.4}));
  EXPECT_DOUBLE_EQ(layout.brake_unit.extension_limit_m, 60 * 0.3048);
  EXPECT_NEAR(layout.limits.fleet_angle_rad->at, 0.034906585, 5e-10);
  EXPECT_EQ(layout.limits.fleet_angle_rad->basis, "invented");
  EXPECT_EQ(layout.main_line.tension_N->value, (Range{14e3, 15e3}));
  EXPECT_EQ(layout.brake_unit.eddy->peak_N, 650);
  EXPECT_EQ(layout.riders.envelope->width_m, 2.2);
  EXPECT_EQ(layout.lines[1].material.value, LineMaterial::steel);
  EXPECT_EQ(layout.project.date->value, (Date{2026, 6, 1}));
  EXPECT_DOUBLE_EQ(layout.anchors[3].wll_N->value, 3000 * 9.80665);
}

TEST(Overrides, TheLayoutEqualsThatOfTheEditedFileButForPlacesAndHash) {
  const Layout changed = layout_of(good_text(), {{"sheave.R1.axle", "[0.1, 1, 0]"}});
  const Layout edit = layout_of(edited("axle = [0, 1, 0]", "axle = [0.1, 1, 0]"));
  EXPECT_EQ(changed.sheaves[0].axle.value, edit.sheaves[0].axle.value);
  EXPECT_EQ(changed.sheaves[1].axle.value, edit.sheaves[1].axle.value);
  EXPECT_EQ(changed.sheaves[0].pitch_diameter_m.value, edit.sheaves[0].pitch_diameter_m.value);
  EXPECT_EQ(changed.sha256, layout_of(good_text()).sha256);
}

TEST(Overrides, AChangedValueStandsOnTheCommandLine) {
  const Layout layout = layout_of(good_text(), {{"sheave.R1.axle", "[0, 2, 0]"}});
  const Place place = layout.sheaves[0].axle.place;
  EXPECT_EQ(layout.files.at(place.file), "command line");
  EXPECT_EQ(place.line, 0u);
  EXPECT_EQ(layout.sheaves[1].axle.place.file, 0);
}

TEST(Overrides, AKeyOrSectionTheFileLacksIsAdded) {
  EXPECT_EQ(layout_of(good_text(), {{"anchor.A3.position", "[180, 0, 12]"}, {"line.L2.tails", "2 ft"}})
                .lines[1]
                .tails_m->value,
            0.6096);
  const std::string bare = good_text().substr(0, good_text().find("[limits]"));
  const Layout layout =
      layout_of(bare, {{"limits.design_factor.at", "6"}, {"limits.design_factor.basis", "our engineer"}});
  EXPECT_EQ(layout.limits.design_factor->at, 6);
  EXPECT_EQ(layout.limits.design_factor->basis, "our engineer");
}

TEST(Overrides, TheLastChangeOfAKeyHolds) {
  EXPECT_EQ(layout_of(good_text(), {{"riders.trolley_mass", "2"}, {"riders.trolley_mass", "3"}}).riders.trolley_mass_kg,
            3);
}

TEST(Overrides, ChangesAreListedAsAssumptions) {
  const Layout layout = layout_of(good_text(), {{"main_line.tension", "16 kN"}, {"sheave.R1.axle", "[0, 2, 0]"}});
  EXPECT_EQ(assumptions(layout), (std::vector<std::string>{"main_line.tension = 16 kN, from the command line",
                                                           "sheave.R1.axle = [0, 2, 0], from the command line"}));
}

TEST(Overrides, AWrongChangeIsRefusedInTheWordsOfTheCommandLine) {
  const struct {
    Override change;
    const char* printed;
  } cases[] = {
      {{"main_line.tension", "16 kg"},
       "command line: error: main line: \"kg\" is a mass, and a force is wanted\n"
       "      |   --set main_line.tension=16 kg\n"
       "      |                           ^^^^^ write a force in N, daN, kN, MN, kgf, lbf, kip\n"},
      {{"main_line.tensoin", "16 kN"},
       "command line: error: main line: unknown key \"tensoin\"\n"
       "      |   --set main_line.tensoin=16 kN\n"
       "      |         ^^^^^^^^^^^^^^^^^ did you mean \"tension\"?\n"},
      {{"main_lien.tension", "16 kN"},
       "command line: error: there is no section \"main_lien\"\n"
       "      |   --set main_lien.tension=16 kN\n"
       "      |         ^^^^^^^^^^^^^^^^^ did you mean \"main_line\"?\n"},
      {{"sheave.R12.axle", "[0, 1, 0]"},
       "command line: error: there is no sheave \"R12\"\n"
       "      |   --set sheave.R12.axle=[0, 1, 0]\n"
       "      |         ^^^^^^^^^^^^^^^ did you mean \"R1\"?\n"},
      {{"sheave.R1", "[0, 1, 0]"},
       "command line: error: \"sheave.R1\" names no key\n"
       "      |   --set sheave.R1=[0, 1, 0]\n"
       "      |         ^^^^^^^^^ write section.key=value or section.id.key=value\n"},
      {{"sheave", "3"},
       "command line: error: \"sheave\" names no key\n"
       "      |   --set sheave=3\n"
       "      |         ^^^^^^ write section.key=value or section.id.key=value\n"},
      {{"waiver.1.who", "me"},
       "command line: error: a \"waiver\" has no id, so nothing in it can be set from here\n"
       "      |   --set waiver.1.who=me\n"
       "      |         ^^^^^^^^^^^^ change it in the file\n"},
      {{"sheave.R1.axle.x", "1"},
       "command line: error: \"x\" is in a list, and only a table has keys\n"
       "      |   --set sheave.R1.axle.x=1\n"
       "      |         ^^^^^^^^^^^^^^^^\n"},
      {{"main_line.sag", "4 m"},
       "command line: error: main line: \"tension\" and \"sag\" are both given\n"
       "      |   --set main_line.sag=4 m\n"
       "      |         ^^^^^^^^^^^^^ of \"tension\", \"sag\" and \"unstretched_length\" only one may be given\n"},
      {{"sheave.R1.axle", "[0, 0, 0]"},
       "command line: error: sheave \"R1\": \"axle\" is 0 long and points nowhere\n"
       "      |   --set sheave.R1.axle=[0, 0, 0]\n"
       "      |                        ^^^^^^^^^ give it a direction; any length above zero will do\n"},
      {{"main_line.to", ""},
       "command line: error: main line: there is no \"\"; an anchor is wanted\n"
       "      |   --set main_line.to=\n"
       "      |                      ^ known: A1, A2, A3, A4\n"},
      {{"site.name", "a\xFF"},
       "command line: error: site: \"name\" is no UTF-8 text\n"
       "      |   --set site.name=a?\n"
       "      |                   ^^\n"},
      {{"line.L2.mass", "1\nowner = 3"},
       "command line: error: line \"L2\": \"?owner = 3\" is no unit\n"
       "      |   --set line.L2.mass=1?owner = 3\n"
       "      |                      ^^^^^^^^^^^ write a mass per length in kg/m, g/m, lb/ft\n"},
  };
  for (const auto& [change, printed] : cases) EXPECT_EQ(printed_errors(good_text(), {change}), printed);
}

TEST(Overrides, EachOfSeveralWrongChangesIsUnderlinedInItsPlace) {
  EXPECT_EQ(printed_errors(good_text(), {{"riders.trolley_mass", "0"}, {"brake_trolley.mass", "x"}}),
            "command line: error: riders: \"trolley_mass\" must be above 0\n"
            "      |   --set riders.trolley_mass=0 --set brake_trolley.mass=x\n"
            "      |                             ^\n"
            "command line: error: brake trolley: this does not begin with a number\n"
            "      |   --set riders.trolley_mass=0 --set brake_trolley.mass=x\n"
            "      |                                                        ^ write a mass in kg, g, t, tonne, lb\n");
}

// So that nothing of a part is left that another takes the place of.
TEST(Overrides, AKeyIsTakenAwayWhereItIsGivenAndNotMissedWhereItIsNot) {
  ASSERT_TRUE(layout_of(good_text(), {{"brake_unit.serial", "'7'"}}).brake_unit.serial);
  const Layout gone = layout_of(good_text(), {{"brake_unit.serial", "'7'"}, {"brake_unit.serial", "", true}});
  EXPECT_FALSE(gone.brake_unit.serial);
  EXPECT_EQ(gone.changes.back(), "brake_unit.serial left out");
  EXPECT_FALSE(
      layout_of(good_text(), {{"brake_unit.mass", "", true}, {"brake_unit.mass", "", true}}).brake_unit.mass_kg);
  const std::string errors = printed_errors(good_text(), {{"brake_unit.extension_limit", "", true}});
  EXPECT_NE(errors.find("extension_limit"), std::string::npos) << errors;
}

}  // namespace
}  // namespace fairlead
