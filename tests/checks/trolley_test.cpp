#include <gtest/gtest.h>

#include <limits>
#include <numbers>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

const Check* const pulls[] = {&pull_angle, &side_pull, &trolley_lift, &trolley_pitch};

Finding found(const Check& check, const std::function<void(Layout&)>& change) {
  Rig rig = marten_ridge();
  change(rig.layout);
  return only(check, rig);
}

void set_limit(Layout& layout, const Check* check, std::optional<Limit> limit) {
  if (check == &pull_angle) layout.brake_trolley.pull_angle = std::move(limit);
  if (check == &side_pull) layout.brake_trolley.side_pull = std::move(limit);
  if (check == &trolley_lift) layout.limits.lift_share = std::move(limit);
}

TEST(Trolley, PassesFromTheBoundAndFailsBelowTheValue) {
  for (const Check* check : {&pull_angle, &side_pull, &trolley_lift}) {
    const Finding as_is = only(*check, marten_ridge());
    ASSERT_GT(as_is.bound, as_is.value) << check->name;
    const auto verdict = [&](double at) {
      return found(*check, [&](Layout& l) { set_limit(l, check, limit_at(at)); }).verdict;
    };
    EXPECT_EQ(verdict(as_is.bound), Verdict::pass) << check->name;
    EXPECT_EQ(verdict((as_is.value + as_is.bound) / 2), Verdict::undetermined) << check->name;
    EXPECT_EQ(verdict(as_is.value * (1 - 1e-9)), Verdict::fail) << check->name;
    EXPECT_EQ(found(*check, [&](Layout& l) { set_limit(l, check, std::nullopt); }).verdict, Verdict::not_judged);
  }
}

TEST(Trolley, BoundsOfCoarsePosesHoldFineOnes) {
  const Layout layout = layout_of("sable_weir");
  const Rig coarse = solve(layout, {}, {80e-3, 4e-3}), fine = solve(layout, {}, {2.5e-3, 0.125e-3});
  for (const Check* check : pulls) {
    EXPECT_GE(only(*check, coarse).bound, only(*check, fine).value) << check->name;
    EXPECT_LE(only(*check, fine).value, only(*check, fine).bound) << check->name;
  }
  EXPECT_LT(only(pull_angle, fine).bound, only(pull_angle, fine).value + 0.01) << "halving narrows it";
}

TEST(TrolleyLift, AWheelLiftedOffFailsEvenWithoutALimit) {
  Rig rig = marten_ridge();
  rig.layout.limits.lift_share.reset();
  reeving::Reeving reeving = *rig.reeving.solved();
  reeving.sweeps[0].poses[0].pull_on_trolley_N = {0, 0, 1e4};
  rig.reeving.result = std::make_shared<const Solved<reeving::Reeving>>(reeving);
  const Finding finding = only(trolley_lift, rig);
  EXPECT_EQ(finding.verdict, Verdict::fail);
  EXPECT_NEAR(number(finding, "lift"), 1e4, 1e-8);
}

TEST(TrolleyPitch, TipsAtTheWheelbaseItNames) {
  const auto with = [](double wheelbase_m) {
    return found(trolley_pitch, [&](Layout& l) { l.brake_trolley.wheelbase_m = Real{wheelbase_m, {}}; });
  };
  const double wanted_m = number(with(0.3), "wanted");
  EXPECT_EQ(with(wanted_m * 0.999).verdict, Verdict::fail);
  EXPECT_EQ(with(wanted_m * 2).verdict, Verdict::pass);
  EXPECT_NEAR(with(wanted_m * 2).value, 0.5, 1e-12);
  const Finding none = found(trolley_pitch, [](Layout& l) { l.brake_trolley.wheelbase_m.reset(); });
  EXPECT_EQ(none.verdict, Verdict::not_judged);
  EXPECT_EQ(none.why, "no brake_trolley.wheelbase given");
}

// The advice holds: the rig solved again with the redirect moved as it says, the same excess no longer fails.
TEST(PullAngle, TheRedirectMovedAsAdvisedIsEnough) {
  constexpr double limit_rad = 25 * std::numbers::pi / 180;
  Layout layout = layout_of("marten_ridge");
  layout.brake_trolley.pull_angle = limit_at(limit_rad);
  const Finding before = only(pull_angle, solve(layout, {&marten_ridge()}));
  ASSERT_EQ(before.verdict, Verdict::fail);
  const double upstream_m = number(before, "upstream");
  const Item redirect = item(before, "redirect");
  Point3& centre = layout.sheaves[static_cast<std::size_t>(redirect.index)].position->value;
  centre = centre - upstream_m * marten_ridge().frame.along;
  const Finding after = only(pull_angle, solve(layout, {&marten_ridge()}));
  // The trolley settles a little otherwise under the flatter pull, and another pose may be the worst.
  EXPECT_NEAR(after.value, limit_rad, 1.5 * std::numbers::pi / 180);
  EXPECT_LT(after.value, before.value);
}

TEST(SidePull, NamesTheSideTheRedirectShouldMoveTo) {
  const auto aside = [](double left_m) {
    Layout layout = layout_of("marten_ridge");
    layout.brake_trolley.side_pull = limit_at(0.001);
    layout.sheaves[0].position->value = layout.sheaves[0].position->value + left_m * marten_ridge().frame.across;
    return only(side_pull, solve(layout, {&marten_ridge()}));
  };
  const Finding left = aside(0.3), right = aside(-0.3);
  EXPECT_EQ(fact(left, "side"), "to the right");
  EXPECT_EQ(fact(right, "side"), "to the left");
  EXPECT_NEAR(left.value, right.value, 1e-9) << "mirrored";
  EXPECT_GT(number(left, "move"), 0.25) << "nearly all of it";
}

TEST(Trolley, UnsolvedIsUndetermined) {
  Rig rig = marten_ridge();
  rig.reeving.result = std::make_shared<const Solved<reeving::Reeving>>(unsolved("slack"));
  for (const Check* check : pulls) EXPECT_EQ(only(*check, rig).verdict, Verdict::undetermined) << check->name;
}

}  // namespace
}  // namespace fairlead
