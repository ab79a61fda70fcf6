#include "geometry/arrest/measures.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <numbers>

namespace fairlead::arrest {
namespace {

/// One pass of the filter, begun at rest.
class LowPass {
 public:
  LowPass(double step_s, double cut_off_Hz, double at_rest) : x1_(at_rest), x2_(at_rest), y1_(at_rest), y2_(at_rest) {
    const double k = std::tan(std::numbers::pi * cut_off_Hz * step_s), per = 1 / (1 + k * (std::numbers::sqrt2 + k));
    b_ = k * k * per;
    a1_ = 2 * (k * k - 1) * per;
    a2_ = (1 - k * (std::numbers::sqrt2 - k)) * per;
  }
  double operator()(double x) {
    const double y = b_ * (x + 2 * x1_ + x2_) - a1_ * y1_ - a2_ * y2_;
    x2_ = x1_, x1_ = x, y2_ = y1_, y1_ = y;
    return y;
  }

 private:
  double b_, a1_, a2_, x1_, x2_, y1_, y2_;
};

}  // namespace

std::vector<double> low_passed(const std::vector<double>& record, double step_s, double cut_off_Hz, double at_rest) {
  // Eight time constants of its slowest decay leave e^-8 of what it began with; the ends of a record are at rest
  // anyway.
  const double slowest_s = std::numbers::sqrt2 / (2 * std::numbers::pi * cut_off_Hz);
  const auto padding = static_cast<std::size_t>(std::ceil(8 * slowest_s / step_s));
  std::vector<double> y(record.size() + 2 * padding, at_rest);
  std::copy(record.begin(), record.end(), y.begin() + static_cast<std::ptrdiff_t>(padding));
  LowPass forward(step_s, cut_off_Hz, at_rest), backward(step_s, cut_off_Hz, at_rest);
  for (double& value : y) value = forward(value);
  for (auto value = y.rbegin(); value != y.rend(); ++value) *value = backward(*value);
  return {y.begin() + static_cast<std::ptrdiff_t>(padding), y.end() - static_cast<std::ptrdiff_t>(padding)};
}

Peak greatest_held(const std::vector<double>& record, double step_s, double hold_s) {
  // The least of a window that slides over the record, by a queue of candidates that rise.
  const auto window = static_cast<std::size_t>(std::lround(hold_s / step_s)) + 1;
  Peak most{.value = std::numeric_limits<double>::quiet_NaN()};
  std::deque<std::size_t> least;
  for (std::size_t i = 0; i < record.size(); ++i) {
    while (!least.empty() && !(record[least.back()] < record[i])) least.pop_back();
    least.push_back(i);
    if (least.front() + window <= i) least.pop_front();
    if (i + 1 < window) continue;
    const double held = record[least.front()];
    if (!(held <= most.value)) most = {.value = held, .at_s = step_s * static_cast<double>(i + 1 - window)};
  }
  return most;
}

Peak greatest(const std::vector<double>& record, double step_s) {
  Peak most{.value = std::numeric_limits<double>::quiet_NaN()};
  const auto found = std::max_element(record.begin(), record.end());
  if (found == record.end()) return most;
  const auto i = static_cast<std::size_t>(found - record.begin());
  most = {.value = *found, .at_s = step_s * static_cast<double>(i)};
  if (i == 0 || i + 1 == record.size()) return most;
  const double before = record[i - 1], after = record[i + 1], bend = before - 2 * *found + after;
  if (!(bend < 0)) return most;
  const double shift = (before - after) / (2 * bend);
  most.value -= (before - after) * shift / 4;
  most.at_s += step_s * shift;
  return most;
}

}  // namespace fairlead::arrest
