// adjuster-range, on Marten Ridge with what its reduction line gives.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "geometry/rig/adjuster.hpp"
#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

constexpr Item L1{Item::Kind::line, 0}, L2{Item::Kind::line, 1};

std::vector<Finding> with(const std::vector<Override>& overrides) {
  return findings_of(adjuster_range, solve(layout_of("marten_ridge", overrides), {&marten_ridge()}));
}

TEST(AdjusterRange, ItsPartsAddUpAndPassWithinWhatTheAdjusterTakes) {
  const Finding finding = only(findings_of(adjuster_range, marten_ridge()));
  EXPECT_EQ(finding.subject, L1);
  EXPECT_EQ(finding.verdict, Verdict::pass);
  EXPECT_NEAR(finding.value, number(finding, "states") + number(finding, "stretch") + number(finding, "tolerance"),
              1e-15);
  EXPECT_NEAR(finding.value, number(finding, "take_in") + number(finding, "let_out"), 1e-15);
  EXPECT_EQ(number(finding, "tolerance"), 2 * 0.020);
  const auto needed = marten_ridge().reeving.solved()->needed_m.value();
  double least = 1e9, greatest = 0;
  for (const auto& state : needed) least = std::min(least, state[0]), greatest = std::max(greatest, state[0]);
  EXPECT_NEAR(number(finding, "states"), greatest - least, 1e-9) << "the line as measured is one of the states";
}

TEST(AdjusterRange, OneMillimetreTooLittleFailsAndOneMorePasses) {
  const double whole_m = only(findings_of(adjuster_range, marten_ridge())).value;
  EXPECT_EQ(only(with({{"line.L1.adjuster", fmt::format("'{:.6f} m'", whole_m - 1e-3)}})).verdict, Verdict::fail);
  EXPECT_EQ(only(with({{"line.L1.adjuster", fmt::format("'{:.6f} m'", whole_m + 1e-3)}})).verdict, Verdict::pass);
}

TEST(AdjusterRange, TwiceTheToleranceAsksForTwiceAsMuchEitherWay) {
  const Finding once = only(findings_of(adjuster_range, marten_ridge()));
  const Finding twice = only(with({{"line.L1.length_tolerance", "'40 mm'"}}));
  for (const char* way : {"take_in", "let_out"}) EXPECT_NEAR(number(twice, way) - number(once, way), 0.020, 1e-12);
}

/// Marten Ridge without one key of its line L1.
Layout lacking(std::optional<Real> Line::*key) {
  Layout layout = layout_of("marten_ridge");
  layout.lines[0].*key = std::nullopt;
  return layout;
}

TEST(AdjusterRange, WhatIsNotKnownIsNeverAPass) {
  for (const auto key : {&Line::adjuster_m, &Line::length_tolerance_m, &Line::ea_N}) {
    const Finding finding = only(findings_of(adjuster_range, solve(lacking(key))));
    EXPECT_EQ(finding.verdict, Verdict::not_judged);
    EXPECT_TRUE(finding.measured) << "what is known is told";
    EXPECT_FALSE(finding.why.empty());
  }
}

TEST(AdjusterRange, WhatFailsWithPartOfItUnknownFails) {
  Layout layout = lacking(&Line::length_tolerance_m);
  layout.lines[0].adjuster_m->value = 0.001;
  EXPECT_EQ(only(findings_of(adjuster_range, solve(layout))).verdict, Verdict::fail);
}

TEST(AdjusterRange, TheUnitTakesUpItsOwnLineUnlessThatHasAnAdjusterToo) {
  EXPECT_TRUE(findings_of(adjuster_range, demo_layout()).empty());
  const auto both = with({{"line.L2.adjuster", "'0.5 m'"}, {"line.L2.length_tolerance", "'10 mm'"}});
  ASSERT_EQ(both.size(), 2u);
  EXPECT_EQ(about(both, L2).verdict, Verdict::pass);
}

TEST(AdjusterRange, OfARigThatIsNotSolvedIsUndetermined) {
  EXPECT_EQ(only(findings_of(adjuster_range, solve(layout_of("marten_ridge_downstream")))).verdict,
            Verdict::undetermined);
}

// STEEL-T: steel made at 12 C shrinks by 12e-6 of its length for every kelvin colder, so it is made longer by as much.
TEST(AdjusterRange, OfASteelLineCountsItsOwnExpansion) {
  const Rig steel = solve(layout_of("marten_ridge", {{"line.L1.material", "'steel'"},
                                                     {"line.L1.from_end.kind", "'other'"},
                                                     {"line.L1.to_end.kind", "'other'"}}),
                          {&marten_ridge()});
  const std::vector<double> of_steel = made_lengths_m(steel, 0), of_fibre = made_lengths_m(marten_ridge(), 0);
  const auto& states = marten_ridge().main_line.solved()->states;
  ASSERT_EQ(of_steel.size(), states.size());
  for (std::size_t s = 0; s < states.size(); ++s)
    EXPECT_NEAR(of_steel[s] * (1 + 12e-6 * (states[s].temperature_K - (273.15 + 12))), of_fibre[s], 1e-9);
}

}  // namespace
}  // namespace fairlead
