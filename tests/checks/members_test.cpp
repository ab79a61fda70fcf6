// Built-up anchors from the layout to the finding.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/checks/built_up.hpp"

namespace fairlead {
namespace {

const Rig& guyed() {
  static const Rig rig = solve(built_up(guyed_pole()));
  return rig;
}
const Rig& bridled() {
  static const Rig rig = solve(built_up(bridle(), "movement = [\"3 m\", \"3 m\", \"3 m\"]"));
  return rig;
}

Item member_item(int index) { return {Item::Kind::member, index}; }
const Item a3{Item::Kind::anchor, secondary};

TEST(BuiltUpAnchors, MembersAndLoadCloseInEveryCaseListed) {
  const Rig& rig = guyed();
  ASSERT_TRUE(rig.loads.solved()) << rig.loads.result->error().why;
  const Point3 at = rig.layout.anchors[secondary].position;
  for (const loads::LoadCase& load_case : rig.loads.solved()->cases) {
    Vec3 sum = load_case.on_anchor_N[secondary];
    for (std::size_t m = 0; m < rig.layout.members.size(); ++m)
      sum += load_case.in_member_N[m] * unit(rig.layout.members[m].to.value - at);
    EXPECT_LE(norm(sum), 1e-9 * 4000) << load_case.name << ": of four pretensions of 1 kN";
  }
}

TEST(BuiltUpAnchors, TheDemandIsThatOfItsCase) {
  const loads::Loads& loads = *guyed().loads.solved();
  for (std::size_t m = 0; m < loads.members.size(); ++m) {
    const Extreme& pull = loads.members[m].tension_N;
    const Extreme& push = loads.members[m].compression_N;
    EXPECT_EQ(m == 0, push.pose >= 0);
    EXPECT_EQ(m == 0, pull.pose < 0);
    const Extreme& most = m == 0 ? push : pull;
    const double in_case_N = loads.cases[static_cast<std::size_t>(most.pose)].in_member_N[m];
    EXPECT_DOUBLE_EQ(m == 0 ? -in_case_N : in_case_N, most.value);
    EXPECT_GE(most.bound, most.value);
    for (const loads::LoadCase& load_case : loads.cases) EXPECT_LE(std::abs(load_case.in_member_N[m]), most.value);
  }
}

TEST(BuiltUpAnchors, NothingElseChangesInTheRig) {
  static const Rig plain = solve(layout_of("heron_gully"));
  const auto &with = *guyed().loads.solved(), &without = *plain.loads.solved();
  for (std::size_t a = 0; a < with.demands.size(); ++a)
    EXPECT_EQ(with.demands[a].force_N.value, without.demands[a].force_N.value);
  EXPECT_TRUE(without.members.empty());
  EXPECT_TRUE(without.lost.empty());
  for (const loads::LoadCase& load_case : without.cases) EXPECT_EQ(load_case.lost, -1);
}

TEST(MemberUtilisation, IsTheGreatestLoadOverTheCapacity) {
  const std::vector<Finding> findings = findings_of(member_utilisation, guyed());
  ASSERT_EQ(findings.size(), 5u);
  const loads::Loads& loads = *guyed().loads.solved();
  const Finding pole = about(findings, member_item(0)), guy = about(findings, member_item(1));
  EXPECT_EQ(pole.verdict, Verdict::pass);
  EXPECT_DOUBLE_EQ(pole.value, loads.members[0].compression_N.value / 40e3);
  EXPECT_EQ(fact(pole, "way"), "pushed");
  EXPECT_DOUBLE_EQ(guy.value, loads.members[1].tension_N.value / (2000 * 9.80665));
  EXPECT_EQ(fact(guy, "way"), "pulled");
  EXPECT_TRUE(findings_of(member_utilisation, layout_of("heron_gully")).empty());
}

TEST(MemberUtilisation, WithoutACapacityItIsNotJudgedAndOverItFails) {
  const Rig weak = solve(built_up(guyed_pole("wll = \"1.1 kN\"\n")));
  EXPECT_EQ(about(findings_of(member_utilisation, weak), member_item(1)).verdict, Verdict::fail);
  Layout layout = built_up(guyed_pole(""));
  layout.members[0].compression_limit_N.reset();
  const std::vector<Finding> unmarked = findings_of(member_utilisation, solve(layout, {&weak}));
  EXPECT_EQ(about(unmarked, member_item(0)).verdict, Verdict::not_judged);
  EXPECT_EQ(about(unmarked, member_item(0)).why, "it is pushed and has no compression_limit");
  EXPECT_EQ(about(unmarked, member_item(1)).verdict, Verdict::not_judged);
}

TEST(MemberUtilisation, MembersThatDoNotHoldLeaveItUndetermined) {
  const Rig loose =
      solve(built_up(member("B1L", "leg", "[1351.0, 911.0, 332.0]") + member("B1R", "leg", "[1345.0, 911.0, 331.4]")));
  for (const Finding& finding : findings_of(member_utilisation, loose)) {
    EXPECT_EQ(finding.verdict, Verdict::undetermined);
    EXPECT_EQ(finding.why, "its two members lie in one line and hold nothing across it");
  }
  EXPECT_EQ(only(findings_of(anchor_movement, loose)).verdict, Verdict::undetermined);
}

TEST(AnchorUtilisation, OfAnAnchorWithoutAMarkIsThatOfItsMembers) {
  for (const Finding& finding : findings_of(anchor_utilisation, guyed())) EXPECT_NE(finding.subject, a3);
  EXPECT_EQ(findings_of(anchor_utilisation, solve(built_up(guyed_pole(), "wll = \"2 t\""))).size(), 4u);
}

TEST(MemberLost, TheUpstreamGuyGoneLeavesOthersThatHoldOrNot) {
  const Rig four = solve(built_up(guyed_pole("wll = \"2 t\"\n", "may_be_lost = true\n")));
  const Finding holds = only(findings_of(member_lost, four));
  EXPECT_EQ(holds.subject, member_item(1));
  const loads::Loads& loads = *four.loads.solved();
  ASSERT_EQ(loads.lost.size(), 1u);
  // Upstream and to the left of the line a guy is left, to the right none: only the pull's direction says.
  if (loads.lost[0].not_held) {
    EXPECT_EQ(holds.verdict, Verdict::fail);
  } else {
    EXPECT_EQ(holds.verdict, Verdict::pass);
  }
  const auto listed = std::find_if(loads.cases.begin(), loads.cases.end(),
                                   [](const loads::LoadCase& c) { return c.action == loads::Action::member_lost; });
  ASSERT_NE(listed, loads.cases.end());
  EXPECT_EQ(listed->name.substr(0, 9), "G1 lost, ");
  EXPECT_EQ(listed->in_member_N[1], 0);
  EXPECT_TRUE(std::is_sorted(loads.cases.begin(), loads.cases.end(), [](const auto& a, const auto& b) {
    return (a.action == loads::Action::member_lost) < (b.action == loads::Action::member_lost);
  })) << "cases with a member lost come last";
}

TEST(MemberLost, OfABridleTheOtherLegCarriesAll) {
  const Rig rig = solve(built_up(bridle("wll = \"2 t\"\nmay_be_lost = true\n")));
  const loads::Loads& loads = *rig.loads.solved();
  ASSERT_EQ(loads.lost.size(), 2u);
  for (const loads::LostDemand& lost : loads.lost) {
    const auto other = static_cast<std::size_t>(1 - lost.member);
    const Extreme& carried = lost.others[other].tension_N;
    EXPECT_NEAR(carried.value, loads.demands[secondary].force_N.value, 1e-9);
    const loads::LoadCase& load_case = loads.cases[static_cast<std::size_t>(carried.pose)];
    EXPECT_EQ(load_case.lost, lost.member);
    EXPECT_EQ(load_case.action, loads::Action::member_lost);
    EXPECT_EQ(load_case.in_member_N[other], carried.value);
    EXPECT_EQ(load_case.in_member_N[static_cast<std::size_t>(lost.member)], 0);
  }
  for (const Finding& finding : findings_of(member_lost, rig)) {
    EXPECT_EQ(finding.verdict, Verdict::pass);
    EXPECT_NE(item(finding, "member"), finding.subject);
  }
}

TEST(MemberLost, WithoutTheOnlyGuyThatHoldsItFails) {
  const std::string three = member("S1", "pole", "[1348.0, 911.0, 325.0]", "compression_limit = \"40 kN\"\n") +
                            member("G1", "guy", "[1340.0, 905.0, 325.0]", "wll = \"2 t\"\nmay_be_lost = true\n") +
                            member("G3", "guy", "[1354.0, 903.0, 325.0]", "wll = \"2 t\"\n") +
                            member("G4", "guy", "[1350.0, 917.0, 325.0]", "wll = \"2 t\"\n");
  const Rig rig = solve(built_up(three));
  const Finding finding = only(findings_of(member_lost, rig));
  EXPECT_EQ(finding.verdict, Verdict::fail);
  EXPECT_EQ(fact(finding, "why").substr(0, 33), "no set of its members holds a pul");
  EXPECT_NE(std::find(rig.assumptions.begin(), rig.assumptions.end(),
                      "anchor.A3: its members are taken of one stiffness EA, and its point as staying where it is "
                      "drawn; they give no ea"),
            rig.assumptions.end());
}

TEST(MemberLost, TheOtherLegOverItsCapacityFailsAndWithoutOneIsNotJudged) {
  const Rig weak = solve(built_up(bridle("wll = \"0.9 kN\"\nmay_be_lost = true\n")));
  for (const Finding& finding : findings_of(member_lost, weak)) {
    EXPECT_EQ(finding.verdict, Verdict::fail);
    EXPECT_GT(finding.value, 1);
  }
  Layout layout = weak.layout;
  for (Member& one : layout.members) one.wll_N.reset();
  for (const Finding& finding : findings_of(member_lost, solve(layout, {&weak}))) {
    EXPECT_EQ(finding.verdict, Verdict::not_judged);
    EXPECT_EQ(finding.why, "it carries load and has neither a wll nor an mbs");
  }
  // Of a load that some pose may bring over the capacity nothing is said.
  Rig between = solve(built_up(bridle("wll = \"2 t\"\nmay_be_lost = true\n")), {&weak});
  loads::Loads loads = *between.loads.solved();
  for (loads::LostDemand& lost : loads.lost)
    for (loads::MemberDemand& other : lost.others) other.tension_N.bound = 20e3;
  between.loads.result = std::make_shared<const Solved<loads::Loads>>(std::move(loads));
  for (const Finding& finding : findings_of(member_lost, between)) EXPECT_EQ(finding.verdict, Verdict::undetermined);
}

TEST(BuiltUpAnchors, APoleIsBracedByThePretensionOfItsGuys) {
  const std::vector<loads::Member>& members = guyed().loads.inputs->members;
  const Point3 at = guyed().layout.anchors[secondary].position;
  double down_N = 0;
  for (std::size_t m = 1; m < members.size(); ++m) down_N -= 1000 * unit(members[m].part.to - at).z;
  EXPECT_NEAR(members[0].part.pretension_N, -down_N, 1e-9) << "the pole stands upright";
}

TEST(BaseMoment, IsTheArmTimesTheForceSquareToIt) {
  const Rig rig = solve(built_up(guyed_pole(), "base = [1348.0, 911.0, 331.0]\nbase_moment = \"1.2 kN m\""));
  const Finding finding = only(findings_of(base_moment, rig));
  double most_N_m = 0;
  for (const loads::LoadCase& load_case : rig.loads.solved()->cases) {
    const Vec3 force_N = load_case.on_anchor_N[secondary];
    most_N_m = std::max(most_N_m, 0.7 * std::hypot(force_N.x, force_N.y));
  }
  EXPECT_NEAR(finding.value, most_N_m, 1e-9 * most_N_m);
  EXPECT_EQ(finding.verdict, Verdict::pass);
  EXPECT_EQ(only(findings_of(base_moment, solve(built_up(guyed_pole(), "base = [1348, 911, 331]"), {&rig}))).verdict,
            Verdict::not_judged);
  EXPECT_EQ(
      only(findings_of(base_moment,
                       solve(built_up(guyed_pole(), "base = [1348, 911, 331]\nbase_moment = \"500 N m\""), {&rig})))
          .verdict,
      Verdict::fail);
}

TEST(LoadDirection, IsJudgedOffTheConesAxisOverEveryPose) {
  const auto judged = [](const std::string& cone) {
    return only(findings_of(load_direction, solve(built_up(guyed_pole(), cone), {&guyed()})));
  };
  EXPECT_EQ(judged("cone_axis = [4, 3, -0.5]\ncone_angle = \"75 deg\"").verdict, Verdict::pass);
  const Finding backward = judged("cone_axis = [-4, -3, 0]\ncone_angle = \"75 deg\"");
  EXPECT_EQ(backward.verdict, Verdict::fail);
  EXPECT_GT(backward.value, 1.6);
  EXPECT_EQ(backward.limit->basis, "its cone angle");
}

TEST(AnchorMovement, ABridleSwingsWithinItsMovementOrIsNotPassed) {
  const Finding within = only(findings_of(anchor_movement, bridled()));
  EXPECT_NE(within.verdict, Verdict::not_judged);
  EXPECT_GT(number(within, "along"), 0);
  const Finding unsaid = only(findings_of(anchor_movement, solve(built_up(bridle()), {&bridled()})));
  EXPECT_EQ(unsaid.verdict, Verdict::undetermined);
  const Finding tight = only(findings_of(
      anchor_movement, solve(built_up(bridle(), "movement = [\"1 mm\", \"1 mm\", \"1 mm\"]"), {&bridled()})));
  EXPECT_EQ(tight.verdict, Verdict::fail);
}

TEST(AnchorMovement, ALegThatGoesSlackFailsAndIsNamed) {
  // Both legs lead to one side: the farther one has nothing to hold.
  const std::string aside = member("B1L", "leg", "[1345.8, 911.85, 332.2]", "wll = \"2 t\"\n") +
                            member("B1R", "leg", "[1346.0, 914.25, 332.2]", "wll = \"2 t\"\n");
  const Finding finding =
      only(findings_of(anchor_movement, solve(built_up(aside, "movement = [\"3 m\", \"3 m\", \"3 m\"]"))));
  EXPECT_EQ(finding.verdict, Verdict::fail);
  EXPECT_EQ(item(finding, "slack"), member_item(1));
}

TEST(AnchorMovement, AStiffGuyedPoleGivesMillimetres) {
  const Finding finding = only(findings_of(
      anchor_movement, solve(built_up(guyed_pole(), "movement = [\"5 mm\", \"5 mm\", \"5 mm\"]"), {&guyed()})));
  EXPECT_EQ(finding.verdict, Verdict::pass);
  EXPECT_GT(number(finding, "along"), 1e-4);
  EXPECT_EQ(only(findings_of(anchor_movement, guyed())).verdict, Verdict::not_judged);
}

}  // namespace
}  // namespace fairlead
