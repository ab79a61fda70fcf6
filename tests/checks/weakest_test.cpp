// The strength of lines at their ends and over their sheaves: each place by itself, and the weaker one governs.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

constexpr Item line_1{Item::Kind::line, 0}, line_2{Item::Kind::line, 1}, main_line{Item::Kind::main_line, 0},
    support_line{Item::Kind::support_line, 0};

/// Marten Ridge as if nobody had said how its lines end or what its sheaves leave.
void strip(Layout& layout) {
  const auto ends = [](auto& line) { line.from_end.reset(), line.to_end.reset(); };
  ends(layout.main_line);
  for (SupportLine& line : layout.support_lines) ends(line);
  for (Line& line : layout.lines) {
    ends(line);
    line.sheave_strength.reset();
  }
}

Rig stripped(const std::function<void(Layout&)>& change) {
  Rig rig = marten_ridge();
  strip(rig.layout);
  change(rig.layout);
  return rig;
}
Finding strength_of(Item subject, const std::function<void(Layout&)>& change) {
  return about(findings_of(strength, stripped(change)), subject);
}
Finding bare(Item subject) {
  return strength_of(subject, [](Layout&) {});
}

Termination end_of(TerminationKind kind, std::optional<double> efficiency = {}) {
  Termination end{.kind = {kind, {}}};
  if (efficiency) end.efficiency = Real{*efficiency, {}};
  return end;
}

/// Marten Ridge's 8 mm over sheaves whose grooves are so many line diameters wide at the bottom.
void make_steel(Layout& layout, double ratio) {
  layout.lines[0].material.value = LineMaterial::steel;
  for (Sheave& sheave : layout.sheaves) sheave.pitch_diameter_m.value = (ratio + 1) * layout.lines[0].diameter_m;
}

TEST(Weakest, WithoutATerminationOrAFigureAFibreLineIsJudgedByItsWholeStrength) {
  const Finding finding = bare(line_1);
  EXPECT_EQ(finding.verdict, Verdict::pass);
  EXPECT_EQ(fact(finding, "where"), "no such fact");
  EXPECT_NEAR(number(finding, "capacity"), 38e3 / 5, 1e-9);
}

TEST(Weakest, OverAPublishedDiameterASteelLineHoldsWhatTheTableSays) {
  for (const auto& [ratio, held] : {std::pair{40.0, 0.95}, {20.0, 0.91}, {15.0, 0.89}, {6.0, 0.79}, {1.0, 0.50}}) {
    const Finding finding = strength_of(line_1, [&, r = ratio](Layout& l) { make_steel(l, r * (1 + 1e-12)); });
    EXPECT_NEAR(finding.value * held / bare(line_1).value, 1, 1e-9) << ratio;
    EXPECT_NEAR(finding.bound * held / bare(line_1).bound, 1, 1e-9) << ratio;
    EXPECT_NEAR(number(finding, "capacity"), held * 38e3 / 5, 1e-6) << ratio;
    EXPECT_TRUE(fact(finding, "where").starts_with("over sheave R1 (D/d ")) << fact(finding, "where");
  }
}

TEST(Weakest, OverASheaveThinnerThanItSteelIsNotJudgedUnlessItFailsAnywayOrSomebodySaysWhatHolds) {
  const auto thin = [](Layout& l) { make_steel(l, 0.9); };
  const Finding unknown = strength_of(line_1, thin);
  EXPECT_EQ(unknown.verdict, Verdict::not_judged);
  EXPECT_NE(unknown.why.find("sheave R1 is thinner than the line (D/d 0.90)"), std::string::npos) << unknown.why;
  EXPECT_EQ(strength_of(line_1,
                        [&](Layout& l) {
                          thin(l);
                          l.lines[0].mbs_N->value = 100;
                        })
                .verdict,
            Verdict::fail);
  const Finding known = strength_of(line_1, [&](Layout& l) {
    thin(l);
    l.lines[0].sheave_strength = Real{0.4, {}};
  });
  EXPECT_EQ(known.verdict, Verdict::pass);
  EXPECT_EQ(number(known, "held"), 0.4);
}

TEST(Weakest, TheMakersFigureCountsUnderFibreAndBeatsTheTableUnderSteel) {
  const double whole = bare(line_1).value;
  for (const bool steel : {false, true}) {
    const Finding finding = strength_of(line_1, [&](Layout& l) {
      if (steel) make_steel(l, 20);
      l.lines[0].sheave_strength = Real{0.8, {}};
    });
    EXPECT_NEAR(finding.value * 0.8, whole, 1e-12);
  }
}

