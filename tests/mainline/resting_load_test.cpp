// The path of a rider toward a trolley that rests on the same line, until they meet.
#include <gtest/gtest.h>

#include <cmath>

#include "geometry/mainline/path.hpp"
#include "tests/mainline/energy.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::mainline {
namespace {

constexpr double rest_m = 200, trolley_kg = 4;

Load trolley() { return {rest_m, weight_of(trolley_kg)}; }

Path toward_trolley(const Cable& k, double mass_kg, int knots = 391) {
  return Path::solve(k, weight_of(mass_kg), 5, rest_m - meeting_m, knots, trolley()).value();
}

Shape with_trolley(const Cable& k, double mass_kg, double x_m) {
  const Load loads[] = {{x_m, weight_of(mass_kg)}, trolley()};
  return hang_rolling(k, loads).value();
}

TEST(RestingLoad, PotentialIsTheEnergyOfRiderTrolleyAndLine) {
  const Cable k = worked_line();
  const Path path = toward_trolley(k, 150);
  const auto from_start = [&](double x) {
    return energy_J(k, {{x, weight_of(150)}, trolley()}) - energy_J(k, {{5, weight_of(150)}, trolley()});
  };
  // As on the path of one load: what the knots' distance costs, and it shows when that is halved.
  for (const double x : {10.0, 110.3, 180.0, 199.9}) EXPECT_NEAR(path.potential_J(x), from_start(x), 1e-5);
  const double end_m = path.to_m();
  EXPECT_NEAR(path.potential_J(end_m), toward_trolley(k, 150, 781).potential_J(end_m), 1e-5);
}

TEST(RestingLoad, DriveForceIsThatOfTheRidersWheelAloneAndMinusTheSlopeOfThePotential) {
  const Cable k = worked_line();
  const Path path = toward_trolley(k, 80);
  for (const Path::Knot& knot : path.knots()) {
    EXPECT_NEAR(knot.drive_force_N, with_trolley(k, 80, knot.x_m).wheels[0].force_x_N, 1e-7) << knot.x_m;
    EXPECT_NEAR(path.drive_force_N(knot.x_m), -weight_of(80) * std::tan(knot.tau_rad), 1e-9);
  }
  const double h = 1e-3;
  for (const double x : {7.1, 110.0, 199.9})
    EXPECT_NEAR(path.drive_force_N(x), (path.potential_J(x - h) - path.potential_J(x + h)) / (2 * h), 1e-5);
}

TEST(RestingLoad, SlopesOfHeightAndDriveAreThoseOfTheSolvedLine) {
  const Cable k = worked_line();
  const double h = 1e-3;
  // Central differences of solved lines: h2 over six of third derivatives below 1e-4 /m2 and 1e-2 N/m3, and a
  // rounding of 1e-12 of 220 m and of 15 kN over 2 mm.
  for (const double mass_kg : {15.0, 150.0}) {
    const Path path = toward_trolley(k, mass_kg);
    for (const std::size_t i : {20u, 200u, 380u, 388u}) {
      const Path::Knot& knot = path.knots()[i];
      const Wheel on = with_trolley(k, mass_kg, knot.x_m + h).wheels[0];
      const Wheel back = with_trolley(k, mass_kg, knot.x_m - h).wheels[0];
      EXPECT_NEAR(knot.slope, (on.z_m - back.z_m) / (2 * h), 2e-7) << knot.x_m;
      EXPECT_NEAR(knot.drive_slope_N_per_m, (on.force_x_N - back.force_x_N) / (2 * h), 1e-5) << knot.x_m;
    }
  }
}

TEST(RestingLoad, BetweenKnotsTheRiderStaysOnTheSolvedLine) {
  const Cable k = worked_line();
  for (const double mass_kg : {15.0, 150.0}) {
    const Path path = toward_trolley(k, mass_kg, 196);  // a knot a metre
    for (double x = 5.25; x < path.to_m(); x += 0.5) {
      const Wheel wheel = with_trolley(k, mass_kg, x).wheels[0];
      EXPECT_NEAR(path.height_m(x), wheel.z_m, 1e-7) << "as NOTATION.md says";
      EXPECT_NEAR(path.drive_force_N(x), wheel.force_x_N, 1e-5) << "as NOTATION.md says";
    }
  }
}

TEST(RestingLoad, PathIsTwiceContinuouslyDifferentiable) {
  const Path path = toward_trolley(worked_line(), 80);
  const double e = 1e-9;
  for (std::size_t i = 1; i + 1 < path.knots().size(); i += 13) {
    const double x = path.knots()[i].x_m;
    EXPECT_NEAR(path.slope(x - e), path.slope(x + e), 1e-10);
    EXPECT_NEAR(path.curvature(x - e), path.curvature(x + e), 1e-10);
    EXPECT_NEAR(path.drive_force_N(x - e), path.drive_force_N(x + e), 1e-7);
  }
}

// [WL, own]: the fall from switching tracks, 38, 30 and 24 mm at 200 m. With both loads on the line there is none.
TEST(RestingLoad, RiderWhoMeetsTheTrolleyIsWhereBothTogetherHangAndDoesNotFall) {
  const Cable k = worked_line();
  const struct { double mass_kg, fall_mm; } riders[] = {{15, 38}, {80, 30}, {150, 24}};
  for (const auto& rider : riders) {
    const Path path = toward_trolley(k, rider.mass_kg);
    const double met_m = path.to_m();
    const Wheel together = wheel_at(k, rider.mass_kg + trolley_kg, met_m);
    const Shape near = with_trolley(k, rider.mass_kg, met_m);
    // The trolley's weight stands a micrometre further on: no height changes by more than the line's steepest rise in
    // it.
    double steepest = 0;
    for (const Piece& piece : near.pieces) steepest = std::max(steepest, std::abs(piece.V_N / piece.H_N));
    EXPECT_NEAR(path.height_m(met_m), together.z_m, meeting_m * steepest);
    EXPECT_NEAR(near.wheels[1].z_m, together.z_m, meeting_m * steepest);
    // The drive of both is one sum; a micrometre is worth at most what a metre of path turns it by, here 3 N.
    EXPECT_NEAR(path.drive_force_N(met_m) + near.wheels[1].force_x_N, together.force_x_N, 3 * meeting_m);
    EXPECT_GT(path.drive_force_N(met_m), together.force_x_N) << "what rests holds its own share back";
    EXPECT_NEAR(1e3 * (wheel_at(k, rider.mass_kg, met_m).z_m - path.height_m(met_m)), rider.fall_mm, 0.5);
  }
}

TEST(RestingLoad, OfNoWeightChangesNothing) {
  const Cable k = worked_line();
  const Load nothing{rest_m, 1e-9};
  const Path alone = Path::solve(k, weight_of(80), 5, 199, 195).value();
  const Path beside = Path::solve(k, weight_of(80), 5, 199, 195, nothing).value();
  for (const double x : {5.0, 77.7, 198.6}) {
    EXPECT_NEAR(beside.height_m(x), alone.height_m(x), 1e-9);
    EXPECT_NEAR(beside.drive_force_N(x), alone.drive_force_N(x), 1e-7);
    EXPECT_NEAR(beside.potential_J(x), alone.potential_J(x), 1e-6);
  }
}

TEST(RestingLoad, LowersARiderBesideItAndLiftsOneFarOffByTheLineItTakes) {
  const Cable k = worked_line();
  const Path alone = path_of(k, 80, 199), beside = toward_trolley(k, 80);
  for (double x = 120; x < 199; x += 5) EXPECT_LT(beside.height_m(x), alone.height_m(x));
  for (double x = 6; x < 40; x += 5) EXPECT_GT(beside.height_m(x), alone.height_m(x));
}

TEST(RestingLoad, LineTwiceAsLargeWithLoadsTwiceAsHeavyHasAPathTwiceAsLarge) {
  const Cable k = worked_line();
  const Cable twice{2 * k.span_m, 2 * k.rise_m, 2 * k.unstretched_m, k.weight_N_per_m, k.compliance_per_N / 2};
  const Path path = toward_trolley(k, 80);
  const Path large =
      Path::solve(twice, weight_of(160), 10, 2 * path.to_m(), 391, Load{2 * rest_m, 2 * weight_of(trolley_kg)}).value();
  for (const double x : {5.0, 77.7, 199.2}) {
    EXPECT_NEAR(large.height_m(2 * x), 2 * path.height_m(x), 1e-9);
    EXPECT_NEAR(large.slope(2 * x), path.slope(x), 1e-9);
    EXPECT_NEAR(large.curvature(2 * x), path.curvature(x) / 2, 1e-9);
    EXPECT_NEAR(large.drive_force_N(2 * x), 2 * path.drive_force_N(x), 1e-6);
    EXPECT_NEAR(large.potential_J(2 * x), 4 * path.potential_J(x), 1e-5);
  }
}

TEST(RestingLoad, PathToItOrBeyondItIsRefused) {
  const Cable k = worked_line();
  for (const double to_m : {rest_m, rest_m + 1})
    EXPECT_EQ(Path::solve(k, weight_of(80), 5, to_m, 100, trolley()).error().why,
              "the loads on the main line do not stand in rising x inside its span");
  EXPECT_EQ(Path::solve(k, weight_of(80), 5, 100, 100, Load{rest_m, 0}).error().why,
            "a load on wheels does not press on the main line");
}

TEST(Path, AllAtOnceIsTheSameAsOneByOne) {
  const Path path = toward_trolley(worked_line(), 80);
  for (const double x : {5.0, 77.3, 123.0, path.to_m()}) {
    const Path::Point at = path.continued(x);
    EXPECT_EQ(at.z_m, path.height_m(x));
    EXPECT_EQ(at.slope, path.slope(x));
    EXPECT_EQ(at.curvature, path.curvature(x));
    EXPECT_EQ(at.potential_J, path.potential_J(x));
    EXPECT_EQ(at.drive_force_N, path.drive_force_N(x));
  }
  EXPECT_EQ(path.continued(path.knots()[7].x_m).H_N, path.knots()[7].H_N);
  EXPECT_TRUE(std::isnan(path.continued(std::nan("")).drive_force_N));
}

TEST(Path, ContinuedBeyondItsEndsHasNoJumpAndStillConservesEnergy) {
  const Path path = toward_trolley(worked_line(), 80);
  const double e = 1e-9, h = 1e-3;
  for (const double end : {path.from_m(), path.to_m()}) {
    const Path::Point below = path.continued(end - e), above = path.continued(end + e);
    EXPECT_NEAR(below.z_m, above.z_m, 1e-9);
    EXPECT_NEAR(below.slope, above.slope, 1e-10);
    EXPECT_NEAR(below.curvature, above.curvature, 1e-9);
    EXPECT_NEAR(below.potential_J, above.potential_J, 1e-6);
    EXPECT_NEAR(below.drive_force_N, above.drive_force_N, 1e-7);
  }
  for (const double x : {path.from_m() - 2, path.to_m() + 2}) {
    const Path::Point back = path.continued(x - h), on = path.continued(x + h), here = path.continued(x);
    EXPECT_NEAR(here.drive_force_N, (back.potential_J - on.potential_J) / (2 * h), 1e-7);
    EXPECT_NEAR(here.slope, (on.z_m - back.z_m) / (2 * h), 1e-10);
    EXPECT_NEAR(here.curvature, (on.slope - back.slope) / (2 * h), 1e-10);
  }
}

}  // namespace
}  // namespace fairlead::mainline
