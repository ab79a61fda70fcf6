// The good layout, value by value: SI, order, places, references resolved.
#include "geometry/layout/items.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

constexpr double lb_N = 0.45359237 * 9.80665;

TEST(ReadLayout, EveryValueIsSI) {
  const Layout layout = layout_of(good_text());
  const MainLine& line = layout.main_line;
  EXPECT_DOUBLE_EQ(layout.site.altitude_m->value, 1480 * 0.3048);
  EXPECT_DOUBLE_EQ(layout.site.coldest_K, 258.15);
  EXPECT_DOUBLE_EQ(layout.site.warmest_K, 313.15);
  EXPECT_DOUBLE_EQ(layout.site.wind_along_m_per_s->value, 30 / 3.6);
  EXPECT_EQ(line.ea_N->value, (Range{10e6, 12e6}));
  EXPECT_EQ(line.tension_N->value.low, 14500);
  EXPECT_DOUBLE_EQ(line.tension_N->value.high, 3500 * lb_N);
  EXPECT_EQ(line.tension_at.value, TensionAt::start);
  EXPECT_DOUBLE_EQ(line.at_temperature_K, 288.15);
  EXPECT_FALSE(line.sag_m || line.unstretched_length_m || line.construction);
  EXPECT_DOUBLE_EQ(layout.anchors[0].wll_N->value, 9000 * lb_N);
  EXPECT_FALSE(layout.anchors[0].mbs_N);
  EXPECT_DOUBLE_EQ(layout.anchors[1].position.value.z, 26.25 * 0.3048);
  EXPECT_DOUBLE_EQ(layout.anchors[2].position.value.z, 11.6);
  EXPECT_DOUBLE_EQ(layout.anchors[2].mbs_N->value, 10e3 * 9.80665);
  EXPECT_EQ(layout.riders.mass_kg.value.low, 30);
  EXPECT_DOUBLE_EQ(layout.riders.mass_kg.value.high, 265 * 0.45359237);
  EXPECT_EQ(layout.brake_unit.retraction_N.value, Curve({{0, 60}, {9, 90}, {18, 115}}));
  EXPECT_EQ(layout.brake_unit.eddy->critical_speed_m_per_s, 30);
  EXPECT_FALSE(layout.brake_unit.magnetic_N);
  EXPECT_DOUBLE_EQ(layout.brake_unit.tolerance, 0.1);
  EXPECT_EQ(layout.brake_trolley.attachment.value, (Vec3{-0.12, 0, 0.04}));
  EXPECT_NEAR(layout.limits.fleet_angle_rad->at, 0.069813170, 5e-10);
  EXPECT_EQ(layout.limits.fleet_angle_rad->basis, "invented");
  EXPECT_DOUBLE_EQ(layout.limits.across_offset_m->at, 0.1524);
  EXPECT_EQ(layout.limits.design_factor->at, 5);
}

TEST(ReadLayout, ItemsKeepTheOrderOfTheFileAndReferencesPointAtThem) {
  const Layout layout = layout_of(good_text());
  EXPECT_EQ(layout.main_line.from, AnchorId{0});
  EXPECT_EQ(layout.main_line.to, AnchorId{1});
  EXPECT_EQ(layout.sheaves[0].on, Carrier{AnchorId{2}});
  EXPECT_EQ(layout.sheaves[1].on, Carrier{BlockId{0}});
  EXPECT_EQ(layout.lines[0].from, LineEnd{ConnectorId{0}});
  EXPECT_EQ(layout.lines[0].to, LineEnd{AnchorId{2}});
  EXPECT_EQ(layout.lines[1].from, LineEnd{BlockId{0}});
  EXPECT_EQ(layout.lines[1].to, LineEnd{BrakeUnitEnd{}});
  const std::string from_trolley = edited("from_offset = [\"80 mm\", 0, \"-1 in\"]\n", "");
  EXPECT_EQ(layout_of(edited("from = \"B1\"", "from = \"brake_trolley\"", from_trolley)).lines[1].from,
            LineEnd{BrakeTrolleyEnd{}});
  ASSERT_EQ(layout.lines[0].route.size(), 2u);
  EXPECT_EQ(layout.lines[0].route[0].sheave, SheaveId{0});
  EXPECT_FALSE(layout.lines[0].route[0].turning.has_value());
  EXPECT_EQ(layout.lines[0].route[1].sheave, SheaveId{1});
  EXPECT_EQ(layout.lines[0].route[1].turning, Turning::clockwise);
  EXPECT_EQ(layout.connectors[0].joins, (std::vector<std::string>{"L1", "brake_trolley"}));
  EXPECT_EQ(layout.brake_unit.on, AnchorId{3});
}

