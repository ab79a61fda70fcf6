#include "tests/arrest/ride.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fairlead::arrest {
namespace {

/// Change of the kinetic energy with x: drive, rolling on the weight and the curve's pull, drag of the air along the
/// path.
double force_N(const Path& path, const ApproachInputs& in, double x, double kinetic_J) {
  const double angle = std::atan(path.slope(x)), speed2 = 2 * kinetic_J / in.mass_kg;
  const double bend = path.curvature(x) * std::pow(std::cos(angle), 3);  // of the arc, 1/m
  const double square_N = in.mass_kg * (standard_gravity * std::cos(angle) + speed2 * bend);
  const double air = std::sqrt(speed2) - in.wind_m_per_s * std::cos(angle);
  const double drag_N = in.density_kg_per_m3 / 2 * in.drag_area_m2 * air * std::abs(air);
  return path.drive_force_N(x) - (in.rolling * square_N + drag_N) / std::cos(angle);
}

}  // namespace

Path straight_slope(double slope_rad, double mass_kg, double length_m, double pull_N) {
  const double level_m = length_m * std::cos(slope_rad), stretch = 1e-3;
  const Cable line{5 * level_m, -5 * level_m * std::tan(slope_rad), 5 * length_m / (1 + stretch), 1e-3,
                   stretch / pull_N};
  return Path::solve(line, weight_of(mass_kg), 2 * level_m, 3 * level_m, 101).value();
}

double speed_down_a_slope() {
  const auto speed = [](double pull_N) {
    const Path path = straight_slope(std::numbers::pi / 60, 80, 200, pull_N);
    return ride(path, {path.from_m(), 0, 80, 0.01, 0.65, 1.225, 0}).arrival_speed_m_per_s;
  };
  return (10 * speed(1e9) - speed(1e8)) / 9;
}

ByEnergy by_energy(const Cable& line, const Path& path, const ApproachInputs& in, int steps) {
  const double h = (path.to_m() - in.start_m) / steps;
  const auto at = [&](double x) { return std::min(x, path.to_m()); };
  const auto speed = [&](double kinetic_J) { return std::sqrt(2 * kinetic_J / in.mass_kg); };
  const auto per_m = [&](double x, double kinetic_J) {  // seconds
    return std::hypot(1, path.slope(x)) / speed(kinetic_J);
  };
  ByEnergy r;
  double E = in.mass_kg / 2 * in.start_speed_m_per_s * in.start_speed_m_per_s;
  r.greatest_speed_m_per_s = in.start_speed_m_per_s;
  for (int i = 0; i < steps; ++i) {
    const double x = in.start_m + i * h, middle = at(x + h / 2), end = at(x + h);
    const double k1 = force_N(path, in, x, E), k2 = force_N(path, in, middle, E + h / 2 * k1),
                 k3 = force_N(path, in, middle, E + h / 2 * k2), k4 = force_N(path, in, end, E + h * k3);
    const double half_E = E + h / 2 * (k1 + k2) / 2, next = E + h / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
    r.time_s += h / 6 * (per_m(x, E) + 4 * per_m(middle, half_E) + per_m(end, next));
    E = next;
    r.greatest_speed_m_per_s = std::max(r.greatest_speed_m_per_s, speed(E));
    if ((i + 1) % 100 != 0) continue;
    const mainline::Load rider{end, path.weight_N()};
    const double H_N = mainline::hang_rolling(line, {&rider, 1}).value().pieces[0].H_N;
    r.greatest_over_wave =
        std::max(r.greatest_over_wave, speed(E) / std::sqrt(H_N * standard_gravity / line.weight_N_per_m));
  }
  r.speed_m_per_s = speed(E);
  return r;
}

}  // namespace fairlead::arrest
