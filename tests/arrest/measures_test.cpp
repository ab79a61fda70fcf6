#include "geometry/arrest/measures.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/arrest/riding.hpp"

namespace fairlead::arrest {
namespace {

constexpr double step_s = record_step_s, whole_s = 8;

std::vector<double> wave(double mean, double frequency_Hz) {
  std::vector<double> record;
  for (double t = 0; t < whole_s; t += step_s)
    record.push_back(mean + std::sin(2 * std::numbers::pi * frequency_Hz * t));
  return record;
}

/// Of the middle of a record, where its ends are forgotten.
struct Middle {
  double amplitude, mean, lag_rad;
};
Middle middle(const std::vector<double>& record, double frequency_Hz) {
  double s = 0, c = 0, mean = 0;
  const std::size_t from = record.size() / 4, to = from + record.size() / 2;
  for (std::size_t i = from; i < to; ++i) {
    const double angle = 2 * std::numbers::pi * frequency_Hz * step_s * static_cast<double>(i);
    s += record[i] * std::sin(angle), c += record[i] * std::cos(angle), mean += record[i];
  }
  const double half = static_cast<double>(to - from) / 2;
  return {std::hypot(s, c) / half, mean / half / 2, std::atan2(c, s)};
}

/// BUTTER: 1 / (1 + (tan(pi f dt) / tan(pi fc dt))^4) after both passes.
double gain(double f) {
  const double pi = std::numbers::pi;
  return 1 / (1 + std::pow(std::tan(pi * f * step_s) / std::tan(pi * 5 * step_s), 4));
}

TEST(LowPass, HalvesAWaveAtItsCutOffAndDoesNotDelayIt) {
  for (const double f : {1.0, 2.5, 5.0, 10.0, 20.0}) {
    const Middle m = middle(low_passed(wave(3, f), step_s, 5, 3), f);
    EXPECT_NEAR(m.amplitude, gain(f), 1e-6) << f << " Hz";
    EXPECT_NEAR(m.lag_rad, 0, 1e-4) << f << " Hz";
    EXPECT_NEAR(m.mean, 3, 1e-6) << f << " Hz";
  }
  EXPECT_NEAR(gain(5), 0.5, 1e-12);
}

TEST(LowPass, LeavesWhatDoesNotChange) {
  for (const double value : low_passed(std::vector<double>(100, 1.7), step_s, 5, 1.7)) EXPECT_NEAR(value, 1.7, 1e-12);
}

/// Run the other way a record comes out the other way: both passes are one filter without a sense.
TEST(LowPass, HasNoSenseOfTime) {
  std::vector<double> record(400, 1.0);
  for (std::size_t i = 100; i < 130; ++i) record[i] = 4 - 0.02 * static_cast<double>(i - 100);
  std::vector<double> turned(record.rbegin(), record.rend());
  const std::vector<double> there = low_passed(record, step_s, 5, 1), back = low_passed(turned, step_s, 5, 1);
  for (std::size_t i = 0; i < record.size(); ++i) EXPECT_NEAR(there[i], back[record.size() - 1 - i], 1e-6);
}

/// A pulse of t s: what is held longer than it is the level beside it.
TEST(HeldValue, OfARectangularPulseIsItsHeightUpToItsLength) {
  std::vector<double> record(400, 1.0);
  for (std::size_t i = 100; i <= 140; ++i) record[i] = 3;  // 0.2 s
  const Peak held = greatest_held(record, step_s, 0.2);
  EXPECT_EQ(held.value, 3);
  EXPECT_NEAR(held.at_s, 100 * step_s, 1e-12);
  EXPECT_EQ(greatest_held(record, step_s, 0.2 + step_s).value, 1);
}

/// Against every window looked at by itself.
TEST(HeldValue, IsTheGreatestLeastOfAllWindows) {
  std::vector<double> record;
  for (int i = 0; i < 600; ++i)
    record.push_back(std::sin(0.05 * i) + 0.5 * std::sin(0.31 * i) + 0.2 * std::cos(1.7 * i));
  double most = -10;
  for (std::size_t i = 0; i + 40 < record.size(); ++i)
    most = std::max(most, *std::min_element(record.begin() + static_cast<std::ptrdiff_t>(i),
                                            record.begin() + static_cast<std::ptrdiff_t>(i) + 41));
  EXPECT_EQ(greatest_held(record, step_s, 0.2).value, most);
}

TEST(HeldValue, OfARecordThatIsTooShortIsNotANumber) {
  EXPECT_TRUE(std::isnan(greatest_held(std::vector<double>(40, 2.0), step_s, 0.2).value));
  EXPECT_EQ(greatest_held(std::vector<double>(41, 2.0), step_s, 0.2).value, 2);
}

/// HELD: both trolleys of 6.5 kg as one that never parts, no brake, 80 kg at 1.3 m, 10 m/s before contact, 6 s.
TEST(HeldValue, OfARiderOnTrolleysThatNeverPartIs063) {
  const double m = 80, M = 86.5, mt = 6.5, l = 1.3;
  double lean = 0, rate = (10 - 25 / 6.5) / l;
  const auto turns = [&](double p, double w) {
    return -(g * std::sin(p) * M / l + m * w * w * std::sin(p) * std::cos(p)) / (mt + m * std::sin(p) * std::sin(p));
  };
  std::vector<double> load;
  const double h = 1e-3;
  for (int i = 0; i <= 6000; ++i) {
    const double c = std::cos(lean), s = std::sin(lean);
    load.push_back((l * rate * rate / g + c) * mt / (mt + m * s * s));
    const double k1 = turns(lean, rate), k2 = turns(lean + h / 2 * rate, rate + h / 2 * k1),
                 k3 = turns(lean + h / 2 * rate + h * h / 4 * k1, rate + h / 2 * k2),
                 k4 = turns(lean + h * rate + h * h / 2 * k2, rate + h * k3);
    lean += h * rate + h * h / 6 * (k1 + k2 + k3);
    rate += h / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  EXPECT_NEAR(load.front(), 3.970, 5e-4);
  EXPECT_NEAR(greatest_held(load, h, 0.2).value, 0.63, 5e-3);
}

TEST(GreatestValue, OfAParabolaIsItsVertexBetweenSamples) {
  std::vector<double> record;
  for (int i = 0; i < 50; ++i) record.push_back(2 - std::pow(step_s * i - 0.1037, 2));
  const Peak most = greatest(record, step_s);
  EXPECT_NEAR(most.value, 2, 1e-12);
  EXPECT_NEAR(most.at_s, 0.1037, 1e-9);
}

/// A load that begins to rise evenly. The low-pass both ways answers a step of the slope with 1 - exp(-a) cos(a) / 2 of
/// it, a = 2 pi 5 Hz t / sqrt 2: the inverse transform of 1 / (1 + (f / 5 Hz)^4). It goes to the most at a = 3 pi / 4.
TEST(LoadOnset, OfAnEvenRiseIsItsSlopeAndWhatTheLowPassOvershoots) {
  const double slope_per_s = 2, weight_N = 800, a = 3 * std::numbers::pi / 4;
  Record record;
  for (int i = 0; i <= 1800; ++i) {
    const double t_s = step_s * i;
    record.instants.push_back({.t_s = t_s, .travel_m = t_s});
    record.instants.back().lanyard_N = weight_N * (1 + slope_per_s * std::clamp(std::min(t_s - 1, 8 - t_s), 0., 3.));
  }
  Motion motion;
  judge_record(record, weight_N, motion);
  // A step of the record is (2 pi 5 Hz 5 ms)^2 / 24 of it.
  EXPECT_NEAR(motion.load_onset_per_s.value, slope_per_s * (1 - std::exp(-a) * std::cos(a) / 2), 1.1e-3 * slope_per_s);
  const double after_s = a * std::numbers::sqrt2 / (2 * std::numbers::pi * 5);
  const bool first = std::abs(motion.load_onset_per_s.at_s - (1 + after_s)) <= 2 * step_s,
             last = std::abs(motion.load_onset_per_s.at_s - (4 - after_s)) <= 2 * step_s;
  EXPECT_TRUE(first || last) << motion.load_onset_per_s.at_s;
}

}  // namespace
}  // namespace fairlead::arrest
