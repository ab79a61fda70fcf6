// Where the trolley rests, how legs hang at rest and how far lines are stretched.
#include "geometry/reeving/at_rest.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

Rest rest_at(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet) {
  const auto rest = rest_of(in, sweep, outlet);
  EXPECT_TRUE(rest) << (rest ? "" : rest.error().why);
  return rest ? *rest : Rest{NAN, NAN, NAN, NAN};
}

/// The worked line of the sweep that much warmer than it was measured: 12e-6 per K, steel.
SweepInputs warmer(SweepInputs sweep, double kelvin) {
  sweep.state.cable = mainline::at_temperature(sweep.state.cable, 12e-6, kelvin);
  return sweep;
}

// Straight level parts pay out a metre a metre; half a metre more or less of line at the unit is half a metre of
// travel. The main line rises by 5e-8 m on the way, which tilts the leg by less than 1e-8.
TEST(Rest, AtOneToOneTheTrolleyMovesByWhatIsMissing) {
  const Inputs in = level_rig(0);
  const Outlet settled = outlet_of(in, 0);
  for (const double longer_m : {-0.5, -0.01, 0.01, 0.3}) {
    Outlet outlet = settled;
    outlet.unstretched_m[0] += longer_m;
    const Rest rest = rest_at(in, in.sweeps[0], outlet);
    EXPECT_NEAR(rest.extension_m, 0.5 - longer_m, 1e-10) << "at the mark";
    EXPECT_NEAR(rest.shift_m, longer_m, 1e-9);
    EXPECT_NEAR(rest.outlet_tension_N, 25, 1e-9);
    EXPECT_NEAR(rest.trolley_tension_N, 25, 1e-8);
  }
}

TEST(Rest, AsMeasuredItIsTheMark) {
  for (const Inputs& in : {worked_rig(), skew_rig(), three_to_one(), skew_reduction({.parts = 2, .carried = false})}) {
    const Rest rest = rest_at(in, in.sweeps[0], outlet_of(in, 0));
    EXPECT_NEAR(rest.extension_m, in.rest_extension_m, 1e-10);
    EXPECT_NEAR(rest.shift_m, 0, 1e-9);
  }
}

// The redirect stands upstream of and above the mark: a line that sags more takes the trolley away from it, so more is
// out at the mark and the rest extension is out upstream of it; a tauter line the other way.
TEST(Rest, AWarmLineLetsTheTrolleyRestUpstreamOfItsMarkAndAColdOneDownstream) {
  for (const Inputs& in : {worked_rig(), skew_rig(), two_to_one(), four_to_one()}) {
    const Outlet outlet = outlet_of(in, 0);
    const Rest warm = rest_at(in, warmer(in.sweeps[0], 20), outlet),
               cold = rest_at(in, warmer(in.sweeps[0], -20), outlet);
    EXPECT_GT(warm.extension_m, in.rest_extension_m);
    EXPECT_LT(warm.shift_m, 0);
    EXPECT_LT(cold.extension_m, in.rest_extension_m);
    EXPECT_GT(cold.shift_m, 0);
  }
}

// The line out follows from the pay-out on the way, which lies between those at both ends of so short a way.
TEST(Rest, IsTheChangeOfExtensionOverThePayOutAtTheMarkToFirstOrder) {
  for (const Inputs& in : {worked_rig(), skew_rig(), two_to_one_floating(), three_to_one()})
    for (const double kelvin : {-25.0, -5.0, 5.0, 25.0}) {
      const SweepInputs sweep = warmer(in.sweeps[0], kelvin);
      const Outlet outlet = outlet_of(in, 0);
      const Rest rest = rest_at(in, sweep, outlet);
      Inputs moved = in;
      moved.rest_m += rest.shift_m;
      const auto mark = solve_pose(in, sweep, outlet, 0), there = solve_pose(moved, sweep, outlet, 0);
      ASSERT_TRUE(mark && there);
      const double more_m = mark->pose.extension_m - in.rest_extension_m;
      const double here = -more_m / mark->pose.pay_out, beyond = -more_m / there->pose.pay_out;
      EXPECT_GE(rest.shift_m, std::min(here, beyond) - 1e-9);
      EXPECT_LE(rest.shift_m, std::max(here, beyond) + 1e-9);
      const double change = std::abs(there->pose.pay_out - mark->pose.pay_out),
                   least = std::min(there->pose.pay_out, mark->pose.pay_out);
      EXPECT_LE(std::abs(rest.shift_m - here), change * std::abs(rest.shift_m) / least + 1e-9);
      if (rest.shift_m < 0) continue;
      const auto travelled = solve_pose(in, sweep, outlet, rest.shift_m);
      ASSERT_TRUE(travelled);
      EXPECT_NEAR(travelled->pose.extension_m, in.rest_extension_m, 1e-9) << "a trolley that travels there";
    }
}

