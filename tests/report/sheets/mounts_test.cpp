// Sheets of a rig whose redirect swivels or hangs free.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "report/drawing/overlap.hpp"
#include "report/sheets/contact_points.hpp"
#include "report/tables/tables.hpp"
#include "report/views/scene.hpp"
#include "report/words/numbers.hpp"
#include "tests/report/sheets/held_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

Point3 point_of(const std::vector<Cell>& row) {
  const auto si = [&](std::size_t i) { return std::get<Quantity>(row.at(i)).si; };
  return {si(2), si(3), si(4)};
}
const std::vector<Cell>* row_of(const Table& table, const std::string& item, const std::string& says) {
  for (const auto& row : table.rows)
    if (std::get<std::string>(row[0]) == item && std::get<std::string>(row[1]).find(says) != std::string::npos)
      return &row;
  return nullptr;
}

TEST(Mounts, WhatIsSetOutOfAFreeRedirectIsItsEyeAndItsLinkAndTheCentreIsACheckAtRest) {
  const Layout& layout = hung().judged.rig.layout;
  const Table set_out = tables::set_out_points(hung(), Style{.units = Units::si}),
              checks = tables::check_places(hung());
  const auto* eye = row_of(set_out, "A3", "eye of sheave R1, free on a link of 0.400 m");
  const auto* centre = row_of(checks, "sheave R1", "check: its centre at rest tension");
  ASSERT_TRUE(eye && centre);
  EXPECT_EQ(point_of(*eye), layout.anchors[secondary].position.value);
  // Tolerance: rounding of coordinates of a kilometre.
  EXPECT_NEAR(norm(point_of(*centre) - point_of(*eye)), 0.4, 1e-9);
  // The line lies in the groove: both its contacts are a pitch radius from there.
  const views::Scene scene = views::scene_of(hung().judged.rig);
  int contacts = 0;
  for (const ContactPoint& point : contact_points(hung().judged.rig, *scene.rest))
    if (point.what.find("R1") != std::string::npos) {
      EXPECT_NEAR(norm(point.at - point_of(*centre)), layout.sheaves[0].pitch_diameter_m / 2, 1e-6);
      ++contacts;
    }
  EXPECT_EQ(contacts, 2);
}

TEST(Mounts, TheFirstSheetHasTheEyeTheCheckAndTheMountInWords) {
  const Sheet sheet = one_sheet(hung());
  EXPECT_TRUE(says(sheet, "R1 eye"));
  EXPECT_TRUE(says(sheet, "R1 check, at rest"));
  EXPECT_FALSE(says(sheet, "R1 centre"));
  EXPECT_NE(everything(sheet).find("R1 free on a link of 0.400 m: its eye is set out"), std::string::npos);
  const auto centre = tables::centre_at_rest(hung().judged.rig, 0);
  ASSERT_TRUE(centre);
  for (const double metres : {centre->x, centre->y, centre->z}) EXPECT_TRUE(says(sheet, fmt_metres(metres))) << metres;
}

TEST(Mounts, ASwivelIsSaidByItsAxisAndHowFarOffItTheCentreIs) {
  const Layout& layout = swivelled().judged.rig.layout;
  const std::string mount = tables::mount_of(layout, layout.sheaves[0], Style{.units = Units::si});
  // (0.1, 0.05, 1) over its length sqrt(1.0125); (0.24, 0.18, 0) off it: 0.3 sqrt(1 - cos^2), cos = 0.033 / 0.3 /
  // sqrt(1.0125). Own computation.
  EXPECT_EQ(mount, "swivels about (0.0994, 0.0497, 0.9938), 0.298 m off its axis");
  EXPECT_EQ(tables::eye_of(layout, layout.sheaves[0]), (Point3{1347.760, 910.820, 331.400}));
  const Table sheaves = tables::sheaves(swivelled(), Style{.units = Units::si});
  EXPECT_EQ(sheaves.headings[2], "mount");
  EXPECT_EQ(std::get<std::string>(sheaves.rows[0][2]), mount);
}

TEST(Mounts, TheSheavesTableSaysFrictionAndMountOnlyWhereALayoutGivesThem) {
  const std::vector<std::string>& plain = tables::sheaves(demo(), Style{}).headings;
  EXPECT_EQ(std::count(plain.begin(), plain.end(), "mount") + std::count(plain.begin(), plain.end(), "K"), 0);
  const Dossier rubbing = judged({{"sheave.R1.friction", "1.06"}, {"sheave.R1.friction_wrap", "\"90 deg\""}});
  const Table table = tables::sheaves(rubbing, Style{.units = Units::si});
  const auto at = std::find(table.headings.begin(), table.headings.end(), "K") - table.headings.begin();
  ASSERT_LT(at, static_cast<std::ptrdiff_t>(table.headings.size()));
  EXPECT_EQ(std::get<std::string>(table.rows[0][static_cast<std::size_t>(at)]), "1.06 over 90.00 deg");
  for (const auto& row : table.rows) EXPECT_EQ(row.size(), table.headings.size());
}

