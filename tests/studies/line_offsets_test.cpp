#include "geometry/studies/line_offsets.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

Point3 anchor_of(const Rig& rig, const std::string& id) {
  for (const Anchor& anchor : rig.layout.anchors)
    if (anchor.id.value == id) return anchor.position;
  throw std::runtime_error("no anchor " + id);
}

LineOffset offset(const Rig& rig, Point3 at) {
  const auto solved = offset_from_line(rig, at);
  if (!solved) throw std::runtime_error(solved.error().why);
  return *solved;
}

const Rig& demo_rig() {
  static const Rig rig = solve(demo_layout());
  return rig;
}

// Rounding of heights and places about 1e3 m from the datum, a few ulp of 2e-13 m through a handful of operations.
constexpr double rounding_m = 1e-10;

// Own computation, closed form: a level parabola of equal sag fits a taut catenary to (sag/span)^2 of the sag. The demo
// line hangs 18 kN at its end over 220 m and weighs 1.05 kg/m: H is within 0.5 % of 18 kN, sag w span^2 / 8 H = 3.46 m
// +- 1 %. At mid-span the point on the chord is so much above the line.
TEST(LineOffset, TheMiddleOfTheChordStandsTheSagAboveTheLine) {
  const Rig& rig = demo_rig();
  const Point3 start = anchor_of(rig, "P1"), end = anchor_of(rig, "P2");
  const LineOffset middle = offset(rig, start + 0.5 * (end - start));
  EXPECT_NEAR(middle.up_m, 1.05 * 9.80665 * 220 * 220 / 8 / 18e3, 0.035);
  EXPECT_NEAR(middle.across_m, 0, rounding_m);
  EXPECT_NEAR(middle.from_rest_m, 110 - 188, rounding_m);
}

TEST(LineOffset, APlaceOnTheLineHasNoHeightAndItsSupportsLieOnIt) {
  const Rig& rig = demo_rig();
  for (const char* support : {"P1", "P2"}) {
    const LineOffset at = offset(rig, anchor_of(rig, support));
    EXPECT_NEAR(at.up_m, 0, 1e-8) << support << ": the bare line meets its support to 1e-12 of its length";
    EXPECT_NEAR(at.across_m, 0, rounding_m);
  }
  const Point3 redirect = anchor_of(rig, "A3");
  const Point3 under = redirect - offset(rig, redirect).up_m * rig.frame.up;
  EXPECT_NEAR(offset(rig, under).up_m, 0, rounding_m);
}

TEST(LineOffset, MovingAPlaceMovesItsOffsetsByAsMuchAndNoOther) {
  const Rig& rig = demo_rig();
  const Point3 at = anchor_of(rig, "A3");
  const LineOffset was = offset(rig, at);
  const LineOffset higher = offset(rig, at + 0.37 * rig.frame.up), left = offset(rig, at + 0.21 * rig.frame.across);
  EXPECT_NEAR(higher.up_m - was.up_m, 0.37, rounding_m);
  EXPECT_NEAR(higher.across_m, was.across_m, rounding_m);
  EXPECT_NEAR(higher.from_rest_m, was.from_rest_m, rounding_m);
  EXPECT_NEAR(left.across_m - was.across_m, 0.21, rounding_m);
  EXPECT_NEAR(left.up_m, was.up_m, rounding_m);
  const LineOffset downstream = offset(rig, at + 0.5 * rig.frame.along);
  EXPECT_NEAR(downstream.from_rest_m - was.from_rest_m, 0.5, rounding_m);
}

TEST(LineOffset, MirroredInTheLinesPlaneOnlyTheSideChanges) {
  const Rig& rig = demo_rig();
  const Point3 left = anchor_of(rig, "A3") + 0.4 * rig.frame.across;
  const Point3 right = left - 2 * rig.frame.across_m(left) * rig.frame.across;
  const LineOffset a = offset(rig, left), b = offset(rig, right);
  EXPECT_NEAR(a.across_m, 0.4, rounding_m);
  EXPECT_NEAR(b.across_m, -a.across_m, rounding_m);
  EXPECT_NEAR(b.up_m, a.up_m, rounding_m);
  EXPECT_NEAR(b.from_rest_m, a.from_rest_m, rounding_m);
}

TEST(LineOffset, ItIsOfTheLineAsMeasuredWhateverTheSitesWeather) {
  const Rig& rig = demo_rig();
  const Rig other =
      solve(demo_layout({{"site.coldest", "'-30 C'"}, {"site.warmest", "'45 C'"}, {"brake_trolley.mass", "'9 kg'"}}));
  const LineOffset a = offset(rig, anchor_of(rig, "A3")), b = offset(other, anchor_of(rig, "A3"));
  EXPECT_NEAR(a.temperature_K, 285.15, 1e-9) << "12 C";
  EXPECT_EQ(a.temperature_K, b.temperature_K);
  EXPECT_NEAR(a.up_m, b.up_m, rounding_m);
  EXPECT_EQ(a.open_m, 0);
}

TEST(LineOffset, AWarmerLineHangsLowerAndOnlyTheHeightChanges) {
  const Rig& rig = demo_rig();
  const Point3 at = anchor_of(rig, "A3");
  const auto cold = offset_from_line(rig, at, mainline::Weather::cold);
  const auto warm = offset_from_line(rig, at, mainline::Weather::warm);
  ASSERT_TRUE(cold && warm);
  EXPECT_NEAR(cold->temperature_K, 258.15, 1e-9) << "-15 C";
  EXPECT_NEAR(warm->temperature_K, 308.15, 1e-9) << "35 C";
  EXPECT_LT(cold->up_m, offset(rig, at).up_m);
  EXPECT_GT(warm->up_m, offset(rig, at).up_m);
  EXPECT_EQ(cold->across_m, warm->across_m);
  EXPECT_EQ(cold->from_rest_m, warm->from_rest_m);
}

