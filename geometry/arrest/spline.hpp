// The C2 cubic through a table.
#pragma once

#include <array>
#include <vector>

namespace fairlead::arrest {

/// Slope at x[0] of the cubic through four knots, by divided differences.
double end_slope(const std::array<double, 4>& x, std::array<double, 4> y);

/// Slopes at the knots of the cubic spline through x (strictly rising, four knots at least) and y, whose slopes at both
/// ends are those of the cubic through the four knots there.
std::vector<double> spline_slopes(const std::vector<double>& x, const std::vector<double>& y);

/// Values of that spline at `at`, rising, inside x.
std::vector<double> resampled(const std::vector<double>& x, const std::vector<double>& y,
                              const std::vector<double>& at);

}  // namespace fairlead::arrest