TEST(Rest, TheMirroredRigRestsAtTheSamePlace) {
  const auto flipped = [](auto v) {
    v.y = -v.y;
    return v;
  };
  const Inputs in = skew_rig();
  Inputs mirrored = in;
  mirrored.attachment = flipped(in.attachment);
  mirrored.outlet_axis = flipped(in.outlet_axis);
  mirrored.lines[0].to.at = flipped(in.lines[0].to.at);
  // A turn is turned over by the mirror, so that the sense about the axle stays.
  for (Sheave& s : mirrored.sheaves) s.centre = flipped(s.centre), s.axle = -flipped(s.axle);
  for (const double kelvin : {-15.0, 15.0}) {
    const Rest rest = rest_at(in, warmer(in.sweeps[0], kelvin), outlet_of(in, 0)),
               other = rest_at(mirrored, warmer(mirrored.sweeps[0], kelvin), outlet_of(mirrored, 0));
    EXPECT_NEAR(rest.shift_m, other.shift_m, 1e-9);
    EXPECT_NEAR(rest.trolley_tension_N, other.trolley_tension_N, 1e-7);
  }
}

// Its leg is 2.0 m long, and 1.1 m above it the redirect is as near as it comes.
TEST(Rest, WhereNoPlaceHasTheRestExtensionThereIsNone) {
  const Inputs in = worked_rig();
  Outlet outlet = outlet_of(in, 0);
  outlet.unstretched_m[0] -= 1.5;
  const auto rest = rest_of(in, in.sweeps[0], outlet);
  ASSERT_FALSE(rest);
  EXPECT_NE(rest.error().why.find("near its mark the trolley stands nowhere with 0.200 m of line out"),
            std::string::npos)
      << rest.error().why;
}

TEST(Rest, EveryStateIsToldAsMeasuredFirstAndFrictionHoldsTheTrolleyBetweenTwoOfThem) {
  Inputs in = worked_rig();
  in.sweeps = {warmer(in.sweeps[0], -20), warmer(in.sweeps[0], 20)};
  const auto free = solve(in);
  ASSERT_TRUE(free) << free.error().why;
  ASSERT_EQ(free->rest.size(), 3u);
  EXPECT_TRUE(free->rest[0].measured);
  EXPECT_NEAR(free->rest[0].rest->shift_m, 0, 1e-9);
  for (std::size_t i : {1u, 2u}) {
    EXPECT_FALSE(free->rest[i].measured);
    EXPECT_EQ(free->rest[i].sweep, static_cast<int>(i) - 1);
    const Sweep& sweep = free->sweeps[i - 1];
    const Pose& mark = sweep.poses[static_cast<std::size_t>(sweep.rest_pose)];
    EXPECT_NEAR(free->rest[i].rest->extension_m, mark.extension_m, 1e-10);
    EXPECT_NEAR(free->rest[i].rest->trolley_tension_N, mark.trolley_tension_N, 1e-7);
  }
  in.sheaves[0].friction = 1.04;
  std::vector<SweepInputs> both;
  for (SweepInputs s : in.sweeps)
    for (const Friction way : {Friction::returning, Friction::paying_out}) {
      s.friction = way;
      both.push_back(s);
    }
  in.sweeps = both;
  const auto rubbing = solve(in);
  ASSERT_TRUE(rubbing) << rubbing.error().why;
  ASSERT_EQ(rubbing->rest.size(), 6u) << "both ends as measured, cold and warm";
  for (std::size_t i = 0; i < 6; i += 2) {
    ASSERT_TRUE(rubbing->rest[i].rest && rubbing->rest[i + 1].rest);
    const Rest &back = *rubbing->rest[i].rest, &out = *rubbing->rest[i + 1].rest, &between = *free->rest[i / 2].rest;
    EXPECT_LT(back.trolley_tension_N, between.trolley_tension_N);
    EXPECT_GT(out.trolley_tension_N, between.trolley_tension_N);
    // The unit pulls its own; the trolley's leg, pulled harder, sags less and lifts the trolley: for the same line it
    // goes farther.
    EXPECT_LT(back.shift_m, between.shift_m);
    EXPECT_GT(out.shift_m, between.shift_m);
  }
}

