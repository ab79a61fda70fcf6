// Approaches that arrive. The keys are those of tests/SOURCES.md, section arrest.
#include "geometry/arrest/approach.hpp"

#include <gtest/gtest.h>

#include <boost/numeric/odeint.hpp>
#include <cmath>
#include <numbers>

#include "tests/arrest/ride.hpp"
#include "tests/mainline/free_wheel.hpp"

namespace fairlead::arrest {
namespace {

// [WL, own]: from rest at 5 m without losses, and beside it the run free in x and z, which keeps within 5 mm/s of the
// track at its own place.
TEST(Approach, HasTheSpeedsOfTheWorkedCase) {
  const struct {
    double mass_kg, x_m, speed_m_per_s, half_digit;
  } rides[] = {{15, 200, 16.250, 5e-4},    {80, 200, 16.368, 5e-4},    {150, 110, 14.953, 5e-4},
               {150, 180, 16.537, 5e-4},   {150, 200, 16.470, 5e-4},   {80, 200.3, 16.366, 5e-3},
               {150, 109.3, 14.922, 5e-3}, {150, 180.2, 16.537, 5e-3}, {150, 200.3, 16.465, 5e-3}};
  for (const auto& r : rides) {
    const Approach a = ride(mainline::path_of(worked_line(), r.mass_kg, r.x_m), let_go(r.mass_kg));
    EXPECT_NEAR(a.arrival_speed_m_per_s, r.speed_m_per_s, r.half_digit) << r.mass_kg << " kg at " << r.x_m;
    EXPECT_FALSE(a.stalled_at_m);
  }
}

TEST(Approach, WithoutLossesKeepsItsEnergy) {
  for (const double mass_kg : {15.0, 80.0, 150.0}) {
    const Path path = toward_trolley(worked_line(), mass_kg);
    ApproachInputs in = let_go(mass_kg);
    in.start_speed_m_per_s = 3;
    const double speed = std::sqrt(9 - 2 / mass_kg * path.potential_J(path.to_m()));
    EXPECT_NEAR(ride(path, in).arrival_speed_m_per_s, speed, 1e-6 * speed);
  }
}

// [SLOPE, own], and its closed form to more digits.
TEST(Approach, DownAStraightSlopeHasTheClosedForm) {
  const double slope = std::numbers::pi / 60, drag_kg_per_m = 1.225 * 0.65 / 2;
  const double force_N = weight_of(80) * (std::sin(slope) - 0.01 * std::cos(slope));
  const double closed = std::sqrt(force_N / drag_kg_per_m * -std::expm1(-2 * drag_kg_per_m * 200 / 80));
  EXPECT_NEAR(closed, 8.488366, 5e-7);
  EXPECT_NEAR(speed_down_a_slope(), closed, 1e-8 * closed) << "ten times what a step may be off";
}

// [FALL, read]: drag of 0.098 m2 at 1.21 kg/m3 carries 784 N at 115 m/s, own digits 114.99. On a slope of 30 degrees
// that is the terminal speed of twice as much.
TEST(Approach, AtTerminalSpeedNeitherGainsNorLoses) {
  const double mass_kg = 2 * 80 * 9.8 / standard_gravity;
  const Path path = straight_slope(std::numbers::pi / 6, mass_kg, 2000, 1e10);
  ApproachInputs in{path.from_m(), 114.99, mass_kg, 0, 0.098, 1.21, 0};
  EXPECT_NEAR(ride(path, in).arrival_speed_m_per_s, 114.99, 0.005);
  EXPECT_NEAR(ride(path, in).acceleration_m_per_s2, 0, 1e-3);
  in.start_speed_m_per_s = 100;
  EXPECT_GT(ride(path, in).arrival_speed_m_per_s, 109);
  EXPECT_LT(ride(path, in).arrival_speed_m_per_s, 114.99);
  in.start_speed_m_per_s = 130;
  EXPECT_LT(ride(path, in).arrival_speed_m_per_s, 121);
  EXPECT_GT(ride(path, in).arrival_speed_m_per_s, 114.99);
}

/// [FREE, own]: the rider as a point free in x and z on the line's force, drag and rolling resistance against his
/// motion.
double free_run_speed(const Path& path, const ApproachInputs& in, double to_m) {
  mainline::FreeWheel wheel(worked_line());
  using State = std::array<double, 4>;  // x, z, their rates
  const auto law = [&](const State& y, State& dy, double) {
    const mainline::Force force = wheel.force(y[0], y[1]);
    const double speed = std::hypot(y[2], y[3]), along_x = y[2] / speed, along_z = y[3] / speed;
    const double square_N = std::abs(force.z_N * along_x - force.x_N * along_z);
    const double air = speed - in.wind_m_per_s * along_x;
    const double against_N = in.rolling * square_N + in.density_kg_per_m3 / 2 * in.drag_area_m2 * air * std::abs(air);
    dy = {y[2], y[3], (force.x_N - against_N * along_x) / in.mass_kg,
          (force.z_N - against_N * along_z) / in.mass_kg - standard_gravity};
  };
  namespace odeint = boost::numeric::odeint;
  auto stepper = odeint::make_dense_output(1e-8, 1e-8, odeint::runge_kutta_dopri5<State>());
  const double slope = path.slope(in.start_m), level = in.start_speed_m_per_s / std::hypot(1, slope);
  stepper.initialize(State{in.start_m, path.height_m(in.start_m), level, slope * level}, 0, 1e-3);
  while (stepper.current_state()[0] < to_m) stepper.do_step(law);
  double from = stepper.previous_time(), to = stepper.current_time();
  State y;
  for (int i = 0; i < 60; ++i) {
    stepper.calc_state((from + to) / 2, y);
    (y[0] < to_m ? from : to) = (from + to) / 2;
  }
  return std::hypot(y[2], y[3]);
}

TEST(Approach, KeepsWithinFiveMillimetresASecondOfAFreeRunWithDragAndRolling) {
  for (const double wind_m_per_s : {-3.0, 4.0}) {
    const Path path = mainline::path_of(worked_line(), 100, 195);
    ApproachInputs in = let_go(100);
    in.start_speed_m_per_s = 3;
    in.rolling = 0.012;
    in.drag_area_m2 = 0.5;
    in.wind_m_per_s = wind_m_per_s;
    const double speed = free_run_speed(path, in, 195);
    EXPECT_NEAR(ride(path, in).arrival_speed_m_per_s, speed, 0.005) << "wind " << wind_m_per_s;
    ApproachInputs calm = in;
    calm.wind_m_per_s = 0;
    EXPECT_GT(std::abs(ride(path, calm).arrival_speed_m_per_s - speed), 0.5) << "and the wind tells";
  }
}

// [ENERGY, own]
TEST(Approach, AgreesWithTheKineticEnergyAlongX) {
  const Cable line = worked_line();
  mainline::Draws draw(20261126);
  for (int i = 0; i < 12; ++i) {
    const double mass_kg = draw.even(40, 150);
    const Path path = mainline::path_of(line, mass_kg, 195);
    const ApproachInputs in{5,   draw.even(0.5, 5), mass_kg, draw.even(0, 0.01), draw.even(0, 0.5),
                            1.2, draw.even(-2, 5)};
    const ByEnergy other = by_energy(line, path, in, 19000);
    const Approach a = ride(path, in);
    EXPECT_NEAR(a.arrival_speed_m_per_s, other.speed_m_per_s, 1e-6 * other.speed_m_per_s);
    EXPECT_NEAR(a.time_s, other.time_s, 1e-6 * other.time_s);
    EXPECT_NEAR(a.greatest_speed_m_per_s, other.greatest_speed_m_per_s, 1e-5 * other.greatest_speed_m_per_s);
    EXPECT_NEAR(a.speed_over_wave, other.greatest_over_wave, 1e-4 * other.greatest_over_wave);
  }
}

TEST(Approach, AccelerationAtTheEndIsTheChangeOfTheLevelSpeedThere) {
  const Cable line = worked_line();
  const auto level_speed = [&](double to_m) {
    const Path path = mainline::path_of(line, 100, to_m);
    ApproachInputs in = let_go(100);
    in.rolling = 0.01;
    in.drag_area_m2 = 0.4;
    in.wind_m_per_s = 3;
    const Approach a = ride(path, in);
    return std::pair(a.arrival_speed_m_per_s / std::hypot(1, path.slope(to_m)), a.acceleration_m_per_s2);
  };
  const double h = 0.5;
  const auto [speed, acceleration] = level_speed(190);
  const double change = (level_speed(190 + h).first - level_speed(190 - h).first) / (2 * h);
  // x'' = x' dx'/dx; the central difference is off by h2/6 of a third derivative below 1e-4 per (m2 s).
  EXPECT_NEAR(acceleration, speed * change, speed * 1e-4 * h * h);
  EXPECT_LT(acceleration, -0.2);
}

TEST(Approach, WindBehindHelpsAndResistanceHinders) {
  const Path path = toward_trolley(worked_line(), 80);
  ApproachInputs in = let_go(80);
  in.drag_area_m2 = 0.4;
  double last = 0;
  for (const double wind : {-3.0, -1.0, 0.0, 2.0, 6.0}) {
    in.wind_m_per_s = wind;
    EXPECT_GT(ride(path, in).arrival_speed_m_per_s, last);
    last = ride(path, in).arrival_speed_m_per_s;
  }
  for (const double rolling : {0.002, 0.01, 0.03}) {
    in.rolling = rolling;
    EXPECT_LT(ride(path, in).arrival_speed_m_per_s, last);
    last = ride(path, in).arrival_speed_m_per_s;
  }
}

TEST(Approach, WithoutDragAreaKnowsNoAir) {
  const Path path = toward_trolley(worked_line(), 80);
  ApproachInputs still = let_go(80), storm = still;
  still.rolling = storm.rolling = 0.01;
  storm.wind_m_per_s = -20;
  EXPECT_EQ(ride(path, still).arrival_speed_m_per_s, ride(path, storm).arrival_speed_m_per_s);
  ApproachInputs no_air = still;
  no_air.drag_area_m2 = 0.5;
  no_air.density_kg_per_m3 = 0;
  EXPECT_EQ(ride(path, still).arrival_speed_m_per_s, ride(path, no_air).arrival_speed_m_per_s);
}

TEST(Approach, DownALineTwiceAsLargeIsFasterByTheRootOfTwo) {
  const Cable line = worked_line();
  const Cable twice{2 * line.span_m, 2 * line.rise_m, 2 * line.unstretched_m, line.weight_N_per_m,
                    line.compliance_per_N / 2};
  const Path path = mainline::path_of(line, 80, 195);
  const Path large = Path::solve(twice, weight_of(160), 10, 390, 381).value();
  const ApproachInputs in{5, 2, 80, 0.01, 0.4, 1.2, 3};
  const double root = std::numbers::sqrt2;
  const ApproachInputs of_large{10, 2 * root, 160, 0.01, 0.4, 1.2, 3 * root};
  const Approach small = ride(path, in);
  const Approach a = approach(large, twice.weight_N_per_m, of_large).value();
  EXPECT_NEAR(a.arrival_speed_m_per_s, root * small.arrival_speed_m_per_s, 1e-6 * a.arrival_speed_m_per_s);
  EXPECT_NEAR(a.acceleration_m_per_s2, small.acceleration_m_per_s2, 1e-6);
  EXPECT_NEAR(a.time_s, root * small.time_s, 1e-6 * a.time_s);
  EXPECT_NEAR(a.speed_over_wave, small.speed_over_wave, 1e-5);
}

TEST(Approach, EnergyClosesDownDrawnLines) {
  mainline::Draws draw(6);
  int arrived = 0, stalled = 0;
  for (int i = 0; i < 400; ++i) {
    Cable line{draw.even(60, 500), 0, 0, draw.even(3, 20), draw.one_in(3) ? 0 : 1 / draw.decades(2e6, 4e7)};
    line.rise_m = -line.span_m * draw.even(0, 0.12);
    line.unstretched_m = std::hypot(line.span_m, line.rise_m) * (1 + draw.decades(1e-4, 1e-2));
    const double mass_kg = draw.even(15, 160), rest_m = line.span_m * draw.even(0.75, 0.95);
    const mainline::Load trolley{rest_m, weight_of(draw.even(2, 12))};
    const Path path = Path::solve(line, weight_of(mass_kg), 0.03 * line.span_m, rest_m - mainline::meeting_m,
                                  static_cast<int>(rest_m), trolley)
                          .value();
    const ApproachInputs in{path.from_m(),
                            draw.one_in(2) ? 0 : draw.even(0, 5),
                            mass_kg,
                            draw.even(0.002, 0.03),
                            draw.even(0.1, 0.8),
                            draw.even(0.9, 1.4),
                            draw.even(-6, 6)};
    const auto a = approach(path, line.weight_N_per_m, in);
    ASSERT_TRUE(a) << "draw " << i << ": " << a.error().why << ' ' << a.error().residual;
    EXPECT_LE(a->energy_residual, 1e-6) << "draw " << i;
    (a->stalled_at_m ? stalled : arrived)++;
    EXPECT_EQ(a->stalled_at_m.has_value(), std::isnan(a->arrival_speed_m_per_s));
    EXPECT_EQ(a->stalled_at_m.has_value(), a->hangs_at_m.has_value() || a->back_at_start_m_per_s.has_value());
    if (a->stalled_at_m) continue;
    EXPECT_GT(a->arrival_speed_m_per_s, 0);
    EXPECT_LE(a->arrival_speed_m_per_s, a->greatest_speed_m_per_s);
  }
  EXPECT_GT(arrived, 50);
  EXPECT_GT(stalled, 50);
}

}  // namespace
}  // namespace fairlead::arrest
