#include "geometry/arrest/spline.hpp"

#include <cstddef>

namespace fairlead::arrest {
double end_slope(const std::array<double, 4>& x, std::array<double, 4> y) {
  for (std::size_t order = 1; order < 4; ++order)
    for (std::size_t i = 3; i >= order; --i) y[i] = (y[i] - y[i - 1]) / (x[i] - x[i - order]);
  const double b = x[0] - x[1], c = x[0] - x[2];
  return y[1] + b * (y[2] + c * y[3]);
}

std::vector<double> spline_slopes(const std::vector<double>& x, const std::vector<double>& y) {
  const std::size_t n = x.size(), last = n - 1;
  std::vector<double> slope(n), above(n);
  slope[0] = end_slope({x[0], x[1], x[2], x[3]}, {y[0], y[1], y[2], y[3]});
  slope[last] =
      end_slope({x[last], x[last - 1], x[last - 2], x[last - 3]}, {y[last], y[last - 1], y[last - 2], y[last - 3]});
  // Equal second derivatives from either side: a diagonally dominant tridiagonal system, eliminated downward.
  above[0] = 0;
  for (std::size_t i = 1; i < last; ++i) {
    const double before = 1 / (x[i] - x[i - 1]), after = 1 / (x[i + 1] - x[i]);
    const double rises = 3 * (before * before * (y[i] - y[i - 1]) + after * after * (y[i + 1] - y[i]));
    const double pivot = 2 * (before + after) - before * above[i - 1];
    above[i] = after / pivot;
    slope[i] = (rises - before * slope[i - 1]) / pivot;
  }
  for (std::size_t i = last - 1; i > 0; --i) slope[i] -= above[i] * slope[i + 1];
  return slope;
}

std::vector<double> resampled(const std::vector<double>& x, const std::vector<double>& y,
                              const std::vector<double>& at) {
  const std::vector<double> slope = spline_slopes(x, y);
  std::vector<double> values;
  values.reserve(at.size());
  std::size_t i = 0;
  for (const double where : at) {
    while (i + 2 < x.size() && where > x[i + 1]) ++i;
    const double h = x[i + 1] - x[i], t = (where - x[i]) / h, rise = y[i + 1] - y[i];
    const double c2 = 3 * rise - h * (2 * slope[i] + slope[i + 1]), c3 = h * (slope[i] + slope[i + 1]) - 2 * rise;
    values.push_back(y[i] + t * (h * slope[i] + t * (c2 + t * c3)));
  }
  return values;
}

}  // namespace fairlead::arrest
