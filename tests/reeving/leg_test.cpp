// One leg as an inextensible catenary.
#include "geometry/reeving/leg.hpp"

#include <gtest/gtest.h>

#include "geometry/reeving/sweep.hpp"
#include "tests/reeving/rigs.hpp"

namespace fairlead::reeving {
namespace {

Leg leg_of(const Catenary& c) {
  return {.from = {},
          .to = Point3{} + c.span,
          .length_m = c.length_m,
          .sag_m = c.sag_m(),
          .from_tension_N = 0,
          .to_tension_N = 0,
          .H_N = c.horizontal_N(),
          .weight_N = c.weight_N_per_m * c.length_m,
          .load_N_per_m = -c.weight_N_per_m * c.up};
}

// Source R3.08.05 [read; own digits]: span 100 m, 30 N/m, end tension 5000 N: sag 7.941 m printed, 7.940537 m own,
// H 4761.784 N; the slack root has H 501.706 N. Half of the last digit.
TEST(Leg, OfTwoRootsForAnEndTensionTheTautOneIsFound) {
  const auto leg = hang_leg({100, 0, 0}, 5000, 30);
  ASSERT_TRUE(leg);
  EXPECT_NEAR(leg->sag_m(), 7.940537, 5e-7);
  EXPECT_NEAR(leg->horizontal_N(), 4761.784, 5e-4);
}

// A level leg hangs only up to w d / 2T = max h / cosh h = 0.6627434 (own: h tanh h = 1).
TEST(Leg, WhereNeitherRootExistsThereIsNoLeg) {
  const double greatest = 0.6627434193491815;
  EXPECT_TRUE(hang_leg({100, 0, 0}, 1.000001 * 50 * 30 / greatest, 30));
  EXPECT_FALSE(hang_leg({100, 0, 0}, 0.999999 * 50 * 30 / greatest, 30));
  EXPECT_FALSE(hang_leg({100, 0, 0}, 0, 30));
  EXPECT_FALSE(hang_leg({100, 0, 0}, -5000, 30));
  EXPECT_FALSE(hang_leg({10, 0, 40}, 590, 30)) << "the lower end would have to push";
  EXPECT_FALSE(hang_leg({0, 0, 0}, 590, 30));
  EXPECT_FALSE(hang_leg({std::nan(""), 0, 1}, 590, 30));
}

TEST(Leg, ItsEndsAndWeightAreInEquilibriumFromBarTautToTheFold) {
  for (const Vec3 span : {Vec3{30, 0, 0}, Vec3{20, -8, 5}, Vec3{0.2, 0.1, -9}, Vec3{0, 0, 4}})
    for (const double w : {0.0, 1e-6, 0.3, 1.4}) {
      const auto leg = hang_leg(span, 45, w);
      ASSERT_TRUE(leg);
      const Vec3 sum = leg->from_pull_N() + leg->to_pull_N() + Vec3{0, 0, w * leg->length_m};
      EXPECT_NEAR(norm(sum), 0, 45e-13);
      EXPECT_NEAR(norm(leg->from_pull_N()), leg->from_tension_N(), 45e-12);
      EXPECT_NEAR(norm(leg->to_pull_N()), leg->to_tension_N(), 45e-12);
      EXPECT_NEAR(leg->to_tension_N() - leg->from_tension_N(), w * span.z, 45e-13);
    }
}

TEST(Leg, PullsLeastAtItsLowestPoint) {
  const auto level = hang_leg({20, 0, 0}, 45, 1), steep = hang_leg({5, 0, -9}, 45, 1);
  ASSERT_TRUE(level && steep);
  EXPECT_EQ(level->least_tension_N(), level->horizontal_N()) << "it hangs lowest half way";
  EXPECT_LT(level->least_tension_N(), level->from_tension_N());
  EXPECT_EQ(steep->least_tension_N(), steep->to_tension_N()) << "its lower end is its lowest point";
}

TEST(Leg, WithoutWeightItIsTheChord) {
  const auto leg = hang_leg({3, 4, 12}, 50, 0);
  ASSERT_TRUE(leg);
  EXPECT_DOUBLE_EQ(leg->length_m, 13);
  EXPECT_EQ(leg->sag_m(), 0);
  EXPECT_NEAR(leg->horizontal_N(), 50 * 5.0 / 13, 1e-13);
}

// The drawn points know nothing of the solution but ends, H and weight; their polygon must have its length and sag.
TEST(Leg, TheDrawnCurveHasTheLegsLengthAndSag) {
  const auto leg = hang_leg({28, 3, 4}, 45, 1.2);
  ASSERT_TRUE(leg);
  constexpr int points = 4001;
  const auto curve = hanging_curve(leg_of(*leg), points);
  ASSERT_EQ(curve.size(), static_cast<std::size_t>(points));
  double length = 0, sag = 0;
  for (std::size_t i = 0; i < points; ++i) {
    if (i > 0) length += norm(curve[i] - curve[i - 1]);
    sag = std::max(sag, 4.0 * static_cast<double>(i) / (points - 1) - curve[i].z);
  }
  // Chords of 7 mm on a line bent by w/H = 0.03 /m: short by L (7e-3 * 0.03)^2 / 24, lost sag 0.03 (3.5e-3)^2 / 2.
  EXPECT_NEAR(length, leg->length_m, 1e-7);
  EXPECT_NEAR(sag, leg->sag_m(), 3e-7);
  EXPECT_EQ(curve.front(), (Point3{0, 0, 0}));
  EXPECT_EQ(curve.back(), (Point3{28, 3, 4}));
  const auto plumb = hanging_curve(leg_of(*hang_leg({0, 0, 4}, 45, 1.2)), 3);
  EXPECT_EQ(plumb[1], (Point3{0, 0, 2}));
}

// Source WR [own]: resting legs of 28 to 31 m at 44 to 45 N sag 2.9 to 3.6 m, and there the parabola
// w L^2 cos a / 8T reads 9 to 13 % low. The line's weight is not stated: here the one that gives the sag.
TEST(Leg, TheParabolaReadsARestingLegsSagLowByATenth) {
  struct Case {
    double length_m, tension_N, sag_m;
  };
  for (const Case& c : {Case{28, 45, 2.9}, Case{31, 44, 3.6}}) {
    double light = 0, heavy = 1.4;
    for (int i = 0; i < 60; ++i) {
      const double w = (light + heavy) / 2;
      const auto leg = hang_leg({c.length_m, 0, 0}, c.tension_N, w);
      ASSERT_TRUE(leg);
      (leg->sag_m() < c.sag_m ? light : heavy) = w;
    }
    EXPECT_NEAR(light / g, 0.122, 0.004) << "an ordinary braking line, kg/m";
    const double parabola = light * c.length_m * c.length_m / (8 * c.tension_N);
    EXPECT_GT(1 - parabola / c.sag_m, 0.09);
    EXPECT_LT(1 - parabola / c.sag_m, 0.13);
  }
}

TEST(Leg, ItsDerivativesAreThoseOfDifferences) {
  for (const Vec3 span : {Vec3{28, 3, 4}, Vec3{1.7, 0.1, -1}, Vec3{0.05, 0, -1.7}})
    for (const double w : {0.0, 1.2}) {
      const auto leg = hang_leg(span, 47, w);
      ASSERT_TRUE(leg);
      const Vec3 move{0.3, -0.2, 0.7};
      constexpr double e = 1e-5;
      const auto up = hang_leg(span + e * move, 47 + e * 0.4, w), down = hang_leg(span - e * move, 47 - e * 0.4, w);
      const LegChange change = vary(*leg, move, 0.4);
      // Third derivatives are under T / l^3 = 16: e^2 16 / 6 = 3e-10, and rounding 47 e-16 / e.
      EXPECT_NEAR(change.length_m, (up->length_m - down->length_m) / (2 * e), 2e-9);
      EXPECT_NEAR(norm(change.from_pull_N - (1 / (2 * e)) * (up->from_pull_N() - down->from_pull_N())), 0, 2e-8);
      EXPECT_NEAR(norm(change.to_pull_N - (1 / (2 * e)) * (up->to_pull_N() - down->to_pull_N())), 0, 2e-8);
    }
}

// Weight and side wind together are a load in one direction: the leg is one of a site tilted so that this is down.
TEST(Leg, AgainstATiltedLoadItIsTheSameLegTilted) {
  const double c = 0.8, s = 0.6;  // of the tilt, about x
  const auto tilted = [&](Vec3 v) { return Vec3{v.x, c * v.y - s * v.z, s * v.y + c * v.z}; };
  const Vec3 span{28, 3, 4}, move{0.3, -0.2, 0.7};
  const auto leg = hang_leg(span, 45, 1.2), aslant = hang_leg(tilted(span), 45, 1.2, tilted({0, 0, 1}));
  ASSERT_TRUE(leg && aslant);
  EXPECT_NEAR(aslant->length_m, leg->length_m, 1e-12);
  EXPECT_NEAR(aslant->sag_m(), leg->sag_m(), 1e-12);
  EXPECT_NEAR(norm(aslant->from_pull_N() - tilted(leg->from_pull_N())), 0, 1e-12 * 45);
  EXPECT_NEAR(aslant->to_tension_N(), leg->to_tension_N(), 1e-12 * 45);
  const LegChange change = vary(*leg, move, 0.4), slanted = vary(*aslant, tilted(move), 0.4);
  EXPECT_NEAR(slanted.length_m, change.length_m, 1e-12);
  EXPECT_NEAR(norm(slanted.to_pull_N - tilted(change.to_pull_N)), 0, 1e-11);
  const auto curve = hanging_curve(leg_of(*leg), 5), slant = hanging_curve(leg_of(*aslant), 5);
  for (int i = 0; i < 5; ++i) EXPECT_NEAR(norm(tilted(curve[i] - Point3{}) - (slant[i] - Point3{})), 0, 1e-12) << i;
}

TEST(Leg, TwiceTheSizeAtTwiceTheTensionIsTheSameShape) {
  const auto one = hang_leg({28, 3, 4}, 45, 1.2), two = hang_leg({56, 6, 8}, 90, 1.2);
  EXPECT_NEAR(two->length_m, 2 * one->length_m, 1e-12);
  EXPECT_NEAR(two->sag_m(), 2 * one->sag_m(), 1e-12);
}

}  // namespace
}  // namespace fairlead::reeving