TEST(LineOffset, ARangeOfTensionLeavesTheHeightOpenAndItsMiddleBetweenTheEnds) {
  const Point3 at = anchor_of(demo_rig(), "A3");
  const LineOffset open = offset(solve(demo_layout({{"main_line.tension", "['16 kN', '20 kN']"}})), at);
  const LineOffset slack = offset(solve(demo_layout({{"main_line.tension", "'16 kN'"}})), at);
  const LineOffset taut = offset(solve(demo_layout({{"main_line.tension", "'20 kN'"}})), at);
  EXPECT_GT(slack.up_m, taut.up_m);
  EXPECT_NEAR(open.up_m, (slack.up_m + taut.up_m) / 2, 1e-8);
  EXPECT_NEAR(open.open_m, (slack.up_m - taut.up_m) / 2, 1e-8);
}

TEST(LineOffset, BeyondASupportThereIsNoLineToMeasureFrom) {
  const Rig& rig = demo_rig();
  const auto upstream = offset_from_line(rig, anchor_of(rig, "P1") - 1.25 * rig.frame.along);
  ASSERT_FALSE(upstream);
  EXPECT_EQ(upstream.error().why, "it stands 1.250 m beyond the main line's upstream support");
  const auto downstream = offset_from_line(rig, anchor_of(rig, "P2") + 0.5 * rig.frame.along);
  ASSERT_FALSE(downstream);
  EXPECT_EQ(downstream.error().why, "it stands 0.500 m beyond the main line's landing support");
  for (const Point3 nowhere : {Point3{std::nan(""), 0, 0}, Point3{1300, 870, std::nan("")}})
    EXPECT_FALSE(offset_from_line(rig, nowhere));
}

TEST(LineOffset, BeyondASupportTheSupportItselfIsMeasuredFrom) {
  const Rig& rig = demo_rig();
  for (const char* id : {"P1", "P2"}) {
    const Point3 support = anchor_of(rig, id);
    const double outward = std::string(id) == "P1" ? -1 : 1;
    const SupportOffset seen = offset_from_support(
        rig, support + outward * 1.25 * rig.frame.along + 0.4 * rig.frame.across - 2.5 * rig.frame.up);
    EXPECT_EQ(rig.layout.anchors[static_cast<std::size_t>(seen.support)].id.value, id);
    EXPECT_NEAR(seen.offset.up_m, -2.5, rounding_m);
    EXPECT_NEAR(seen.offset.across_m, 0.4, rounding_m);
    EXPECT_NEAR(seen.offset.from_rest_m, outward < 0 ? -188 - 1.25 : 220 - 188 + 1.25, rounding_m);
  }
}

// Closed form: between its supports the bare line is its unstretched length and the stretch, the integral of T c over
// it; with 18 kN and 11 MN that is 1.6e-3 of it, the tension within 2 % of 18 kN. The parts must add up to the whole.
TEST(TapedAlongLine, TheWholeIsTheStretchedLengthAndThePartsAddUp) {
  const Rig& rig = demo_rig();
  const mainline::State& state = rig.main_line.solved()->states.front();
  const double whole = *taped_along_line_m(rig, 0, 220);
  EXPECT_NEAR(whole, state.cable.unstretched_m * (1 + 18e3 / 11e6), 220 * 0.02 * 18e3 / 11e6);
  EXPECT_NEAR(*taped_along_line_m(rig, 0, 188) + *taped_along_line_m(rig, 188, 220), whole, 1e-9);
  EXPECT_EQ(*taped_along_line_m(rig, 188, 220), *taped_along_line_m(rig, 220, 188));
  EXPECT_EQ(*taped_along_line_m(rig, 188, 188), 0);
  EXPECT_GT(whole, std::hypot(220.0, 11.0)) << "longer than the chord";
}

// Closed form of a catenary that does not stretch: arc = c (sinh((x2 - x0) / c) - sinh((x1 - x0) / c)). An EA of 1e15 N
// leaves 2e-11 of the length.
TEST(TapedAlongLine, AnInextensibleLineHasTheCatenarysArc) {
  const Rig rig = solve(demo_layout({{"main_line.ea", "'1e9 MN'"}}));
  const mainline::State& state = rig.main_line.solved()->states.front();
  const mainline::Piece& piece = state.bare.pieces[0];
  const double c = piece.H_N / state.cable.weight_N_per_m, x0 = c * std::asinh(piece.V_N / piece.H_N);
  const double arc = c * (std::sinh((200 - x0) / c) - std::sinh((150 - x0) / c));
  EXPECT_NEAR(*taped_along_line_m(rig, 150, 200), arc, 1e-8);
}

TEST(TapedAlongLine, BeyondASupportThereIsNoLineToLayATapeOn) {
  EXPECT_FALSE(taped_along_line_m(demo_rig(), 188, 221));
  EXPECT_FALSE(taped_along_line_m(demo_rig(), -1, 188));
  EXPECT_FALSE(taped_along_line_m(demo_rig(), 188, std::nan("")));
}

TEST(LineOffset, WithoutAMainLineItSaysWhy) {
  Rig rig = demo_rig();
  rig.main_line = {};
  const auto none = offset_from_line(rig, anchor_of(rig, "A3"));
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().why, "not solved");
}

}  // namespace
}  // namespace fairlead
