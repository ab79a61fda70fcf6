// The sheets of a rig with a reduction: a travelling block on a support line, dead ends, structures about it.
#include <gtest/gtest.h>

#include <algorithm>

#include "report/drawing/overlap.hpp"
#include "report/sheets/contact_points.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/words/names.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;
using views::Role;

/// 2:1 on a support line, and 3:1 with a becket.
std::array<const Dossier*, 2> reductions() {
  return {&shipped_dossier("marten_ridge.toml"), &shipped_dossier("sable_weir.toml")};
}

TEST(Reductions, TheyAreSolvedAndDrawn) {
  for (const Dossier* dossier : reductions()) {
    ASSERT_TRUE(dossier->judged.rig.reeving.solved()) << dossier->judged.rig.reeving.result->error().why;
    const auto& set = set_of(*dossier);
    EXPECT_GE(set.size(), 4u);
  }
}

TEST(Reductions, NoLetteringOverlapsNothingRunsThroughItAndNothingLeavesThePaper) {
  for (const Dossier* dossier : reductions())
    for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
      for (const Units units : {Units::both, Units::us})
        for (const Sheet& sheet : set_of(*dossier, paper, units))
          for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
            ADD_FAILURE() << dossier->judged.rig.layout.project.number.value << ", " << stationery(paper).name << ", "
                          << sheet.title << ": " << fault;
}

TEST(Reductions, LinesAreToldApartByWhatTheyAreThereFor) {
  for (const Dossier* dossier : reductions()) {
    const views::Scene scene = views::scene_of(dossier->judged.rig);
    std::array<int, 3> count{};
    for (const views::LineSeen& line : scene.rest->lines) ++count[static_cast<std::size_t>(line.role)];
    EXPECT_EQ(count, (std::array<int, 3>{1, 1, 1})) << "braking, reduction, support";
    const Sheet sheet = one_sheet(*dossier);
    for (const Role role : {Role::braking, Role::reduction, Role::support}) {
      const bool drawn = std::any_of(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [&](const auto& e) {
        const auto* stroke = std::get_if<Stroke>(&e);
        return stroke && stroke->pen.layer == views::layer_of(role) && path_length(stroke->path, false) > 40;
      });
      EXPECT_TRUE(drawn) << layer_name(views::layer_of(role));
    }
  }
}

TEST(Reductions, TheBlockStandsWhereItWasSolvedAtRestAndAtFullTravel) {
  for (const Dossier* dossier : reductions()) {
    const Rig& rig = dossier->judged.rig;
    const views::Scene scene = views::scene_of(rig);
    for (const auto* pose : {&*scene.rest, &*scene.full}) {
      ASSERT_EQ(pose->blocks.size(), rig.layout.blocks.size());
      const reeving::Sweep& sweep = rig.reeving.solved()->sweeps[pose->sweep];
      EXPECT_EQ(pose->blocks[0].at, sweep.blocks[pose->pose * rig.layout.blocks.size()].placement.at);
      EXPECT_EQ(pose->blocks[0].body.size(), 8u);
    }
    // The trolley goes downstream, the block upstream: by about the nth part.
    const double block_m =
        rig.frame.chainage_m(scene.rest->blocks[0].at) - rig.frame.chainage_m(scene.full->blocks[0].at);
    EXPECT_GT(block_m, 0);
    EXPECT_NEAR(rig.layout.brake_trolley.travel_m / block_m, *rig.nominal_ratio, 0.15 * *rig.nominal_ratio);
  }
}

TEST(Reductions, ContactsLieOnTheirSheavesWhereverTheBlockHasTakenThem) {
  for (const Dossier* dossier : reductions()) {
    const Rig& rig = dossier->judged.rig;
    const views::Scene scene = views::scene_of(rig);
    for (const auto* pose : {&*scene.rest, &*scene.full}) {
      int held = 0;
      for (const ContactPoint& point : contact_points(rig, *pose))
        for (const auto* sheaves : {&scene.sheaves, &pose->sheaves})
          for (const views::SheaveSeen& sheave : *sheaves) {
            const std::string& id = rig.layout.sheaves[static_cast<std::size_t>(sheave.index)].id.value;
            if (point.what != id + " on" && point.what != id + " off") continue;
            ++held;
            EXPECT_NEAR(norm(point.at - sheave.centre), sheave.radius_m, 1e-6) << point.what;
          }
      EXPECT_EQ(held, 2 * static_cast<int>(rig.layout.sheaves.size()));
      for (const views::LineSeen& line : pose->lines)
        for (std::size_t i = 0; i < line.wraps.size(); ++i) {
          EXPECT_LT(norm(line.wraps[i].front() - line.legs[i].back()), 1e-6);
          EXPECT_LT(norm(line.wraps[i].back() - line.legs[i + 1].front()), 1e-6);
        }
    }
  }
}

TEST(Reductions, EveryStructureIsNamedOrSaidToStandOutside) {
  for (const Dossier* dossier : reductions()) {
    const std::string all = everything(one_sheet(*dossier));
    for (const Structure& structure : dossier->judged.rig.layout.structures)
      EXPECT_NE(all.find(structure.id.value), std::string::npos) << structure.id.value;
  }
}

TEST(Reductions, TheReevingSheetNamesEveryLineSheaveAndBlock) {
  for (const Dossier* dossier : reductions()) {
    const Layout& layout = dossier->judged.rig.layout;
    const std::string all = everything(one_sheet(*dossier, PaperSize::a3, "reeving"));
    for (const Line& line : layout.lines) EXPECT_NE(all.find(line.id.value), std::string::npos);
    for (const Sheave& sheave : layout.sheaves) EXPECT_NE(all.find(sheave.id.value), std::string::npos);
    for (const Block& block : layout.blocks) EXPECT_NE(all.find("Block " + block.id.value), std::string::npos);
    EXPECT_NE(all.find(fmt::format("nominal {:g}", *dossier->judged.rig.nominal_ratio)), std::string::npos);
  }
}

/// A box, a post and a plane through places known in advance.
TEST(Structures, TheirOutlinesAreTheirOwnShapesAtTheViewsScale) {
  Rig rig = reductions()[0]->judged.rig;
  const views::Scene scene = views::scene_of(rig);
  const View view = views::view_of(scene, views::Facing::elevation, 100, {0, 0});
  int boxes = 0;
  for (const views::StructureSeen& seen : scene.structures) {
    const Structure& structure = rig.layout.structures[static_cast<std::size_t>(seen.index)];
    const auto outline = views::structure_outline(scene, seen, view, views::Facing::elevation);
    ASSERT_FALSE(outline.empty()) << structure.id.value;
    if (structure.kind.value == StructureKind::box && structure.id.value == "platform") {
      ++boxes;
      const Box box = bounds(outline.front());
      // 1:100; its bearing is that of the main line to a hundredth of a degree, which over 21 m is 4 mm, 0.04 on paper.
      EXPECT_NEAR(box.height(), 10 * structure.size_m->value.up_m, 1e-6);
      EXPECT_NEAR(box.width(), 10 * structure.size_m->value.along_m, 0.05);
    }
    if (structure.kind.value == StructureKind::plane) {
      const double level = view.of(*structure.through).y_mm;
      for (const Paper p : outline.front()) EXPECT_NEAR(p.y_mm, level, 1e-6);
    }
  }
  EXPECT_EQ(boxes, 1);
}

}  // namespace
}  // namespace fairlead::sheets
