// The section under the redirect and the isometric, measured on their display lists.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "report/drawing/overlap.hpp"
#include "report/views/instant.hpp"
#include "report/views/isometric.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/views/section_mark.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

constexpr std::string_view kind = "section-and-isometric";
constexpr double rounding_m = 1e-9;  // of sums of coordinates of a thousand metres

std::vector<Sheet> sheets_of(const Dossier& dossier, PaperSize paper = PaperSize::a3) {
  return compose(dossier, Style{}, {font(), paper}, kind);
}

const View* find_view(const std::vector<Sheet>& sheets, const std::string& name) {
  for (const Sheet& sheet : sheets)
    for (const View& view : sheet.drawing.views)
      if (view.name == name) return &view;
  return nullptr;
}

int times(const Sheet& sheet, const std::string& text) {
  return static_cast<int>(
      std::count_if(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [&](const auto& e) {
        const auto* label = std::get_if<Label>(&e);
        return label && label->text == text;
      }));
}

TEST(SectionAndIsometric, NoLetteringOverlapsNothingRunsThroughItAndNothingLeavesTheFrame) {
  for (const std::string& file : shipped_layouts())
    for (const PaperSize paper : {PaperSize::a4, PaperSize::a3, PaperSize::a1, PaperSize::ansi_a, PaperSize::ansi_b}) {
      for (const Sheet& sheet : sheets_of(shipped_dossier(file), paper)) {
        for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
          ADD_FAILURE() << file << ", " << stationery(paper).name << ", " << sheet.title << ": " << fault;
        EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << file << sheet.title;
        EXPECT_TRUE(sheet.left_out.empty()) << file << stationery(paper).name << sheet.title;
      }
    }
}

TEST(SectionAndIsometric, EveryShippedLayoutHasBothAtScalesOfTheSeries) {
  for (const std::string& file : shipped_layouts())
    for (const PaperSize paper : {PaperSize::a4, PaperSize::a3, PaperSize::ansi_a}) {
      const auto sheets = sheets_of(shipped_dossier(file), paper);
      for (const char* name : {"section", "isometric"}) {
        const View* view = find_view(sheets, name);
        ASSERT_TRUE(view) << file << name;
        const auto series = arrangement_scales();
        EXPECT_NE(std::find(series.begin(), series.end(), view->scale), series.end()) << file << view->scale;
      }
    }
}

