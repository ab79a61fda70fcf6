// Main lines with a rider and a resting trolley on them, and the line at any share of a step.
#pragma once

#include <optional>
#include <random>
#include <vector>

#include "tests/reeving/rigs.hpp"

namespace fairlead::reeving {

struct LineWithWheels {
  mainline::Cable cable;
  double rider_N{}, rest_m{}, trolley_N{};

  Solved<mainline::Shape> at(double rider_m, const mainline::Shape* near = nullptr) const {
    if (rider_m >= rest_m) {
      const mainline::Load both{rest_m, rider_N + trolley_N};
      return mainline::hang_rolling(cable, {&both, 1});
    }
    const mainline::Load loads[] = {{rider_m, rider_N}, {rest_m, trolley_N}};
    return mainline::hang_rolling(cable, loads, near);
  }
};

/// The worked line, a slack, a steep and an inextensible one.
inline std::vector<mainline::Cable> lines_of_all_kinds() {
  mainline::Cable taut = worked_cable(), slack = taut, steep = taut, stiff = taut;
  slack.unstretched_m += 12;
  steep.rise_m = -60;
  steep.unstretched_m = 228.5;
  stiff.compliance_per_N = 0;
  stiff.unstretched_m = 220.6;
  return {taut, slack, steep, stiff};
}

/// Spans of 60 to 600 m, up and down by a fifth, taut and slack, light and heavy; nothing where such a line is none.
inline std::optional<LineWithWheels> any_line(std::mt19937_64& random) {
  const auto uniform = [&](double from, double to) { return std::uniform_real_distribution(from, to)(random); };
  LineWithWheels line;
  mainline::Cable& cable = line.cable;
  cable.span_m = std::exp(uniform(std::log(60.), std::log(600.)));
  cable.rise_m = uniform(-0.2, 0.2) * cable.span_m;
  cable.weight_N_per_m = uniform(3, 30);
  cable.compliance_per_N = uniform(0, 1) < 0.2 ? 0 : std::exp(uniform(std::log(1 / 4e7), std::log(1 / 2e6)));
  const double slack = std::exp(uniform(std::log(1e-4), std::log(0.08)));
  cable.unstretched_m = std::hypot(cable.span_m, cable.rise_m) * (1 + slack);
  line.rider_N = uniform(200, 1600);
  line.trolley_N = uniform(10, 90);
  line.rest_m = uniform(0.6, 0.95) * cable.span_m;
  if (!line.at(line.rest_m / 2)) return std::nullopt;
  return line;
}

/// The longest steps that are taken from a place on: a metre, and a tenth of the way from the start.
inline double longest_step_m(const LineWithWheels& line, double x_m) {
  return std::min({1., 0.1 * x_m, line.rest_m - x_m});
}

/// Of the wheels over a step, solved at so many places: how far each is off the straight way.
inline std::array<double, 2> bends_m(const LineWithWheels& line, double from_m, double to_m, int places = 200) {
  const mainline::Shape a = *line.at(from_m), b = *line.at(to_m);
  const auto z = [](const mainline::Shape& shape, int k) { return shape.wheels[std::min(k, shape.loads - 1)].z_m; };
  std::array<double, 2> most{};
  for (int i = 1; i < places; ++i) {
    const double t = double(i) / places;
    const mainline::Shape here = *line.at(from_m + t * (to_m - from_m), &a);
    for (int k = 0; k < 2; ++k) most[k] = std::max(most[k], std::abs(z(here, k) - (1 - t) * z(a, k) - t * z(b, k)));
  }
  return most;
}

}  // namespace fairlead::reeving