// A line at one tension T is longer by T L / EA than without: legs of 12 and 20 m and half a turn of 60 mm. Its length
// at rest is known to the 1e-7 m that the main line gives, stretch to 25 N / EA of that.
TEST(Stretch, OfAStraightLineIsItsTensionTimesItsLengthOverItsStiffness) {
  for (const double ea_N : {40e3, 80e3, 1e6}) {
    Inputs in = level_rig(0);
    in.lines[0].compliance_per_N = 1 / ea_N;
    in.sweeps.push_back({0, in.reference, in.reference, 400, 600, Running::paying_out});
    const auto solved = solve(in);
    ASSERT_TRUE(solved) << solved.error().why;
    const double length_m = 12 + 20 + 0.06 * std::numbers::pi, rest_m = 25 * length_m / ea_N;
    const Stretch& stretch = solved->stretch[0];
    EXPECT_NEAR(stretch.at_rest_m, rest_m, 1e-7 * 25 / ea_N + 1e-11);
    EXPECT_EQ(stretch.sweep, 1) << "where the unit pulls its most";
    const Sweep& sweep = solved->sweeps[1];
    EXPECT_EQ(stretch.pose, static_cast<int>(sweep.poses.size()) - 1) << "and most of it is out";
    // The trolley has gone a metre downstream; the pull lifts it by less than 1e-5 m.
    const double greatest_m = solved->peak_tension_N * (length_m + in.travel_m) / ea_N;
    EXPECT_NEAR(stretch.greatest_m, greatest_m, 1e-5 * solved->peak_tension_N / ea_N);
  }
  const auto stiff = solve(level_rig(0));
  ASSERT_TRUE(stiff);
  EXPECT_EQ(stiff->stretch[0].at_rest_m, 0) << "without a stiffness it does not stretch";
  EXPECT_EQ(stiff->stretch[0].greatest_m, 0);
}

// A heavy line to a unit 10 m below: its tension falls by 12 N of 57 on the way. A millimetre of travel lengthens its
// 33 m by less than a millimetre and turns its first leg by less than a thousandth, under a pull that stays the same.
TEST(Stretch, OfAHeavyLineTheMeanOfEachLegCountsAsItDoesForItsLength) {
  Inputs in = worked_rig();
  in.lines[0].to.at.z -= 10;
  in.lines[0].compliance_per_N = 1 / 40e3;
  in.unit.retraction_N = Curve({{0, 45}, {30, 45}});
  in.travel_m = 1e-3;
  in.sweeps.resize(1);
  const auto solved = solve(in);
  ASSERT_TRUE(solved) << solved.error().why;
  const Stretch& stretch = solved->stretch[0];
  EXPECT_GT(stretch.at_rest_m, 45 * 33 / 40e3);
  EXPECT_NEAR(stretch.greatest_m, stretch.at_rest_m, 1e-3 * stretch.at_rest_m);
}

