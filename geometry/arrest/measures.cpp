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

namespace {

/// greatest() of what `at` says at the places from..to.
template <class At>
Peak greatest_between(std::size_t from, std::size_t to, double step_s, const At& at) {
  Peak most{.value = std::numeric_limits<double>::quiet_NaN()};
  if (from == to) return most;
  std::size_t i = from;
  most.value = at(from);
  for (std::size_t k = from + 1; k < to; ++k)
    if (const double value = at(k); most.value < value) most.value = value, i = k;
  most.at_s = step_s * static_cast<double>(i);
  if (i == from || i + 1 == to) return most;
  const double before = at(i - 1), after = at(i + 1), bend = before - 2 * most.value + after;
  if (!(bend < 0)) return most;
  const double shift = (before - after) / (2 * bend);
  most.value -= (before - after) * shift / 4;
  most.at_s += step_s * shift;
  return most;
}

}  // namespace

Peak greatest(const std::vector<double>& record, double step_s) {
  return greatest_between(0, record.size(), step_s, [&](std::size_t i) { return record[i]; });
}

namespace {

constexpr double cut_off_Hz = 5, hold_s = 0.2;

Peak placed(const Record& record, Peak p) {
  const auto i = static_cast<std::size_t>(std::max(0L, std::lround(p.at_s / record.step_s)));
  p.travel_m = i < record.instants.size() ? record.instants[i].travel_m : std::nan("");
  return p;
}

/// Stretch by stretch, for a parabola must not bridge a jump; and at the ends of each.
template <class Of>
Peak greatest_of(const Record& record, Of of) {
  Peak most{.value = std::nan("")};
  const auto take = [&](const Peak& p) {
    if (!(p.value <= most.value)) most = p;
  };
  for (std::size_t piece = 0; piece < record.pieces.size(); ++piece) {
    const std::size_t from = record.pieces[piece],
                      to = piece + 1 < record.pieces.size() ? record.pieces[piece + 1] : record.instants.size();
    if (from == to) continue;
    take(placed(record,
                greatest_between(from, to, record.step_s, [&](std::size_t i) { return of(record.instants[i]); })));
  }
  for (const Instant& edge : record.edges) take({.value = of(edge), .at_s = edge.t_s, .travel_m = edge.travel_m});
  return most;
}

}  // namespace

void judge_extension(const Record& record, Motion& m) {
  m.extension_m = greatest_of(record, [](const Instant& i) { return i.extension_m; });
}

void judge_record(Record& record, double rider_weight_N, Motion& m) {
  const auto series = [&](auto&& of) {
    std::vector<double> values;
    values.reserve(record.instants.size());
    for (const Instant& i : record.instants) values.push_back(of(i));
    return values;
  };
  const auto peak = [&](auto&& of) { return greatest_of(record, of); };
  // Who is never seen to lean one way, for he ends before he swings there, leans 0 that way: not less.
  const auto swing = [&](auto&& of) {
    Peak most = greatest_of(record, of);
    if (most.value < 0) most.value = 0;
    return most;
  };
  judge_extension(record, m);
  m.line_speed_m_per_s = peak([](const Instant& i) { return i.line_speed_m_per_s; });
  m.unit_tension_N = peak([](const Instant& i) { return i.unit_tension_N; });
  m.line_force_N = peak([](const Instant& i) { return i.line_force_N; });
  m.trolley_speed_m_per_s = peak([](const Instant& i) { return i.speed_m_per_s; });
  m.swing_forward_rad = swing([](const Instant& i) { return i.lean_rad; });
  m.swing_back_rad = swing([](const Instant& i) { return -i.lean_rad; });
  const std::vector<double> load = series([&](const Instant& i) { return i.lanyard_N / rider_weight_N; });
  const std::vector<double> slowing = series([](const Instant& i) { return -i.acceleration_m_per_s2; });
  const std::vector<double> load_filtered = low_passed(load, record.step_s, cut_off_Hz, 1);
  m.load_raw = peak([&](const Instant& i) { return i.lanyard_N / rider_weight_N; });
  m.load_filtered = placed(record, greatest(load_filtered, record.step_s));
  m.load_held = placed(record, greatest_held(load, record.step_s, hold_s));
  m.deceleration_raw_m_per_s2 = peak([](const Instant& i) { return -i.acceleration_m_per_s2; });
  m.deceleration_filtered_m_per_s2 =
      placed(record, greatest(low_passed(slowing, record.step_s, cut_off_Hz, 0), record.step_s));
  m.deceleration_held_m_per_s2 = placed(record, greatest_held(slowing, record.step_s, hold_s));
  for (std::size_t i = 0; i < load.size(); ++i) record.instants[i].load_filtered = load_filtered[i];
  for (std::size_t i = 1; i < load.size(); ++i) {
    const double rise_per_s = (load_filtered[i] - load_filtered[i - 1]) / record.step_s;
    if (!(rise_per_s <= m.load_onset_per_s.value))
      m.load_onset_per_s = placed(record, {.value = rise_per_s, .at_s = record.step_s * static_cast<double>(i - 1)});
  }
}

}  // namespace fairlead::arrest
