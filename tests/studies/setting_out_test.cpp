#include "geometry/studies/setting_out.hpp"

#include <gtest/gtest.h>

#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

TEST(SettingOut, HasEveryMarkOfEveryShippedLayoutWithItsOffsetAndItsLevel) {
  for (const std::string& file : shipped_layouts()) {
    const Rig rig = solve(shipped_layout(file));
    const SettingOut out = setting_out(rig);
    const auto points = set_out_points(rig);
    ASSERT_EQ(out.marks.size(), points.size()) << file;
    for (std::size_t i = 0; i < points.size(); ++i) {
      EXPECT_EQ(out.marks[i].point.id, points[i].id);
      ASSERT_TRUE(out.marks[i].point.at) << file;
      const Point3 at = *out.marks[i].point.at;
      EXPECT_NEAR(*out.marks[i].rise_m, at.z - points.front().at->z, 1e-9) << file << " " << points[i].id;
      const auto offset = offset_from_line(rig, at);
      ASSERT_EQ(out.marks[i].from_line.has_value(), offset.has_value()) << file << " " << points[i].id;
      if (offset) {
        EXPECT_EQ(out.marks[i].from_line->up_m, offset->up_m) << file << " " << points[i].id;
      }
    }
    EXPECT_TRUE(out.stringing && out.hand_pulls) << file;
    EXPECT_EQ(out.bench, 0);
  }
}

// Raising the whole site or its datum changes no difference of heights.
TEST(SettingOut, LevelsCountFromTheBenchMarkAndNotFromTheDatum) {
  const SettingOut drawn = setting_out(solve(demo_layout()));
  Layout higher = demo_layout();
  const auto raise = [](Given<Point3>& place) { place.value.z += 1000; };
  for (Anchor& anchor : higher.anchors) raise(anchor.position);
  for (Sheave& sheave : higher.sheaves) raise(*sheave.position);
  raise(higher.brake_unit.outlet);
  higher.landing->platform_level_m.value += 1000;
  higher.structures.clear();
  const SettingOut raised = setting_out(solve(higher));
  ASSERT_EQ(raised.marks.size(), drawn.marks.size());
  for (std::size_t i = 0; i < drawn.marks.size(); ++i)
    EXPECT_NEAR(*raised.marks[i].rise_m, *drawn.marks[i].rise_m, 1e-9);
  EXPECT_NEAR(*raised.platform_rise_m, *drawn.platform_rise_m, 1e-9);
}

TEST(SettingOut, OfARigThatIsNotSolvedStillHasTheMarksAndSaysWhyTheRestIsMissing) {
  const SettingOut out = setting_out(solve(demo_layout({{"main_line.tension", "'100 N'"}})));
  EXPECT_GT(out.marks.size(), 4u);
  EXPECT_FALSE(out.marks.back().point.at) << "the rest mark";
  EXPECT_FALSE(out.marks.back().rise_m);
  ASSERT_FALSE(out.stringing);
  ASSERT_FALSE(out.hand_pulls);
  EXPECT_NE(out.hand_pulls.error().why.find("the main line is not solved"), std::string::npos)
      << out.hand_pulls.error().why;
}

// All marks of this rig stand in one plane: only the pegs beside it can tell on which side of it a mark is.
TEST(SettingOut, TiesToThePegsOfThePointsFile) {
  const Rig rig = solve(shipped_layout("sable_weir.toml"));
  const SettingOut out = setting_out(rig);
  const std::size_t pegs = rig.layout.points->pegs->size();
  ASSERT_EQ(pegs, 4u);
  ASSERT_EQ(out.tape_ends.size(), pegs + out.marks.size());
  int tied = 0;
  for (std::size_t i = 0; i < out.marks.size(); ++i) {
    if (!out.ties[i]) continue;
    ++tied;
    bool to_a_peg = false;
    for (const Tie& tie : out.ties[i]->ties) {
      const auto end = static_cast<std::size_t>(tie.from);
      const Point3 from = end < pegs ? (*rig.layout.points->pegs)[end].at : *out.marks[end - pegs].point.at;
      EXPECT_NEAR(tie.distance_m, norm(*out.marks[i].point.at - from), 1e-12);
      to_a_peg = to_a_peg || end < pegs;
    }
    EXPECT_TRUE(to_a_peg) << out.marks[i].point.id;
  }
  EXPECT_EQ(tied, 9) << "all but the tower, farther than any tape";
}

}  // namespace
}  // namespace fairlead
