#include <gtest/gtest.h>

#include "tests/loads/reduced.hpp"

namespace fairlead::loads {
namespace {

/// Every place and direction of a rig mapped; turning senses reversed where the map mirrors.
reeving::Inputs mapped(reeving::Inputs in, double across_sign, Vec3 shift) {
  const auto turn = [&](Vec3 v) { return Vec3{v.x, across_sign * v.y, v.z}; };
  const auto move = [&](Point3 p) { return Point3{} + turn(p - Point3{}) + shift; };
  in.origin = move(in.origin);
  in.attachment = turn(in.attachment);
  in.outlet_axis = turn(in.outlet_axis);
  for (reeving::Sheave& s : in.sheaves) {
    s.centre = move(s.centre);
    s.axle = turn(s.axle);
    if (across_sign < 0) s.sense = -s.sense;
  }
  for (reeving::Line& l : in.lines) l.from.at = move(l.from.at), l.to.at = move(l.to.at);
  for (reeving::Block& b : in.blocks) b.drawn = move(b.drawn), b.centre_of_mass = move(b.centre_of_mass);
  return in;
}

/// A 2:1 askew on its support line, so that nothing vanishes for want of a third dimension.
reeving::Inputs askew() { return rig_of(2, true, 0.12, true); }

std::vector<std::pair<const char*, Extreme>> all_of(const Loads& loads) {
  std::vector<std::pair<const char*, Extreme>> all;
  for (const Demand& d : loads.demands) all.push_back({"anchor", d.force_N});
  for (const LineDemand& d : loads.lines)
    all.insert(all.end(), {{"line", d.tension_N}, {"from", d.from_N}, {"to", d.to_N}});
  for (const Demand& d : loads.sheaves) all.push_back({"sheave", d.force_N});
  for (const BlockDemand& d : loads.blocks) all.insert(all.end(), {{"block", d.force_N}, {"lean", d.lean_N_m}});
  all.push_back({"main line", loads.main_line.force_N});
  return all;
}

/// Every demand of `other` is `factor` times its own, to a share of it.
void expect_alike(const Loads& own, const Loads& other, double factor, double share) {
  const auto a = all_of(own), b = all_of(other);
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_NEAR(b[i].second.value, factor * a[i].second.value, share * factor * (1 + a[i].second.value))
        << a[i].first << ", number " << i;
  }
}

// Poses are solved to 1e-11 of the weights and 1e-10 m; the unit's spring is 32 N/m and the bounds that place the poses
// differ in their last digits alone.
TEST(Laws, AMirroredRigCarriesTheMirroredLoads) {
  const Reduced own = reduced(askew()), mirrored = reduced(mapped(askew(), -1, {}));
  const Loads here = loads_of(own), there = loads_of(mirrored);
  expect_alike(here, there, 1, 1e-7);
  EXPECT_GT(std::abs(here.cases[0].on_anchor_N[secondary].y), 0.1) << "the rig is askew";
  EXPECT_NEAR(here.cases[0].on_anchor_N[secondary].y, -there.cases[0].on_anchor_N[secondary].y, 1e-6);
}

// 500 km away a double knows a place to 6e-11 m.
TEST(Laws, ARigFarFromTheDatumCarriesTheSame) {
  const Loads here = loads_of(reduced(askew())), there = loads_of(reduced(mapped(askew(), 1, {4e5, -3e5, 0})));
  expect_alike(here, there, 1, 1e-6);
}

// Lengths stay, forces double, when everything that weighs or pulls doubles and every line is twice as stiff.
TEST(Laws, TwiceTheWeightsAndPullsAreTwiceTheLoads) {
  Reduced twice = reduced(askew());
  const Loads own = loads_of(twice);
  reeving::Inputs in = askew();
  const auto double_cable = [](mainline::Cable& c) { c.weight_N_per_m *= 2, c.compliance_per_N /= 2; };
  double_cable(in.reference.cable);
  for (reeving::SweepInputs& s : in.sweeps) {
    double_cable(s.state.cable);
    double_cable(s.reference.cable);
    s.trolley_weight_N *= 2;
    s.rider_weight_N *= 2;
  }
  for (reeving::Line& l : in.lines) l.weight_N_per_m *= 2, l.compliance_per_N /= 2;
  for (reeving::Block& b : in.blocks) b.weight_N *= 2;
  std::vector<CurvePoint> points = in.unit.retraction_N.points();
  for (CurvePoint& p : points) p.y *= 2;
  in.unit.retraction_N = Curve(points);
  std::get<reeving::EddyLaw>(in.unit.magnetic_N).peak_N *= 2;
  for (reeving::SweepInputs& s : in.sweeps)
    s.path = s.rider_weight_N == 0 ? 0 : s.rider_weight_N < 100 * standard_gravity ? 1 : 2;
  in.sweeps.push_back(in.sweeps[3]);
  in.sweeps.back().path = 5;
  auto reeved = reeving::solve(in);
  ASSERT_TRUE(reeved.has_value()) << reeved.error().why;
  twice.reeving = in;
  twice.reeved = std::move(*reeved);
  twice.held.unit_weight_N *= 2;
  expect_alike(own, loads_of(twice), 2, 1e-7);
}

// Poses four times as far apart may not show the worst, but their bounds must hold it; the retraction has a kink.
TEST(Laws, TheBoundsOfCoarseSweepsHoldWhatFineOnesShow) {
  for (const int n : {1, 2, 3}) {
    reeving::Inputs in = rig_of(n, true, 0.12, n > 1);
    in.unit.retraction_N = Curve({{0, 40.0 * n}, {5.0 / n, 60.0 * n}, {30, 700.0 * n}});
    reeving::Inputs coarse = in, fine = in;
    coarse.length_resolution_m = 80e-3, coarse.angle_resolution_rad = 4e-3;
    fine.length_resolution_m = 5e-3;
    const Reduced few = reduced(coarse), many = reduced(fine);
    ASSERT_LT(2 * few.reeved.sweeps[4].poses.size(), many.reeved.sweeps[4].poses.size());
    const auto bounds = all_of(loads_of(few)), values = all_of(loads_of(many));
    for (std::size_t i = 0; i < values.size(); ++i) {
      EXPECT_GE(bounds[i].second.bound * (1 + 1e-9), values[i].second.value)
          << n << ":1, " << values[i].first << ", number " << i;
      EXPECT_LE(bounds[i].second.bound, 1.02 * values[i].second.value + 1)
          << n << ":1, " << values[i].first << ", number " << i << ": a bound this wide judges nothing";
    }
  }
}

}  // namespace
}  // namespace fairlead::loads
