// Wire rope clips against 8 CCR 8497.
#include <gtest/gtest.h>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

constexpr double inch = 0.0254, foot_pound = 1.3558179483314004;  // N m, exact product of foot and pound-force

struct Clips {
  std::optional<double> count, turnback_in, torque_ft_lb;
};

std::optional<Real> real(const std::optional<double>& value, double unit) {
  return value ? std::optional(Real{*value * unit, {}}) : std::nullopt;
}

std::vector<Finding> findings(double rope_m, const Clips& given) {
  Rig rig = marten_ridge();
  rig.layout.main_line.diameter_m.value = rope_m;
  rig.layout.main_line.from_end.reset();
  rig.layout.main_line.to_end = Termination{.kind = {TerminationKind::clips, {}},
                                            .clips = real(given.count, 1),
                                            .turnback_m = real(given.turnback_in, inch),
                                            .torque_N_m = real(given.torque_ft_lb, foot_pound)};
  return findings_of(clips, rig);
}
Finding finding(double rope_m, const Clips& given) { return only(findings(rope_m, given)); }

struct Row {
  double rope_in, clips, turnback_in, torque_ft_lb;
};
// Source CAL-8497.
constexpr Row published[] = {
    {1. / 2, 3, 11.5, 65}, {5. / 8, 3, 12, 95}, {3. / 4, 4, 18, 130}, {7. / 8, 4, 19, 225}, {1, 5, 26, 225}};

TEST(Clips, WhatTheTableAsksOfEachSizePassesAndALittleLessOfAnythingFails) {
  for (const Row& row : published) {
    const double rope_m = row.rope_in * inch;
    const Clips asked{row.clips, row.turnback_in, row.torque_ft_lb};
    const Finding exact = finding(rope_m, asked);
    EXPECT_EQ(exact.verdict, Verdict::pass) << row.rope_in;
    EXPECT_NEAR(exact.value, 1, 1e-14);
    EXPECT_EQ(exact.subject, (Item{Item::Kind::main_line, 0}));
    EXPECT_EQ(fact(exact, "end"), "to_end");
    EXPECT_EQ(finding(rope_m, {row.clips - 1, row.turnback_in, row.torque_ft_lb}).verdict, Verdict::fail);
    EXPECT_EQ(finding(rope_m, {row.clips, row.turnback_in * (1 - 1e-9), row.torque_ft_lb}).verdict, Verdict::fail);
    EXPECT_EQ(finding(rope_m, {row.clips, row.turnback_in, row.torque_ft_lb * (1 - 1e-9)}).verdict, Verdict::fail);
    EXPECT_EQ(finding(rope_m, {row.clips + 1, row.turnback_in + 1, row.torque_ft_lb + 1}).verdict, Verdict::pass);
  }
}

TEST(Clips, BetweenTwoSizesTheNextLargerOneCounts) {
  for (std::size_t i = 1; i < std::size(published); ++i) {
    const Row &smaller = published[i - 1], &larger = published[i];
    for (const double part : {1e-6, 0.5, 1 - 1e-6}) {
      const double rope_m = (smaller.rope_in + part * (larger.rope_in - smaller.rope_in)) * inch;
      EXPECT_EQ(finding(rope_m, {larger.clips, larger.turnback_in, larger.torque_ft_lb}).verdict, Verdict::pass);
      EXPECT_EQ(finding(rope_m, {smaller.clips, smaller.turnback_in, smaller.torque_ft_lb}).verdict, Verdict::fail)
          << rope_m;
    }
  }
}

TEST(Clips, TheSameRopeWrittenInMillimetresIsNoLargerNorSmaller) {
  EXPECT_EQ(finding(12.7 * 1e-3, {3, 11.5, 65}).verdict, Verdict::pass) << "1/2 in";
  EXPECT_EQ(finding(15.875 * 1e-3, {3, 12, 95}).verdict, Verdict::pass) << "5/8 in";
  EXPECT_EQ(finding(25.4 * 1e-3, {5, 26, 225}).verdict, Verdict::pass) << "1 in";
}