TEST(ReadLayout, AnItemHasTheIdItsAuthorGaveUnlessThereIsOnlyOneOfItsKind) {
  using Kind = Item::Kind;
  const Layout layout = layout_of(good_text());
  for (const auto& [item, id] :
       {std::pair{Item{Kind::anchor, 3}, "A4"}, std::pair{Item{Kind::sheave, 1}, "R2"},
        std::pair{Item{Kind::line, 0}, "L1"}, std::pair{Item{Kind::block, 0}, "B1"},
        std::pair{Item{Kind::connector, 0}, "C1"}, std::pair{Item{Kind::support_line, 0}, "S1"},
        std::pair{Item{Kind::structure, 2}, "ground"}}) {
    ASSERT_NE(given_id(layout, item), nullptr) << id;
    EXPECT_EQ(*given_id(layout, item), id);
  }
  for (const Kind only : {Kind::layout, Kind::main_line, Kind::brake_unit, Kind::brake_trolley, Kind::backup_brake,
                          Kind::rider, Kind::landing})
    EXPECT_EQ(given_id(layout, {only, 0}), nullptr);
}

TEST(ReadLayout, WordsAndDatesAreAsWritten) {
  const Layout layout = layout_of(good_text());
  EXPECT_EQ(layout.site.name.value, "Invented Valley – lower meadow");
  EXPECT_EQ(layout.site.axes[2], "up");
  EXPECT_EQ(layout.project.history[1].change, "redirect moved upstream");
  EXPECT_EQ(layout.project.date->value, (Date{2026, 5, 14}));
  EXPECT_EQ(layout.brake_unit.certificate_due->value, (Date{2027, 3, 1}));
  EXPECT_EQ(layout.lines[1].material.value, LineMaterial::webbing);
  EXPECT_EQ(layout.waivers[0].check.value, "fleet-angle");
  EXPECT_EQ(layout.waivers[0].subject, "R1");
  EXPECT_EQ(layout.waivers[0].until.value, (Date{2026, 12, 31}));
  EXPECT_FALSE(layout.judged_on.has_value());
}

// The pitch diameter is to the line's centre: tread and once the line's diameter.
TEST(ReadLayout, APitchDiameterFollowsFromTheTreadAndTheLineOverIt) {
  const Layout layout = layout_of(good_text());
  EXPECT_DOUBLE_EQ(layout.sheaves[0].pitch_diameter_m, 0.200);
  EXPECT_EQ(layout.sheaves[0].tread_diameter_m->value, 0.192);
  EXPECT_EQ(layout.sheaves[1].pitch_diameter_m, 0.2);
  EXPECT_FALSE(layout.sheaves[1].tread_diameter_m.has_value());
  const Layout thicker = layout_of(edited("diameter = \"8 mm\"", "diameter = \"11 mm\""));
  EXPECT_DOUBLE_EQ(thicker.sheaves[0].pitch_diameter_m, 0.203);
}

TEST(ReadLayout, AValueKnowsItsPlaceAndAnItemItsHeader) {
  const Layout layout = layout_of(good_text());
  EXPECT_EQ(layout.main_line.tension_N->place, (Place{0, 43, 11}));
  EXPECT_EQ(layout.main_line.place, (Place{0, 35, 1}));
  EXPECT_EQ(layout.main_line.to_place, (Place{0, 37, 6}));
  EXPECT_EQ(layout.anchors[1].position.place, (Place{0, 54, 12}));
  EXPECT_EQ(layout.anchors[1].place, (Place{0, 52, 1}));
  EXPECT_EQ(layout.lines[0].route[1].place, (Place{0, 91, 27}));
  EXPECT_EQ(layout.limits.design_factor->at.place, (Place{0, 243, 24}));
  EXPECT_EQ(layout.waivers[0].subject_place, (Place{0, 265, 11}));
}

TEST(ReadLayout, TheFileIsNamedAndHashed) {
  const auto layout = read_layout((top / "tests/layout/good.toml").string());
  ASSERT_TRUE(layout.has_value());
  ASSERT_EQ(layout->files.size(), 2u);
  EXPECT_EQ(layout->files[0], (top / "tests/layout/good.toml").string());
  EXPECT_EQ(layout->files[1], "command line");
  EXPECT_EQ(layout->sha256, layout_of(good_text()).sha256);
  EXPECT_NE(layout->sha256, layout_of(good_text() + "\n").sha256);
  EXPECT_EQ(layout->sha256.find_first_not_of("0123456789abcdef"), std::string::npos);
}

// Digest of the file by coreutils' sha256sum: to be made anew when the file changes.
TEST(ReadLayout, TheHashIsTheSHA256OfTheBytes) {
  EXPECT_EQ(layout_of(good_text()).sha256, "2e6569750bcd204369374245a6ca9113d26144eacbe2805c255a3d0115860b48");
}

TEST(ReadLayout, ASiteWithoutLimitsOrBackupBrakeReadsToo) {
  std::string text = good_text();
  for (const auto& [from, to] : {std::pair{"[limits]", "[[waiver]]"}, std::pair{"[backup_brake]", "[riders]"},
                                 std::pair{"[landing]", "[[waiver]]"}}) {
    const std::size_t begin = text.find(from), end = text.find(to, begin);
    text.erase(begin, end - begin);
  }
  const Layout layout = layout_of(text);
  EXPECT_FALSE(layout.backup_brake || layout.landing || layout.limits.fleet_angle_rad);
}

}  // namespace
}  // namespace fairlead