/// Circles of one pen about a place.
int circles_at(const Sheet& sheet, Paper centre, LineType type) {
  return static_cast<int>(
      std::count_if(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [&](const auto& e) {
        const auto* stroke = std::get_if<Stroke>(&e);
        return stroke && stroke->closed && stroke->path.size() > 8 && stroke->pen.layer == Layer::sheaves &&
               stroke->pen.type == type && stroke->fill != Fill::ink &&
               length(bounds(stroke->path).centre() - centre) < 0.02;
      }));
}
int labels_with(const Sheet& sheet, const std::string& text) {
  return static_cast<int>(
      std::count_if(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [&](const auto& e) {
        const auto* label = std::get_if<Label>(&e);
        return label && label->text.find(text) != std::string::npos;
      }));
}

TEST(Mounts, AtFullTravelAGhostHangsWhereTheLineThenLiesOnIt) {
  for (const Dossier* dossier : {&hung(), &hung_reduced(), &swivelled()}) {
    const Rig& rig = dossier->judged.rig;
    const views::Scene scene = views::scene_of(rig);
    ASSERT_EQ(scene.ghosts.size(), 1u);
    const views::SheaveSeen& ghost = scene.ghosts.front();
    int contacts = 0;
    for (const ContactPoint& point : contact_points(rig, *scene.full))
      if (point.what.find("R1") != std::string::npos) {
        EXPECT_NEAR(norm(point.at - ghost.centre), ghost.radius_m, 1e-6);
        ++contacts;
      }
    EXPECT_EQ(contacts, 2);
    const Sheet sheet = one_sheet(*dossier);
    for (const View& view : sheet.drawing.views)
      if (view.name != "plan") {
        EXPECT_EQ(circles_at(sheet, view.of(ghost.centre), LineType::dashed), 1) << view.name;
      }
    EXPECT_EQ(labels_with(sheet, "R1 at full travel"), 1);
    const views::SheaveSeen& at_rest = *views::first_redirect(scene);
    EXPECT_GT(norm(ghost.centre - at_rest.centre), 0);
    EXPECT_NE(everything(sheet).find(fmt_metres(norm(ghost.centre - at_rest.centre)) + " from its place at rest"),
              std::string::npos);
  }
}

TEST(Mounts, TheReevingSheetShowsTheRedirectWhereEachPoseHasItAndTheGhostInItsDetail) {
  const views::Scene scene = views::scene_of(hung().judged.rig);
  const Point3 rest = views::first_redirect(scene)->centre, full = scene.ghosts.front().centre;
  const Sheet sheet = one_sheet(hung(), PaperSize::a3, "reeving");
  const auto visible = [&](const std::string& view, Point3 at) {
    return circles_at(sheet, view_named(sheet, view).of(at), LineType::continuous);
  };
  EXPECT_EQ(visible("AT REST", rest), 1);
  EXPECT_EQ(visible("AT FULL TRAVEL", full), 1);
  EXPECT_EQ(visible("AT FULL TRAVEL", rest), 0) << "it is no longer there";
  EXPECT_EQ(circles_at(sheet, view_named(sheet, "DETAIL B").of(full), LineType::dashed), 1);
  EXPECT_EQ(circles_at(sheet, view_named(sheet, "AT REST").of(full), LineType::dashed), 0);
}

TEST(Mounts, TheRiderIsDrawnPassingUnderARedirectThatHangs) {
  const views::Scene scene = views::scene_of(hung().judged.rig);
  ASSERT_TRUE(scene.rider_under_redirect);
  const Frame& frame = hung().judged.rig.frame;
  // The wheel stands where two poses' straight way passes that chainage.
  EXPECT_NEAR(frame.chainage_m(scene.rider_under_redirect->wheel),
              frame.chainage_m(views::first_redirect(scene)->centre), 1e-9);
}

TEST(Mounts, ALayoutWithoutThemHasNoGhosts) {
  const views::Scene scene = views::scene_of(demo().judged.rig);
  EXPECT_TRUE(scene.ghosts.empty());
  EXPECT_EQ(everything(one_sheet(demo())).find("mount"), std::string::npos);
}

}  // namespace
}  // namespace fairlead::sheets
