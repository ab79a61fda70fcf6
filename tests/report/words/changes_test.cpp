#include "report/words/changes.hpp"

#include <gtest/gtest.h>

#include "report/words/revision_line.hpp"
#include "tests/checks/findings.hpp"

namespace fairlead::words {
namespace {

constexpr Style si{Units::si}, us{Units::us}, both{};

/// Not judged: for what is told of the two layouts alone.
Changes changes(const Layout& was, const Layout& is) {
  Changes both_sides{{solve(was), {}}, {solve(is), {}}, {}};
  both_sides.difference = difference(both_sides.was, both_sides.is);
  return both_sides;
}
Changes changes(const std::vector<Override>& overrides) { return changes(demo_layout(), demo_layout(overrides)); }

std::string only_sentence(const std::vector<Override>& overrides, const Style& style) {
  const Changes found = changes(overrides);
  EXPECT_EQ(found.difference.inputs.size(), 1u);
  EXPECT_EQ(found.difference.inputs.front().keys.size(), 1u);
  return sentence(found.difference.inputs.front().keys.front(), found, style);
}

TEST(Movement, IsToldAlongAcrossAndUp) {
  MovedPoint point{"anchor", "A3", "position", {}, 0.012, 0.035, -0.002, 0.0371};
  EXPECT_EQ(name_of(point), "anchor A3");
  EXPECT_EQ(movement(point, si), "37.1 mm: 12.0 mm downstream, 35.0 mm to the left, 2.0 mm down");
  EXPECT_EQ(movement(point, us), "1 7/16 in: 1/2 in downstream, 1 3/8 in to the left, 1/16 in down");
  point = {"sheave", "R1", "swivel_at", {}, -1.5, -0.25, 0, 1.5207};
  EXPECT_EQ(name_of(point), "sheave R1, swivel at");
  EXPECT_EQ(movement(point, si), "1.521 m: 1.500 m upstream, 0.250 m to the right");
  EXPECT_EQ(movement({"anchor", "A3", "position", {}, 1e-5, 0, 0, 1e-5}, si), "less than 0.1 mm");
}

TEST(ChangeSentence, HasDigitsEnoughToReadDifferently) {
  EXPECT_EQ(only_sentence({{"brake_trolley.travel", "'15.5 m'"}}, si), "travel: 15.000 m, now 15.500 m");
  EXPECT_EQ(only_sentence({{"brake_trolley.travel", "'15.0002 m'"}}, si), "travel: 15.0000 m, now 15.0002 m");
  EXPECT_EQ(only_sentence({{"brake_trolley.travel", "'15.0002 m'"}}, us), "travel: 15.0000 m, now 15.0002 m")
      << "feet and inches go no finer than 1/16 in";
  EXPECT_EQ(
      only_sentence({{"limits.wrap", "{ at = '80 deg', basis = \"owner's rule: redirects turn the line back\" }"}}, si),
      "wrap: 90.00 deg, now 80.00 deg (owner's rule: redirects turn the line back)");
  EXPECT_EQ(only_sentence({{"limits.wrap", "{ at = '90 deg', basis = 'our engineer' }"}}, si),
            "wrap: 90.00 deg (owner's rule: redirects turn the line back), now 90.00 deg (our engineer)");
  EXPECT_EQ(only_sentence({{"line.L1.ea", "'600 kN'"}}, both), "ea: not given, now 600.0 kN (134885 lbf)");
}

TEST(RevisionLine, TellsTheWeightiestFirstAndHowManyMore) {
  const Changes found = changes({{"anchor.A3.position", "[1348.016, 911.012, 331.7]"},
                                 {"sheave.R1.position", "[1348.016, 911.012, 331.4]"},
                                 {"limits.fleet_angle", "{ at = '5 deg', basis = 'x' }"},
                                 {"limits.extension_reserve", "{ at = '1 m', basis = 'x' }"},
                                 {"brake_trolley.travel", "'15.5 m'"},
                                 {"line.L1.ea", "'600 kN'"}});
  EXPECT_EQ(revision_line(found, both).change,
            "A3, R1 moved 20 mm downstream; limit fleet angle loosened; brake trolley travel 15.000 m to 15.500 m; "
            "limit extension reserve tightened; L1 ea given");
  const Changes many = changes(demo_layout(), layout_of("marten_ridge"));
  const std::string change = revision_line(many, si).change;
  EXPECT_EQ(std::count(change.begin(), change.end(), ';'), 6) << change;
  EXPECT_TRUE(change.ends_with(" more changes")) << change;
}

TEST(RevisionLine, WhatIsNotKnownIsLeftForTheReaderToAskFor) {
  Layout nobodys = demo_layout({{"brake_trolley.travel", "'15.5 m'"}});
  nobodys.project.creator.reset();
  nobodys.project.date.reset();
  nobodys.project.revision.value = "C \"draft\"";
  const Changes found = changes(demo_layout(), nobodys);
  EXPECT_EQ(toml(revision_line(found, si)),
            "[[project.history]]\nrevision = \"C \\\"draft\\\"\"\n"
            "change = \"brake trolley travel 15.000 m to 15.500 m\"\n");
  EXPECT_EQ(revision_warnings(found),
            (std::vector<std::string>{"The new file has no date of issue: the line below lacks it.",
                                      "The new file names no creator: the line below lacks who changed it."}));
}

TEST(RevisionLine, ARevisionThatStayedIsWarnedOfOnlyWhereAnInputChanged) {
  EXPECT_EQ(revision_warnings(changes({{"brake_trolley.travel", "'15.5 m'"}})),
            (std::vector<std::string>{
                "Inputs changed, and both files are revision B: give the new one another.",
                "Inputs changed, and both files are dated 2026-10-30.",
                "The new file's revision table has a row B already: see whether it says all of this."}));
  const Changes title = changes({{"project.title", "'Another title'"}});
  EXPECT_EQ(revision_warnings(title), std::vector<std::string>{});
  EXPECT_EQ(revision_line(title, si).change, "project data only");
  EXPECT_EQ(revision_warnings(changes(
                {{"project.date", "2026-10-01"}, {"project.revision", "'C'"}, {"riders.mass", "['31 kg', '120 kg']"}})),
            std::vector<std::string>{"The new file is dated 2026-10-01, before the old one, 2026-10-30."});
}

}  // namespace
}  // namespace fairlead::words