// The catenary y = (H/w) cosh(w x / H) over a level chord.
TEST(RestingLegs, ALevelLegHangsByTheCatenarysSag) {
  const double w = 1.2;
  const Inputs in = level_rig(w);
  const auto solved = solve(in);
  ASSERT_TRUE(solved) << solved.error().why;
  const RestingLeg& leg = solved->resting_legs[1];
  const Leg& hung = solved->sweeps[0].legs[1];
  const double d = hung.to.x - hung.from.x, rise = hung.to.z - hung.from.z, H = leg.horizontal_N;
  ASSERT_LT(std::abs(rise), 2e-2) << "the contact turns a little where the leg sags";
  // Over a chord of slope s the same catenary's drop is greater by no more than s^2 / 2 of itself.
  const double level_m = H / w * (std::cosh(w * d / (2 * H)) - 1);
  EXPECT_NEAR(leg.sag_m, level_m, level_m * rise * rise / (d * d) + 1e-9);
  EXPECT_NEAR(leg.square_sag_m, leg.sag_m * d / std::hypot(d, rise), 1e-9);
  EXPECT_GT(leg.sag_m, 1.02 * w * d * d / (8 * 25)) << "the parabola of a taut line reads low";
  EXPECT_EQ(leg.wind_sweep, -1);
}

// Source WR [own]: sag square to the chord is the vertical one times the cosine of the chord's slope.
TEST(RestingLegs, SquareToASteepChordTheSagIsLess) {
  const auto solved = solve(worked_rig());
  ASSERT_TRUE(solved) << solved.error().why;
  for (std::size_t i = 0; i < 2; ++i) {
    const RestingLeg& leg = solved->resting_legs[i];
    const Sweep& sweep = solved->sweeps[static_cast<std::size_t>(leg.sweep)];
    const Leg& hung = sweep.legs[static_cast<std::size_t>(leg.pose) * 2 + i];
    EXPECT_LE(sweep.poses[static_cast<std::size_t>(leg.pose)].travel_m, 0);
    EXPECT_EQ(sweep.running, Running::at_rest);
    const Vec3 chord = hung.to - hung.from;
    EXPECT_NEAR(leg.square_sag_m, hung.sag_m * std::hypot(chord.x, chord.y) / norm(chord), 1e-12);
    for (const Sweep& other : solved->sweeps)
      for (std::size_t p = 0; p < other.poses.size() && other.running == Running::at_rest; ++p)
        if (other.poses[p].travel_m <= 0) {
          EXPECT_GE(leg.sag_m, other.legs[p * 2 + i].sag_m);
        }
  }
}

// Source BLOW (own; drag coefficient 1.2, common practice, no source): 8 mm, 12 m, 15 m/s, 25 N: w L^2 / 8T is 0.95 m.
// That is the parabola; with h / cosh h = w L / 2T, the catenary's (L / 2h)(cosh h - 1) is 1.0162 m (own, by
// bisection).
TEST(RestingLegs, ASideWindBlowsALegOutByTheCatenaryOnItsSide) {
  Inputs in = level_rig(1e-9);
  SweepInputs windy = in.sweeps[0];
  windy.wind_Pa = 0.5 * 1.225 * 15 * 15 * 1.2 * in.across;
  const double w = 8e-3 * norm(windy.wind_Pa);
  EXPECT_NEAR(w * 12 * 12 / (8 * 25), 0.95, 5e-3);
  in.sweeps.push_back(windy);
  const auto solved = solve(in);
  ASSERT_TRUE(solved) << solved.error().why;
  const RestingLeg& leg = solved->resting_legs[0];
  EXPECT_EQ(leg.wind_sweep, 1);
  EXPECT_EQ(leg.sweep, 0);
  double h = 0.3;
  for (int i = 0; i < 60; ++i) h = w * 12 / (2 * 25) * std::cosh(h);
  const double catenary_m = 12 / (2 * h) * (std::cosh(h) - 1);
  EXPECT_NEAR(catenary_m, 1.0162, 5e-5);
  // Where the leg leaves the sheave askew its end moves along by r (1 - cos of 18 degrees) at most, 3 mm, and as far
  // up.
  EXPECT_NEAR(leg.blow_out_m, catenary_m, catenary_m * 3 * 3e-3 / 12);
  EXPECT_LT(leg.sag_m, 1e-6) << "in still air it hangs straight";
}

}  // namespace
}  // namespace fairlead::reeving