TEST(Isometric, AlongAcrossAndUpStandAtEqualAnglesAndAreEquallyForeshortened) {
  for (const std::string& file : shipped_layouts()) {
    const Rig& rig = shipped_dossier(file).judged.rig;
    const auto sheets = sheets_of(shipped_dossier(file));
    const View* view = find_view(sheets, "isometric");
    ASSERT_TRUE(view);
    std::vector<double> directions;
    for (const Vec3 axis : {rig.frame.along, rig.frame.across, rig.frame.up}) {
      const Paper ten = view->of(10 * axis);
      // 10 m at 1:200 are 50 mm, and the root of two thirds of that seen from the corner of a cube.
      EXPECT_NEAR(length(ten), 10'000 / view->scale * std::sqrt(2.0 / 3), 1e-9) << file;
      // Half turns aside: each axis has two directions.
      directions.push_back(std::fmod(std::atan2(ten.y_mm, ten.x_mm) + 2 * M_PI, M_PI));
    }
    std::sort(directions.begin(), directions.end());
    EXPECT_NEAR(directions[0], M_PI / 6, 1e-9) << file;
    EXPECT_NEAR(directions[1], M_PI / 2, 1e-9) << file;
    EXPECT_NEAR(directions[2], 5 * M_PI / 6, 1e-9) << file;
    EXPECT_GT(view->of(rig.frame.up).y_mm, 0) << file;
  }
}

TEST(Isometric, AnchorsDoNotHideOneAnother) {
  const Rig& rig = demo().judged.rig;
  views::Scene scene = views::scene_of(rig);
  const views::PaperAxes usual = views::isometric_axes(scene);
  EXPECT_GT(dot(usual.right, rig.frame.along), 0) << "chainage runs to the right";
  const Vec3 to_viewer = cross(usual.right, usual.up);
  EXPECT_LT(dot(to_viewer, rig.frame.across), 0) << "seen from the right, as the elevation is";
  EXPECT_GT(to_viewer.z, 0);
  // One anchor right behind another there.
  scene.anchors.resize(1);
  views::AnchorSeen behind = scene.anchors.front();
  behind.position = behind.position - 4.0 * to_viewer;
  scene.anchors.push_back(behind);
  const views::PaperAxes other = views::isometric_axes(scene);
  const Vec3 apart = scene.anchors[1].position - scene.anchors[0].position;
  EXPECT_NEAR(std::hypot(dot(apart, usual.right), dot(apart, usual.up)), 0, rounding_m);
  EXPECT_GT(std::hypot(dot(apart, other.right), dot(apart, other.up)), 1);
  EXPECT_NEAR(norm(other.right), 1, 1e-12);
  EXPECT_NEAR(norm(other.up), 1, 1e-12);
  EXPECT_NEAR(dot(other.right, other.up), 0, 1e-12);
}

TEST(Isometric, PlumbLinesStandUnderWhatIsSetOutAndTheGroundUnderEverything) {
  for (const std::string& file : shipped_layouts()) {
    const Rig& rig = shipped_dossier(file).judged.rig;
    const views::Scene scene = views::scene_of(rig);
    const views::Ground ground = views::ground_of(scene);
    ASSERT_EQ(ground.plumbs.size(), scene.anchors.size() + 1) << file;
    for (const auto& [point, foot, beside] : ground.plumbs) {
      EXPECT_EQ(point.x, foot.x);
      EXPECT_EQ(point.y, foot.y);
      EXPECT_EQ(foot.z, ground.level_m);
      EXPECT_GE(point.z, ground.level_m) << file;
      EXPECT_NEAR(rig.frame.across_m(beside), 0, rounding_m);
      EXPECT_NEAR(dot(foot - beside, rig.frame.along), 0, rounding_m);
    }
    if (const auto& landing = rig.layout.landing) {
      EXPECT_GE(landing->platform_level_m, ground.level_m) << file;
    }
    if (scene.rider_under_redirect) {
      EXPECT_GE(scene.rider_under_redirect->low.z, ground.level_m) << file;
    }
    // Nearer to the viewer than everything that stands there.
    const views::PaperAxes axes = views::isometric_axes(scene);
    const double side = dot(cross(axes.right, axes.up), rig.frame.across) < 0 ? -1 : 1;
    for (const views::AnchorSeen& anchor : scene.anchors)
      EXPECT_GT(side * rig.frame.across_m(ground.scale_from), side * rig.frame.across_m(anchor.position)) << file;
  }
}

TEST(Isometric, ItsChainagesAreFiveMetresApartWhereFiveAreWritten) {
  const auto sheets = sheets_of(demo());
  const View* view = find_view(sheets, "isometric");
  ASSERT_TRUE(view);
  const auto at = [&](const std::string& text) {
    for (const auto& entity : sheets.front().drawing.entities)
      if (const auto* label = std::get_if<Label>(&entity); label && label->text == text) {
        // The figures end at their ticks.
        return label->at + Paper{font().width_mm(text, label->cap_mm), 0};
      }
    throw std::runtime_error("no " + text);
  };
  const Paper apart = at("CH 200") - at("CH 195"), five = view->of(5 * demo().judged.rig.frame.along);
  EXPECT_NEAR(apart.x_mm, five.x_mm, 1e-9);
  EXPECT_NEAR(apart.y_mm, five.y_mm, 1e-9);
}

TEST(Isometric, OfABoxThreeFacesAreVisible) {
  View view;
  view.right = {std::sqrt(0.5), std::sqrt(0.5), 0};
  view.up = {-std::sqrt(1.0 / 6), std::sqrt(1.0 / 6), std::sqrt(2.0 / 3)};
  const views::RiderSeen box{{}, {0, 0, 0}, {1, 2, 3}, {}};
  const Frame frame{{}, {1, 0, 0}, {0, 1, 0}};
  const auto edges = views::visible_edges(view, box.corners(frame));
  ASSERT_EQ(edges.size(), 4u);
  EXPECT_EQ(edges[0].size(), 7u);  // a hexagon, closed
  // The nearest corner of a viewer at +x, -y, +z.
  const Paper nearest = view.of(Point3{1, 0, 3});
  for (std::size_t i = 1; i < 4; ++i) {
    EXPECT_NEAR(length(edges[i].front() - nearest), 0, 1e-9);
    EXPECT_NE(
        std::find_if(edges[0].begin(), edges[0].end(), [&](Paper p) { return length(p - edges[i].back()) < 1e-9; }),
        edges[0].end());
  }
}

TEST(Section, TheRiderStandsUnderTheRedirectAndComesToTheTrolleyLater) {
  for (const std::string& file : shipped_layouts()) {
    const Rig& rig = shipped_dossier(file).judged.rig;
    const views::Scene scene = views::scene_of(rig);
    const auto passing = views::under_redirect(scene);
    ASSERT_TRUE(passing) << file;
    const views::SheaveSeen& redirect = *views::first_redirect(passing->instant.scene);
    EXPECT_NEAR(rig.frame.chainage_m(passing->instant.rider), rig.frame.chainage_m(redirect.centre), 1e-6) << file;
    EXPECT_LT(passing->instant.rider.z, redirect.centre.z) << file;
    EXPECT_LT(passing->travel_m, 0) << file;
  }
}

TEST(Section, ItsDimensionsAreWhatWasSolved) {
  for (const std::string& file : shipped_layouts()) {
    const Rig& rig = shipped_dossier(file).judged.rig;
    const auto passing = views::under_redirect(views::scene_of(rig));
    ASSERT_TRUE(passing && passing->instant.scene.rider_under_redirect) << file;
    const views::RiderSeen& rider = *passing->instant.scene.rider_under_redirect;
    const views::SheaveSeen& redirect = *views::first_redirect(passing->instant.scene);
    const double wheel_m = passing->instant.rider.z, level_m = rig.layout.landing->platform_level_m;
    const auto sheets = sheets_of(shipped_dossier(file));
    EXPECT_TRUE(says(sheets.front(), fmt_metres(wheel_m - level_m))) << file;
    EXPECT_TRUE(says(sheets.front(), fmt_metres(redirect.centre.z - level_m))) << file;
    EXPECT_TRUE(says(sheets.front(), fmt_metres(redirect.centre.z - rider.high.z))) << file;
    EXPECT_TRUE(says(sheets.front(), fmt_metres(dot(rider.high - rider.wheel, rig.frame.across)))) << file;
    EXPECT_TRUE(says(sheets.front(), fmt_metres(dot(rider.wheel - rider.low, rig.frame.across)))) << file;
  }
}

TEST(Section, HowFarTheRiderPassesThePortalIsDimensionedOnBothSides) {
  const Rig& rig = shipped_dossier("marten_ridge.toml").judged.rig;
  const auto passing = views::under_redirect(views::scene_of(rig));
  ASSERT_TRUE(passing);
  const views::RiderSeen& rider = *passing->instant.scene.rider_under_redirect;
  const auto sheets = sheets_of(shipped_dossier("marten_ridge.toml"));
  std::map<std::string, int> sides;
  for (const Structure& post : rig.layout.structures) {
    if (post.id.value != "portal_left" && post.id.value != "portal_right") continue;
    ASSERT_EQ(post.kind.value, StructureKind::post);
    const double axis_m = rig.frame.across_m(post.from->value), near_m = std::abs(axis_m) - 0.5 * *post.diameter_m;
    const double reach_m = axis_m > 0 ? rig.frame.across_m(rider.high) : -rig.frame.across_m(rider.low);
    ++sides[fmt_metres(near_m - reach_m)];
  }
  ASSERT_FALSE(sides.empty());
  for (const auto& [figure, count] : sides) EXPECT_EQ(times(sheets.front(), figure), count) << figure;
}

TEST(Section, ItsPlaceIsMarkedInThePlanLookingTowardTheLanding) {
  const Sheet sheet = one_sheet(demo());
  const View& plan = view_named(sheet, "plan");
  const views::Scene scene = views::scene_of(demo().judged.rig);
  const double x = plan.of(views::first_redirect(scene)->centre).x_mm;
  int ends = 0, letters = 0, arrows = 0;
  for (const auto& entity : sheet.drawing.entities) {
    if (const auto* label = std::get_if<Label>(&entity)) letters += label->text == views::section_letter;
    const auto* stroke = std::get_if<Stroke>(&entity);
    if (!stroke || stroke->pen.layer != Layer::symbols || stroke->path.size() < 2) continue;
    const Paper a = stroke->path[0], b = stroke->path[1];
    if (stroke->pen.width_mm == extra_mm && std::abs(a.x_mm - x) < 1e-9 && std::abs(b.x_mm - x) < 1e-9) ++ends;
    if (stroke->pen.width_mm == narrow_mm && std::abs(a.x_mm - x) < 1e-9 && a.y_mm == b.y_mm && b.x_mm > x) ++arrows;
  }
  EXPECT_EQ(ends, 2);
  EXPECT_EQ(letters, 2);
  EXPECT_EQ(arrows, 2);
}

TEST(Section, ScansAreShownWhereItCutsThem) {
  const Rig& rig = shipped_dossier("larch_spur.toml").judged.rig;
  const views::Scene scene = views::scene_of(rig);
  std::size_t marks = 0;
  for (const views::ScanSeen& scan : scene.scans) {
    const bool cloud = rig.layout.structures[static_cast<std::size_t>(scan.index)].site->is_cloud();
    for (const auto& [from, to] : scan.in_section) {
      ++marks;
      // Points as far aside as is shown of them; strokes in the plane itself.
      EXPECT_LE(std::abs(rig.frame.chainage_m(from) - *scene.section_m), cloud ? 1.5 : rounding_m);
      EXPECT_LE(std::abs(rig.frame.chainage_m(to) - *scene.section_m), cloud ? 1.5 : rounding_m);
    }
  }
  EXPECT_GT(marks, 0u);
}

TEST(SectionAndIsometric, WithoutALineThatIsSolvedThereIsNoSectionAndTheSheetSaysWhy) {
  const auto sheets = sheets_of(unsolved());
  ASSERT_EQ(sheets.size(), 1u);
  EXPECT_FALSE(find_view(sheets, "section"));
  EXPECT_TRUE(find_view(sheets, "isometric"));
  EXPECT_NE(everything(sheets.front()).find("NOT DRAWN: "), std::string::npos);
}

TEST(SectionAndIsometric, WithoutAnEnvelopeOrAPlatformTheSectionStillShowsTheRedirect) {
  const auto sheets = sheets_of(sparse());
  ASSERT_TRUE(find_view(sheets, "section"));
  const auto passing = views::under_redirect(views::scene_of(sparse().judged.rig));
  ASSERT_TRUE(passing);
  EXPECT_FALSE(passing->instant.scene.rider_under_redirect);
  const double above_m = views::first_redirect(passing->instant.scene)->centre.z - passing->instant.rider.z;
  EXPECT_TRUE(says(sheets.front(), fmt_metres(above_m)));
  EXPECT_FALSE(says(sheets.front(), "Rider passing redirect"));
}

}  // namespace
}  // namespace fairlead::sheets
