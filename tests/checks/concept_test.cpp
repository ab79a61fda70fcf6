// What is judged of a concept: the same checks with the same limits as of a layout, on a rig of which nothing but the
// arrest is known.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/quantity/dimension.hpp"
#include "tests/checks/findings.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead {
namespace {

const Finding& of(const Judged& judged, const Check& check) {
  const auto found = std::find_if(judged.findings.begin(), judged.findings.end(),
                                  [&](const Finding& finding) { return finding.check == &check; });
  EXPECT_NE(found, judged.findings.end()) << check.name;
  return *found;
}

TEST(JudgedConcept, HasAFindingOfEveryCheckThatNeedsNoPlaceAndOfNoOther) {
  const Judged judged = judge(shipped_concept());
  for (const Check* check : all_checks()) {
    const bool wanted = std::count(concept_checks().begin(), concept_checks().end(), check) > 0;
    const bool found = std::any_of(judged.findings.begin(), judged.findings.end(),
                                   [&](const Finding& finding) { return finding.check == check; });
    EXPECT_EQ(found, wanted) << check->name;
  }
  for (const Finding& finding : judged.findings)
    EXPECT_LT(finding.place.file, judged.rig.layout.files.size()) << finding.check->name;
}

TEST(JudgedConcept, OfTheRigOnlyTheArrestIsSolved) {
  const Rig rig = solve(shipped_concept());
  ASSERT_TRUE(rig.idea && rig.arrest.solved());
  EXPECT_FALSE(rig.main_line.solved() || rig.approach.solved() || rig.reeving.solved() || rig.loads.solved() ||
               rig.clearance.solved());
  // ISO 2533 (read): 1.225 kg/m3 at sea level and 15 C.
  EXPECT_NEAR(rig.arrest.inputs->air_kg_per_m3.at(0), 1.225, 0.5e-3);
  for (const arrest::CornerResult& corner : rig.arrest.solved()->corners) {
    ASSERT_TRUE(corner.motion) << corner.motion.error().why;
    EXPECT_LE(corner.motion->energy_residual, 1e-6);
  }
}

TEST(JudgedConcept, StandsOrFallsWithTheLimitsItGives) {
  Concept shipped = shipped_concept();
  EXPECT_EQ(exit_status(judge(shipped).findings), 0) << "it keeps every limit that it gives";
  shipped.limits.swing_rad.reset();
  const Judged bare = judge(shipped);
  EXPECT_EQ(of(bare, swing).verdict, Verdict::not_judged);
  EXPECT_EQ(exit_status(bare.findings), 1) << "what no limit is given for is not passed";
  const double swing_rad = of(bare, swing).value;
  const auto with = [&](double at) {
    Concept idea = shipped;
    idea.limits.swing_rad = Limit{{at, {}}, "by hand"};
    return of(judge(idea), swing).verdict;
  };
  EXPECT_EQ(with(swing_rad + 1e-9), Verdict::pass);
  EXPECT_EQ(with(swing_rad - 1e-9), Verdict::fail);
}

TEST(JudgedConcept, WithoutRollingResistanceIsUndeterminedInWords) {
  Concept idea = shipped_concept();
  idea.riders.rolling_resistance.reset();
  const Judged judged = judge(idea);
  for (const Check* check : {&rider_stops, &swing, &final_rest, &reset_reserve, &line_speed, &backup_alone}) {
    EXPECT_EQ(of(judged, *check).verdict, Verdict::undetermined) << check->name;
    EXPECT_EQ(of(judged, *check).why, "the concept does not give riders.rolling_resistance") << check->name;
  }
}

/// The nominal speed of the unit's line is arrival over ratio: 60 km/h at 2:1 8.3 m/s (common practice, no source).
TEST(JudgedConcept, SaysTheNominalLineSpeed) {
  Concept idea = shipped_concept();
  idea.riders.arrival_speed_m_per_s->value.high = 60 / 3.6;
  const Judged judged = judge(idea);
  const Finding& finding = of(judged, line_speed);
  const auto nominal =
      std::find_if(finding.facts.begin(), finding.facts.end(), [](const Fact& fact) { return fact.name == "nominal"; });
  ASSERT_NE(nominal, finding.facts.end());
  EXPECT_NEAR(std::get<Quantity>(nominal->value).si, 8.3, 0.05);
}

/// Energy by hand: what arrives, what the slope gives on the way, and the spring's parabola; no rolling, no drag.
TEST(JudgedConcept, TheBackupBrakeAloneTakesUpWhatArrives) {
  Concept idea = shipped_concept();
  idea.riders.rolling_resistance->value = {0, 0};
  idea.riders.drag_area_m2 = Real{1e-9, {}};
  const Rig rig = solve(idea);
  const arrest::BackupAlone& alone = *rig.arrest.solved()->backup;
  const double kg = 120 + 2.5 + 6, met = kg * 7.2 * 7.2 / 2 + kg * standard_gravity * 0.02 * 15.5;
  EXPECT_NEAR(alone.speed_m_per_s, std::sqrt(2 * met / kg), 1e-3);
  const auto taken = [&](double c) {
    return 300 * c + (4000 - 300) / 4.0 * c * c / 2 - kg * standard_gravity * 0.02 * c;
  };
  ASSERT_LT(alone.compression_m, 4);
  EXPECT_NEAR(taken(alone.compression_m), met, 1e-3 * met) << "a step of a centimetre";
}

/// The shipped concept's rig with one corner changed by hand.
template <class Change>
Rig with_corner(std::size_t corner, const Change& change) {
  Rig rig = solve(shipped_concept());
  arrest::Arrest arrest = *rig.arrest.solved();
  change(arrest.corners.at(corner));
  rig.arrest.result = std::make_shared<const Solved<arrest::Arrest>>(std::move(arrest));
  return rig;
}

TEST(RiderStops, KeepsItsReserveFromWhereALaterCreepEnds) {
  const auto judged = [](double latest_m, arrest::FinalRest::How how) {
    return only(rider_stops, with_corner(5, [&](arrest::CornerResult& c) {
                  c.rest = arrest::FinalRest{how, latest_m, latest_m, 6};
                }));
  };
  using How = arrest::FinalRest::How;
  const Finding crept = judged(13.5, How::crept_on);
  EXPECT_NEAR(crept.value, 15.5 - 13.5, 1e-12) << "from the backup brake";
  EXPECT_NEAR(*crept.travel_m, 13.5, 1e-12);
  EXPECT_NE(crept.verdict, Verdict::fail) << "it comes to rest";
  const Finding runs = judged(14, How::runs_on);
  EXPECT_EQ(runs.verdict, Verdict::fail);
  EXPECT_EQ(fact(runs, "how"), "creeps on to the end of the planned travel");
}

TEST(ArrestExtension, CountsTheLineThatALaterCreepPaysOut) {
  const Finding finding = only(arrest_extension, with_corner(5, [](arrest::CornerResult& c) {
                                 c.rest = arrest::FinalRest{arrest::FinalRest::How::crept_on, 13, 13.5, 9.7};
                               }));
  EXPECT_NEAR(finding.value, 9.8 - 9.7, 1e-12);
  EXPECT_NEAR(*finding.travel_m, 13.5, 1e-12);
}

/// The demo, whose riders arrive as fast as is computed.
Layout unmeasured(const std::string& rolling) {
  Layout layout = demo_layout({{"riders.rolling_resistance", rolling}, {"approach.start", R"("12 m")"}});
  layout.riders.arrival_speed_m_per_s.reset();
  return layout;
}

/// Beside riders who roll easily, some who stall short: they meet no trolley, wherever it was left.
TEST(DispatchDistance, IsThatOfTheRidersWhoArrive) {
  const Rig all = solve(unmeasured("[0.036, 0.036]")), some = solve(unmeasured("[0.036, 0.5]"));
  ASSERT_TRUE(all.arrest.solved() && some.arrest.solved());
  const auto& corners = some.arrest.solved()->corners;
  const auto stalled = std::count_if(corners.begin(), corners.end(),
                                     [](const arrest::CornerResult& corner) { return !corner.arrives(); });
  EXPECT_EQ(2 * stalled, static_cast<std::ptrdiff_t>(corners.size()));
  ASSERT_TRUE(std::isfinite(all.arrest.solved()->not_reset.farthest_m));
  EXPECT_EQ(some.arrest.solved()->not_reset.farthest_m, all.arrest.solved()->not_reset.farthest_m);
  EXPECT_EQ(only(rider_arrives, some).verdict, Verdict::fail);
}

TEST(RiderArrives, FailsWhereEveryRiderStallsShort) {
  const Rig rig = solve(unmeasured("[0.5, 0.6]"));
  ASSERT_TRUE(rig.approach.solved()) << rig.approach.result->error().why;
  EXPECT_EQ(rig.approach.solved()->fastest_m_per_s, 0);
  EXPECT_EQ(only(rider_arrives, rig).verdict, Verdict::fail);
  EXPECT_EQ(only(rider_stops, rig).verdict, Verdict::undetermined);
  EXPECT_NE(only(rider_stops, rig).why.find("no rider arrives"), std::string::npos) << only(rider_stops, rig).why;
}

TEST(RiderLoad, ARiseIsJudgedWhereTheLayoutLimitsIt) {
  const Rig rig = solve(demo_layout());
  const std::size_t before = findings_of(rider_load, rig).size();
  const arrest::Arrest& arrest = *rig.arrest.solved();
  const double most =
      arrest.corners[static_cast<std::size_t>(arrest.governing.load_onset)].motion->load_onset_per_s.value;
  for (const double share : {0.99, 1.01}) {
    Layout layout = demo_layout();
    layout.limits.rider_load_onset_per_s = limit_at(share * most);
    const auto findings = findings_of(rider_load, layout);
    ASSERT_EQ(findings.size(), before + 1);
    EXPECT_EQ(findings.back().verdict, share < 1 ? Verdict::fail : Verdict::pass);
    EXPECT_EQ(findings.back().value, most);
  }
}

}  // namespace
}  // namespace fairlead