TEST(Clips, OffTheTableNothingIsJudged) {
  for (const double rope_m : {0.006, 0.0126999, 0.0254001, 0.032, std::numeric_limits<double>::quiet_NaN()}) {
    const Finding off = finding(rope_m, {9, 99, 999});
    EXPECT_EQ(off.verdict, Verdict::not_judged) << rope_m;
    EXPECT_NE(off.why.find("to_end: the table of clips runs from 1/2 in to 1 in of rope"), std::string::npos)
        << off.why;
  }
}

TEST(Clips, WhatIsNotGivenIsAskedForInTheWordsToWriteAndIsNeverAPass) {
  const double rope_m = 0.016;  // counts as 3/4 in
  EXPECT_EQ(finding(rope_m, {}).why,
            "not all is given of its to_end: write clips = 4, turnback = \"18 in\", torque = \"130 ft lb\", or more");
  EXPECT_FALSE(finding(rope_m, {}).measured);
  EXPECT_EQ(finding(rope_m, {4, 18, {}}).why, "not all is given of its to_end: write torque = \"130 ft lb\", or more");
  for (const Clips& part : {Clips{}, Clips{4, {}, {}}, Clips{{}, 18, {}}, Clips{{}, {}, 130}, Clips{4, 18, {}},
                            Clips{4, {}, 130}, Clips{{}, 18, 130}})
    EXPECT_EQ(finding(rope_m, part).verdict, Verdict::not_judged);
}

TEST(Clips, WhatIsGivenAndTooLittleFailsWhateverIsMissingBeside) {
  const Finding few = finding(0.016, {3, {}, {}});
  EXPECT_EQ(few.verdict, Verdict::fail);
  EXPECT_EQ(few.value, 0.75);
  EXPECT_EQ(fact(few, "clips"), "3");
  EXPECT_EQ(fact(few, "clips_wanted"), "4");
  EXPECT_EQ(finding(0.016, {{}, 12, 130}).verdict, Verdict::fail);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_NE(finding(0.016, {nan, 18, 130}).verdict, Verdict::pass);
}

TEST(Clips, EachClippedEndIsJudgedByItselfAndNoOtherKind) {
  Rig rig = marten_ridge();
  rig.layout.main_line.from_end.reset();
  rig.layout.main_line.to_end.reset();
  EXPECT_TRUE(findings_of(clips, rig).empty()) << "no subject";
  const Termination enough{.kind = {TerminationKind::clips, {}},
                           .clips = Real{4, {}},
                           .turnback_m = Real{0.5, {}},
                           .torque_N_m = Real{200, {}}};
  Termination few = enough;
  few.clips = Real{2, {}};
  rig.layout.main_line.from_end = enough;
  rig.layout.main_line.to_end = few;
  const std::vector<Finding> both = findings_of(clips, rig);
  ASSERT_EQ(both.size(), 2u);
  EXPECT_EQ(both[0].verdict, Verdict::pass);
  EXPECT_EQ(fact(both[0], "end"), "from_end");
  EXPECT_EQ(both[1].verdict, Verdict::fail);
  EXPECT_EQ(fact(both[1], "end"), "to_end");
  rig.layout.support_lines[0].from_end = enough;
  rig.layout.support_lines[0].diameter_m.value = 0.0127;
  EXPECT_EQ(about(findings_of(clips, rig), {Item::Kind::support_line, 0}).verdict, Verdict::pass);
}

TEST(Clips, AnUnsolvedRigHasItsClipsJudgedAllTheSame) {
  Rig rig = marten_ridge();
  rig.loads.result = std::make_shared<const Solved<loads::Loads>>(unsolved("they do not balance"));
  rig.layout.main_line.from_end = Termination{.kind = {TerminationKind::clips, {}}, .clips = Real{1, {}}};
  EXPECT_EQ(only(findings_of(clips, rig)).verdict, Verdict::fail);
}

}  // namespace
}  // namespace fairlead
