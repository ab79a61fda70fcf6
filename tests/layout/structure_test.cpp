// Structures: boxes, posts and planes, each with the keys of its kind and no others.
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

TEST(ReadStructure, EachKindHasItsOwnMembers) {
  const std::vector<Structure> all = layout_of(good_text()).structures;
  ASSERT_EQ(all.size(), 3u);
  const Structure &box = all[0], &post = all[1], &plane = all[2];
  EXPECT_EQ(box.kind, StructureKind::box);
  EXPECT_EQ(box.centre->value, (Point3{205, 0, 4.4}));
  EXPECT_EQ(box.size_m->value, (Size{18, 4, 0.4}));
  EXPECT_NEAR(box.bearing_rad, 0.261799388, 5e-10);  // 15 deg
  EXPECT_FALSE(box.from || box.to || box.diameter_m || box.through || box.normal);
  EXPECT_EQ(post.kind, StructureKind::post);
  EXPECT_EQ(post.from->value, (Point3{180, 2.5, 0}));
  EXPECT_EQ(post.to->value, (Point3{180, 2.5, 12}));
  EXPECT_EQ(post.diameter_m->value, 0.3);
  EXPECT_FALSE(post.centre || post.size_m || post.through || post.normal);
  EXPECT_EQ(plane.kind, StructureKind::plane);
  EXPECT_EQ(plane.through->value, (Point3{200, 0, 2}));
  EXPECT_EQ(plane.normal->value, (Vec3{0.1, 0, 3}));
  EXPECT_FALSE(plane.centre || plane.size_m || plane.from || plane.to || plane.diameter_m);
}

TEST(ReadStructure, WhatNeedNotKeepClearWasWrittenSomewhere) {
  const std::vector<Structure> all = layout_of(good_text()).structures;
  EXPECT_TRUE(keeps_clear(all[0], Mover::lines));
  EXPECT_TRUE(keeps_clear(all[0], Mover::block));
  EXPECT_FALSE(keeps_clear(all[0], Mover::rider));
  EXPECT_GT(all[0].clear_of.place.line, all[0].place.line);
  for (const Mover mover : {Mover::lines, Mover::block, Mover::rider}) EXPECT_TRUE(keeps_clear(all[1], mover));
  EXPECT_EQ(all[1].clear_of.place, Place{});
}

TEST(ReadStructure, ABearingIsAssumedOfABoxAlone) {
  const Layout layout = layout_of(edited("bearing = \"15 deg\"\n", ""));
  EXPECT_EQ(layout.structures[0].bearing_rad, 0);
  EXPECT_EQ(assumptions(layout),
            std::vector<std::string>{
                "structure.platform.bearing = 0 deg, a stated default (its length lies along the x axis)"});
}

TEST(ReadStructure, AStructureCanBeMovedFromTheCommandLine) {
  const Layout layout =
      layout_of(good_text(), {{"structure.mast.diameter", "0.2 m"}, {"structure.platform.clear_of", "[\"rider\"]"}});
  EXPECT_EQ(layout.structures[1].diameter_m->value, 0.2);
  EXPECT_EQ(layout.structures[0].clear_of.value, std::vector<Mover>{Mover::rider});
}

TEST(StructureErrors, AKindHasItsKeysAndNoOthers) {
  expect_each({
      {"kind = \"box\"", "kind = \"cube\"", "\"cube\"", "structure \"platform\": \"kind\" can not be \"cube\"",
       "known: box, post, plane, scan"},
      {"kind = \"box\"\n", "", "[[structure]]", "structure \"platform\": \"kind\" is missing",
       "add it: box, post (a cylinder), plane (solid on one side) or scan (a file of triangles or points); for example "
       "kind = \"box\""},
      {"centre = [205.0, 0.0, 4.4]\n", "", "[[structure]]", "structure \"platform\": \"centre\" is missing",
       "add it: of the box; for example centre = [205.0, 0.0, 4.4]"},
      {"diameter = \"300 mm\"", "diameter = \"300 mm\"\nsize = [1, 1, 1]", "[1, 1, 1]",
       "structure \"mast\": a post has no \"size\"", "only a box has it"},
      {"diameter = \"300 mm\"\n", "", "[[structure]]", "structure \"mast\": \"diameter\" is missing",
       "add it: of the post; for example diameter = \"300 mm\""},
      {"normal = [0.1, 0, 3]", "normal = [0.1, 0, 3]\ndiameter = 1", "1",
       "structure \"ground\": a plane has no \"diameter\"", "only a post has it"},
  });
}

TEST(StructureErrors, ASolidHasASize) {
  expect_each({
      {"size = [\"18 m\", 4, \"400 mm\"]", "size = [\"18 m\", 4, \"0 mm\"]", "\"0 mm\"",
       "structure \"platform\": \"size\" must be above 0", ""},
      {"to = [180.0, 2.5, 12.0]", "to = [180.0, 2.5, 0.0]", "[180.0, 2.5, 0.0]",
       "structure \"mast\": it ends where it begins", "give the two ends of the post's axis"},
      {"normal = [0.1, 0, 3]", "normal = [0, 0, 0]", "[0, 0, 0]",
       "structure \"ground\": \"normal\" is 0 long and points nowhere",
       "give it a direction; any length above zero will do"},
  });
}

TEST(StructureErrors, WhatKeepsClearIsAListOfWords) {
  expect_each({
      {"clear_of = [\"lines\", \"block\"]", "clear_of = []", "[]",
       "structure \"platform\": \"clear_of\" is a list of one word or more",
       "for example clear_of = [\"lines\", \"block\"]"},
      {"clear_of = [\"lines\", \"block\"]", "clear_of = \"lines\"", "\"lines\"",
       "structure \"platform\": \"clear_of\" is a list of one word or more",
       "for example clear_of = [\"lines\", \"block\"]"},
      {"clear_of = [\"lines\", \"block\"]", "clear_of = [\"lines\", \"riders\"]", "\"riders\"",
       "structure \"platform\": \"clear_of\" can not be \"riders\"", "did you mean \"rider\"?"},
      {"clear_of = [\"lines\", \"block\"]", "clear_of = [\"lines\", 7]", "7",
       "structure \"platform\": \"clear_of\" is a text, not a number", "for example clear_of = [\"lines\", \"block\"]"},
  });
}

TEST(StructureErrors, StructuresShareTheNamesOfAllItems) {
  expect_each({
      {"id = \"mast\"", "id = \"platform\"", "\"platform\"", "the id \"platform\" is taken by a structure in line 218",
       "give it a name of its own"},
      {"id = \"mast\"", "id = \"S1\"", "\"S1\"", "the id \"S1\" is taken by a support line in line 129",
       "give it a name of its own"},
  });
}

}  // namespace
}  // namespace fairlead
