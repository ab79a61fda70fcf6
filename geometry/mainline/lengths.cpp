#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>

#include "geometry/mainline/worst.hpp"

namespace fairlead::mainline {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr int most_tries = 200;

bool positive(double v) { return std::isfinite(v) && v > 0; }

/// What a bare line shows when its unstretched length is S; NaN where it does not hang.
template <class Measure>
double shown(Cable line, double S, Measure measure) {
  line.unstretched_m = S;
  const auto shape = hang(line);
  return shape ? measure(line, *shape) : nan;
}

/// The length between two that show more and less than wanted. TOMS 748 to the last bits, so that the measure is met to
/// rounding; Unsolved when the line did not hang somewhere between.
template <class Miss>
Solved<double> between(Miss miss, double low, double high) {
  const double at_low = miss(low), at_high = miss(high);
  if (at_low == 0) return low;
  if (at_high == 0) return high;
  if (!(at_low * at_high < 0)) return unsolved("no length of the main line shows what was measured", at_low);
  std::uintmax_t steps = most_tries;
  const auto tight = [](double a, double b) { return std::abs(b - a) <= 4e-16 * std::abs(a); };
  const auto [a, b] = boost::math::tools::toms748_solve(miss, low, high, at_low, at_high, tight, steps);
  const double S = std::abs(miss(a)) <= std::abs(miss(b)) ? a : b;
  if (!std::isfinite(miss(S))) return unsolved("the main line does not hang at the measured value", miss(S));
  return S;
}

/// A length at which the line is surely tighter than where its tension is T somewhere: the slack of a taut string of
/// more than twice T, less the stretch that gives.
double tight_length(const Cable& line, double T) {
  const double chord = std::hypot(line.span_m, line.rise_m), w = line.weight_N_per_m;
  const double ample = 2 * T + w * (line.span_m + 2 * std::abs(line.rise_m));
  const double across = w * line.span_m / ample;  // the weight square to the chord, over the tension
  return chord * (1 + across * across / 24) / (1 + line.compliance_per_N * ample);
}

}  // namespace

Solved<double> length_from_sag(double span_m, double rise_m, double weight_N_per_m, double compliance_per_N,
                               double sag_m) {
  if (!positive(span_m) || !positive(weight_N_per_m) || !positive(sag_m))
    return unsolved("a main line known by its sag needs a positive span, weight and sag", sag_m);
  const Cable line{span_m, rise_m, 0, weight_N_per_m, compliance_per_N};
  const auto miss = [&](double S) {
    return shown(line, S, [](const Cable& k, const Shape& s) { return mid_span_sag(k, s); }) - sag_m;
  };
  // The longer the line, the deeper it hangs; one of that sag is no longer than its chord and four times the sag.
  const double chord = std::hypot(span_m, rise_m);
  const double taut_N = weight_N_per_m * chord * chord / (8 * sag_m);
  return between(miss, tight_length(line, taut_N), chord + 4 * sag_m);
}

Solved<double> length_from_tension(double span_m, double rise_m, double weight_N_per_m, double compliance_per_N,
                                   double tension_N, MeasuredAt at) {
  if (!positive(span_m) || !positive(weight_N_per_m) || !positive(tension_N))
    return unsolved("a main line known by its tension needs a positive span, weight and tension", tension_N);
  const Cable line{span_m, rise_m, 0, weight_N_per_m, compliance_per_N};
  const auto measure = [at](const Cable& k, const Shape& s) { return tension_at(k, s, at); };
  const auto miss = [&](double S) { return shown(line, S, measure) - tension_N; };
  // From bar-taut on, let line out in growing steps: the tension falls, and where it rises again the line hangs by its
  // own weight. The first crossing is the taut root; the slack one is never reached.
  const double along_chord = at == MeasuredAt::horizontal ? std::hypot(1, rise_m / span_m) : 1;
  const double tight = tight_length(line, tension_N * along_chord);
  double low = tight, at_low = miss(tight);
  double out_m = 1e-6 * span_m;
  for (int i = 0; i < most_tries; ++i, out_m *= 1.3) {
    const double high = tight + out_m, at_high = miss(high);
    if (at_low > 0 && at_high <= 0) return between(miss, low, high);
    if (!(at_high < at_low)) {
      // The least tension lies before `high`: by thirds, in case it dips below the wanted one in between.
      double from = tight, to = high;
      for (int thirds = 0; thirds < most_tries && to - from > 1e-12 * span_m; ++thirds) {
        const double a = from + (to - from) / 3, b = to - (to - from) / 3;
        if (miss(a) <= 0) return between(miss, tight, a);
        (miss(a) < miss(b) ? to : from) = miss(a) < miss(b) ? b : a;
      }
      return unsolved("the main line's own weight needs more than the measured tension", miss(from));
    }
    low = high;
    at_low = at_high;
  }
  return unsolved("no length of the main line shows the measured tension", at_low, most_tries);
}

}  // namespace fairlead::mainline
