// A rider as a free point in x and z, on the line's force alone: no track, no path. It must keep the track's company.
#include <gtest/gtest.h>

#include <boost/numeric/odeint.hpp>
#include <cmath>

#include "tests/mainline/free_wheel.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::mainline {
namespace {

TEST(FreeWheel, OnTheSolvedPathFeelsTheSolvedForce) {
  const Cable line = worked_line();
  for (const double x : {10.0, 110.0, 205.0}) {
    FreeWheel free(line);
    const Wheel wheel = wheel_at(line, 150, x);
    const Force force = free.force(x, wheel.z_m);
    EXPECT_NEAR(force.z_N, weight_of(150), 1e-6);
    EXPECT_NEAR(force.x_N, wheel.force_x_N, 1e-6);
  }
}

using State = std::array<double, 4>;  // x, z, their rates

/// Speed where a rider released at rest on the path at 5 m comes by x, and how far off the path it is then.
struct Passage {
  double speed_m_s{}, off_path_m{};
};

std::vector<Passage> released(double mass_kg, std::vector<double> places_m) {
  const Cable line = worked_line();
  const Path path = path_of(line, mass_kg);
  FreeWheel wheel(line);
  const auto law = [&](const State& y, State& dy, double) {
    const Force force = wheel.force(y[0], y[1]);
    dy = {y[2], y[3], force.x_N / mass_kg, force.z_N / mass_kg - standard_gravity};
  };
  namespace odeint = boost::numeric::odeint;
  auto stepper = odeint::make_dense_output(1e-9, 1e-9, odeint::runge_kutta_dopri5<State>());
  stepper.initialize(State{5, path.height_m(5), 0, 0}, 0, 1e-3);
  std::vector<Passage> passages;
  for (const double x : places_m) {
    while (stepper.current_state()[0] < x) stepper.do_step(law);
    double from = stepper.previous_time(), to = stepper.current_time();
    State y;
    for (int i = 0; i < 60; ++i) {
      stepper.calc_state((from + to) / 2, y);
      (y[0] < x ? from : to) = (from + to) / 2;
    }
    passages.push_back({std::hypot(y[2], y[3]), y[1] - path.height_m(x)});
  }
  return passages;
}

// [WL, own]: speeds of a run free in x and z, printed to 1 mm/s at a place printed to 0.1 m, so half of each is
// allowed.
TEST(FreeRun, KeepsTheSpeedsOfTheWorkedCase) {
  const struct {
    double mass_kg, x_m, speed_m_s;
  } runs[] = {{15, 200, 16.250}, {80, 200.3, 16.366}, {150, 109.3, 14.922}, {150, 180.2, 16.537}, {150, 200.3, 16.465}};
  for (const auto& run : runs) {
    const auto by = released(run.mass_kg, {run.x_m - 0.05, run.x_m, run.x_m + 0.05});
    const double across_the_digit = std::abs(by[2].speed_m_s - by[0].speed_m_s) / 2;
    EXPECT_NEAR(by[1].speed_m_s, run.speed_m_s, 0.0005 + across_the_digit) << run.mass_kg << " kg at " << run.x_m;
  }
}

// The track leaves out what the free run has: the curve's m v2 kappa and a slow bounce of centimetres. The speed of
// the rigid track with -m g zeta' is off by ten times as much.
TEST(FreeRun, AgreesWithTheTracksEnergyAndNotWithTheRigidTracks) {
  const Cable line = worked_line();
  for (const double mass_kg : {15.0, 80.0, 150.0}) {
    const Path path = path_of(line, mass_kg);
    const Passage passage = released(mass_kg, {200})[0];
    const double track = std::sqrt(2 / mass_kg * (path.potential_J(5) - path.potential_J(200)));
    const double rigid = std::sqrt(2 * standard_gravity * (path.height_m(5) - path.height_m(200)));
    EXPECT_LT(std::abs(passage.speed_m_s - track), 0.0015);
    EXPECT_GT(std::abs(passage.speed_m_s - rigid), 10 * std::abs(passage.speed_m_s - track));
    EXPECT_LT(std::abs(passage.off_path_m), 0.08);
  }
}

}  // namespace
}  // namespace fairlead::mainline
