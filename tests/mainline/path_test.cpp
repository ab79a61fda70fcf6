#include "geometry/mainline/path.hpp"

#include <gtest/gtest.h>

#include <boost/numeric/odeint.hpp>
#include <cmath>

#include "tests/mainline/energy.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::mainline {
namespace {

TEST(Path, PotentialIsTheEnergyOfLoadAndLine) {
  const Cable k = worked_line();
  const Path path = path_of(k, 150);
  const auto from_start = [&](double x) {
    return energy_J(k, {{x, weight_of(150)}}) - energy_J(k, {{5, weight_of(150)}});
  };
  // What the knots' distance costs shows when it is halved: less than 1e-5 J of 25 kJ.
  for (const double x : {10.0, 60.0, 110.3, 180.0, 214.9}) EXPECT_NEAR(path.potential_J(x), from_start(x), 1e-5);
  const Path fine = Path::solve(k, weight_of(150), 5, 215, 841).value();
  EXPECT_NEAR(path.potential_J(215), fine.potential_J(215), 1e-5);
}

TEST(Path, DriveForceIsMinusTheSlopeOfThePotentialAndOfTheBisector) {
  const Cable k = worked_line();
  const Path path = path_of(k, 150);
  for (const Path::Knot& knot : path.knots()) {
    EXPECT_NEAR(path.drive_force_N(knot.x_m), -weight_of(150) * std::tan(knot.tau_rad), 1e-9);
    EXPECT_NEAR(path.tau_rad(knot.x_m), knot.tau_rad, 1e-12);
  }
  const double h = 1e-3;
  for (const double x : {7.1, 80.25, 110.0, 199.9, 214.2})
    EXPECT_NEAR(path.drive_force_N(x), (path.potential_J(x - h) - path.potential_J(x + h)) / (2 * h), 1e-5);
}

TEST(Path, BetweenKnotsStaysOnTheSolvedLine) {
  const Cable k = worked_line();
  for (const double mass_kg : {4.0, 80.0, 150.0}) {
    const Path path = Path::solve(k, weight_of(mass_kg), 5, 215, 211).value();  // a knot a metre
    for (double x = 5.25; x < 215; x += 0.5) {
      const Wheel wheel = wheel_at(k, mass_kg, x);
      EXPECT_NEAR(path.height_m(x), wheel.z_m, 1e-7) << "as NOTATION.md says";
      EXPECT_NEAR(path.drive_force_N(x), wheel.force_x_N, 1e-5) << "as NOTATION.md says";
    }
  }
}

TEST(Path, HalvingTheKnotsDistanceQuartersTheErrorTwice) {
  const Cable k = worked_line();
  const auto worst = [&](int knots) {
    const Path path = Path::solve(k, weight_of(150), 5, 205, knots).value();
    double error_N = 0;
    for (double x = 5.5; x < 205; x += 1)
      error_N = std::max(error_N, std::abs(path.drive_force_N(x) - wheel_at(k, 150, x).force_x_N));
    return error_N;
  };
  const double coarse = worst(51), fine = worst(101);
  EXPECT_LT(fine, coarse / 10) << "fourth order: a sixteenth";
  EXPECT_GT(fine, 0);
}

TEST(Path, IsTwiceContinuouslyDifferentiable) {
  const Path path = path_of(worked_line(), 80);
  const double e = 1e-9;
  for (std::size_t i = 1; i + 1 < path.knots().size(); i += 13) {
    const double x = path.knots()[i].x_m;
    EXPECT_NEAR(path.slope(x - e), path.slope(x + e), 1e-10);
    EXPECT_NEAR(path.curvature(x - e), path.curvature(x + e), 1e-10);
    EXPECT_NEAR(path.curvature(x), path.knots()[i].curvature, 1e-12);
  }
}

TEST(Path, SlopeIsThatOfTheSolvedHeights) {
  const Cable k = worked_line();
  const Path path = path_of(k, 150);
  const double h = 1e-3;
  for (const double x : {5.5, 50.0, 110.0, 200.0, 214.5})
    EXPECT_NEAR(path.slope(x), (wheel_at(k, 150, x + h).z_m - wheel_at(k, 150, x - h).z_m) / (2 * h), 2e-7);
}

/// (x, speed along x) down the track: m (1 + z'2) x'' + m z' z'' x'2 = Q.
std::array<double, 2> ride(const Path& path, std::array<double, 2> at, double seconds) {
  const double m = path.weight_N() / standard_gravity;
  const auto law = [&](const std::array<double, 2>& y, std::array<double, 2>& dy, double) {
    const double slope = path.slope(y[0]);
    dy = {y[1], (path.drive_force_N(y[0]) / m - slope * path.curvature(y[0]) * y[1] * y[1]) / (1 + slope * slope)};
  };
  namespace odeint = boost::numeric::odeint;
  const auto stepper = odeint::make_controlled<odeint::runge_kutta_dopri5<std::array<double, 2>>>(1e-12, 1e-12);
  odeint::integrate_adaptive(stepper, law, at, 0.0, seconds, 1e-3);
  return at;
}

TEST(Path, EnergyClosesAlongIt) {
  for (const double mass_kg : {15.0, 80.0, 150.0}) {
    const Path path = path_of(worked_line(), mass_kg);
    const auto energy = [&](const std::array<double, 2>& y) {
      const double slope = path.slope(y[0]);
      return mass_kg / 2 * (1 + slope * slope) * y[1] * y[1] + path.potential_J(y[0]);
    };
    const std::array<double, 2> start{5, 0}, end = ride(path, start, 15);
    EXPECT_GT(end[0], 130);
    const double fallen_J = path.potential_J(5) - path.potential_J(end[0]);
    EXPECT_NEAR(energy(end), energy(start), 1e-9 * fallen_J) << mass_kg << " kg after 15 s at " << end[0] << " m";
  }
}

TEST(Path, RestsWhereTheBisectorIsPlumbAndNotAtItsLowestPoint) {
  const Cable k = worked_line();
  double last_m = 220;
  for (const double mass_kg : {4.0, 15.0, 80.0, 150.0}) {
    const Path path = path_of(k, mass_kg);
    const std::vector<double> rest = path.rest_points_m();
    ASSERT_EQ(rest.size(), 1u);
    EXPECT_NEAR(wheel_at(k, mass_kg, rest[0]).tau_rad, 0, 1e-9);
    EXPECT_GT(path.drive_force_N(rest[0] - 1), 0) << "pushed on before it";
    EXPECT_LT(path.drive_force_N(rest[0] + 1), 0) << "and back behind it";
    EXPECT_GT(path.slope(rest[0]), 1e-4) << "the path already rises there";
    EXPECT_LT(rest[0], last_m) << "the heavier, the further from the landing";
    last_m = rest[0];
  }
  EXPECT_TRUE(path_of(k, 80, 150).rest_points_m().empty()) << "it ends before the rest point";
}

TEST(Path, OnAWeightlessLineThatDoesNotStretchIsTheEllipseAndATrack) {
  // |p - A| + |p - B| = S; the line stores nothing, so the bisector is square to the path.
  const Cable k{100, -8, 102, 1e-7, 0};
  const Path path = Path::solve(k, 1000, 5, 95, 181).value();
  for (const double x : {5.0, 33.3, 50.0, 81.7, 95.0}) {
    const double z = path.height_m(x);
    EXPECT_NEAR(std::hypot(x, z) + std::hypot(100 - x, z + 8), 102, 1e-6);
    EXPECT_NEAR(std::tan(path.tau_rad(x)), path.slope(x), 1e-6);
  }
}

TEST(Path, AtConstantTensionTheLoadTurnsTheBisectorByHalfOfWhatItTurnsThePath) {
  // One metre of rubber pulled to a hundred: H hardly changes. z = -P x (X - x)/(H X).
  const double H = 1e5, P = 10;
  const Cable k{100, 0, 1, 1e-6, 99 / H};
  const Path path = Path::solve(k, P, 5, 95, 181).value();
  for (const double x : {10.0, 30.0, 70.0}) {
    const double turned = -P * (100 - 2 * x) / (H * 100);
    EXPECT_NEAR(path.slope(x), turned, 1e-3 * std::abs(turned));
    EXPECT_NEAR(std::tan(path.tau_rad(x)), turned / 2, 1e-3 * std::abs(turned));
  }
}

TEST(Path, TurnedEndForEndIsItsMirrorImage) {
  const Cable k = worked_line();
  Cable turned = k;
  turned.rise_m = -k.rise_m;
  const Path path = path_of(k, 80), mirror = path_of(turned, 80);
  for (const double x : {5.0, 77.7, 180.2}) {
    EXPECT_NEAR(mirror.height_m(220 - x) + k.rise_m, path.height_m(x), 1e-9);
    EXPECT_NEAR(mirror.drive_force_N(220 - x), -path.drive_force_N(x), 1e-6);
    EXPECT_NEAR(mirror.curvature(220 - x), path.curvature(x), 1e-6);
  }
}

TEST(Path, OutsideWhatWasSolvedIsNoNumber) {
  const Path path = path_of(worked_line(), 80);
  for (const double x : {4.999, 215.001, std::nan("")}) {
    EXPECT_TRUE(std::isnan(path.height_m(x)));
    EXPECT_TRUE(std::isnan(path.drive_force_N(x)));
    EXPECT_TRUE(std::isnan(path.curvature(x)));
  }
  EXPECT_FALSE(std::isnan(path.height_m(path.from_m())));
  EXPECT_FALSE(std::isnan(path.height_m(path.to_m())));
}

TEST(Path, SaysWhyItHasNone) {
  const Cable k = worked_line();
  EXPECT_EQ(Path::solve(k, 800, 50, 40, 20).error().why, "a path needs a stretch of line and four knots");
  EXPECT_EQ(Path::solve(k, 800, 40, 50, 3).error().why, "a path needs a stretch of line and four knots");
  EXPECT_EQ(Path::solve(k, 800, 40, std::nan(""), 20).error().why, "a path needs a stretch of line and four knots");
  EXPECT_EQ(Path::solve(k, 0, 40, 50, 20).error().why, "a load on wheels does not press on the main line");
  EXPECT_EQ(Path::solve(k, 800, 0, 50, 20).error().why,
            "the loads on the main line do not stand in rising x inside its span");
}

}  // namespace
}  // namespace fairlead::mainline
