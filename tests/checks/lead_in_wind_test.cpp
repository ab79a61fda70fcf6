// How a side wind turns a line at rest off its sheave and off the brake unit's outlet.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

/// Heron Gully's rig, blown from the side at 10 m/s. Its redirect has no limit of its own in the wind.
Finding at_outlet(const Rig& rig) { return about(findings_of(lead_in_wind, rig), {Item::Kind::brake_unit, 0}); }

TEST(LeadInWind, AtTheOutletIsHalfTheWindOnTheLegOverItsTension) {
  const Rig rig = solve(layout_of("heron_gully"));
  const Finding finding = at_outlet(rig);
  ASSERT_EQ(finding.verdict, Verdict::pass);
  // Moments about the redirect: across, the outlet holds half of the wind on the straight line between them; on the
  // line itself, which is longer, more by less than 8/3 (sag / span)^2 = 0.6 %.
  // Drag coefficient of a cylinder 1.2 (common practice, no source); dry air at 330 m in the standard atmosphere (ISO
  // 2533), at -15 C.
  const double density_kg_per_m3 = 1.315;
  const double wind_N_per_m = 0.5 * density_kg_per_m3 * 10 * 10 * 1.2 * 0.008;
  const Vec3 redirect{1348.000, 911.000, 331.400}, outlet{1371.200, 928.400, 332.500};
  const reeving::Reeving& reeving = *rig.reeving.solved();
  double tension_N = 0, still_rad = 0;
  for (std::size_t s = 0; s < reeving.sweeps.size(); ++s) {
    const reeving::Sweep& sweep = reeving.sweeps[s];
    if (sweep.in_wind && sweep.lead_rad.value == finding.value)
      tension_N = sweep.poses[static_cast<std::size_t>(sweep.lead_rad.pose)].outlet_tension_N;
    if (!sweep.in_wind) still_rad = std::max(still_rad, sweep.lead_rad.value);
  }
  ASSERT_GT(tension_N, 0);
  const double across_rad = std::asin(wind_N_per_m * norm(outlet - redirect) / 2 / tension_N);
  // The axis itself is off the line in still air, in the vertical plane for the most part: the angles add at most.
  EXPECT_GE(finding.value, across_rad * (1 - 0.006));
  EXPECT_LE(finding.value, across_rad * (1 + 0.006) + still_rad);
}

TEST(LeadInWind, IsTheSameFromEitherSideOfARigInOnePlane) {
  const Rig rig = solve(layout_of("heron_gully"));
  double left = 0, right = 0;
  for (const reeving::Sweep& sweep : rig.reeving.solved()->sweeps) {
    if (!sweep.in_wind) continue;
    const auto s = static_cast<std::size_t>(&sweep - rig.reeving.solved()->sweeps.data());
    const bool to_left = dot(rig.reeving.inputs->sweeps[s].wind_Pa, rig.frame.across) > 0;
    (to_left ? left : right) = std::max(to_left ? left : right, sweep.fleet_rad[0].value);
  }
  EXPECT_GT(left, 0.1);
  EXPECT_NEAR(left, right, 1e-6);
}

TEST(LeadInWind, FailsAboveItsLimitAndIsNotJudgedWithoutOne) {
  const Rig rig = solve(layout_of("heron_gully", {{"limits.lead_in_wind.at", R"("8 deg")"}}));
  for (const Finding& finding : findings_of(lead_in_wind, rig)) EXPECT_EQ(finding.verdict, Verdict::fail);
  Layout none = layout_of("heron_gully");
  none.limits.lead_in_wind_rad.reset();
  const auto findings = findings_of(lead_in_wind, solve(none));
  ASSERT_EQ(findings.size(), 2U) << "the redirect and the outlet";
  for (const Finding& finding : findings) EXPECT_EQ(finding.verdict, Verdict::not_judged);
}

TEST(LeadInWind, OfALineThatIsNotSolvedIsUndetermined) {
  const Rig rig = solve(layout_of("marten_ridge_downstream"));
  ASSERT_FALSE(rig.reeving.solved());
  for (const Finding& finding : findings_of(lead_in_wind, rig)) EXPECT_EQ(finding.verdict, Verdict::undetermined);
}

TEST(LeadInWind, WithoutASideWindThereIsNothingToJudge) {
  Layout still = layout_of("heron_gully");
  still.site.wind_across_m_per_s.reset();
  EXPECT_TRUE(findings_of(lead_in_wind, solve(still)).empty());
}

}  // namespace
}  // namespace fairlead