TEST(Weakest, ATerminationHoldsTheTensionAtItsOwnEndWhicheverWayTheLineIsWritten) {
  const loads::Loads& loads = *marten_ridge().loads.solved();
  ASSERT_NE(loads.lines[0].from_N.value, loads.lines[0].to_N.value) << "the ends must differ to be told apart";
  for (const bool reversed : {false, true})
    for (const bool at_trolley : {true, false}) {
      const Finding finding = strength_of(line_1, [&](Layout& l) {
        Line& line = l.lines[0];
        if (reversed) {
          std::swap(line.from, line.to);
          std::swap(line.from_place, line.to_place);
          std::reverse(line.route.begin(), line.route.end());
        }
        (at_trolley != reversed ? line.from_end : line.to_end) = end_of(TerminationKind::knot, 0.5);
      });
      const Extreme& force = at_trolley ? loads.lines[0].from_N : loads.lines[0].to_N;
      EXPECT_EQ(number(finding, "force"), force.value);
      EXPECT_NEAR(finding.value, force.value / (0.5 * 38e3 / 5), 1e-12);
      EXPECT_EQ(fact(finding, "where"), at_trolley != reversed ? "at its from_end (knot)" : "at its to_end (knot)");
    }
}

TEST(Weakest, LossesAtDifferentPlacesDoNotMultiplyTheWeakerGoverns) {
  const auto with = [](double over_sheave, double at_end) {
    return strength_of(line_1, [&](Layout& l) {
      l.lines[0].sheave_strength = Real{over_sheave, {}};
      l.lines[0].from_end = l.lines[0].to_end = end_of(TerminationKind::sewn, at_end);
    });
  };
  const Finding sheave = with(0.6, 0.9), end = with(0.9, 0.6);
  EXPECT_TRUE(fact(sheave, "where").starts_with("over sheave R1")) << fact(sheave, "where");
  EXPECT_EQ(number(sheave, "held"), 0.6);
  EXPECT_NEAR(sheave.value, with(0.6, 1).value, 1e-12) << "the end that holds more adds nothing";
  EXPECT_NE(fact(end, "where").find("_end (sewn)"), std::string::npos) << fact(end, "where");
  EXPECT_EQ(number(end, "held"), 0.6);
}

TEST(Weakest, AnEndThatHoldsLessFailsALineThatPassedAndNeverTheOtherWayRound) {
  const double whole = bare(line_2).bound;
  ASSERT_LT(whole, 1);
  const auto with = [](double held) {
    return strength_of(line_2, [&](Layout& l) { l.lines[1].to_end = end_of(TerminationKind::other, held); }).verdict;
  };
  const double at_end = marten_ridge().loads.solved()->lines[1].to_N.value / (38e3 / 5);
  EXPECT_EQ(with(at_end * (1 - 1e-9)), Verdict::fail);
  EXPECT_EQ(with(1), Verdict::pass);
  double before = 0;
  for (double held = 1; held > 0.2; held -= 0.05) {
    const double used =
        strength_of(line_2, [&](Layout& l) { l.lines[1].to_end = end_of(TerminationKind::other, held); }).value;
    EXPECT_GE(used, before);
    before = used;
  }
}

TEST(Weakest, TheMainLineAndASupportLineHoldAsMuchAsTheirWeakerEnd) {
  for (const Item subject : {main_line, support_line}) {
    const double whole = bare(subject).value;
    const auto with = [&](TerminationKind from, TerminationKind to) {
      return strength_of(subject, [&](Layout& l) {
        const auto set = [&](auto& line) { line.from_end = end_of(from), line.to_end = end_of(to); };
        subject == main_line ? set(l.main_line) : set(l.support_lines[0]);
      });
    };
    const Finding wedge = with(TerminationKind::poured_socket, TerminationKind::wedge);
    EXPECT_NEAR(wedge.value * 0.75, whole, 1e-12);
    EXPECT_EQ(fact(wedge, "where"), "at its to_end (wedge)");
    const Finding clipped = with(TerminationKind::clips, TerminationKind::swaged);
    EXPECT_NEAR(clipped.value * 0.80, whole, 1e-12);
    EXPECT_EQ(fact(clipped, "where"), "at its from_end (clips)");
    EXPECT_EQ(with(TerminationKind::poured_socket, TerminationKind::poured_socket).value, whole) << "they hold it all";
  }
}

TEST(Weakest, AnEfficiencyThatNobodyKnowsIsNeverAPass) {
  const Finding finding = strength_of(line_2, [](Layout& l) { l.lines[1].to_end = end_of(TerminationKind::other); });
  EXPECT_EQ(finding.verdict, Verdict::not_judged);
  EXPECT_EQ(finding.why, "the efficiency of its to_end is not known");
  for (const double held : {std::numeric_limits<double>::quiet_NaN(), 0.0})
    EXPECT_NE(strength_of(line_2, [&](Layout& l) { l.lines[1].to_end = end_of(TerminationKind::other, held); }).verdict,
              Verdict::pass);
}

}  // namespace
}  // namespace fairlead
