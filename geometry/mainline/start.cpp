#include "geometry/mainline/start.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::mainline {
std::optional<Unsolved> refuse(const Cable& k) {
  const auto positive = [](double v) { return std::isfinite(v) && v > 0; };
  if (!positive(k.span_m)) return Unsolved{"the main line's span is not a positive length", k.span_m, 0};
  if (!std::isfinite(k.rise_m)) return Unsolved{"the main line's rise is not a number", k.rise_m, 0};
  if (!positive(k.unstretched_m)) return Unsolved{"the main line's length is not positive", k.unstretched_m, 0};
  if (!positive(k.weight_N_per_m)) return Unsolved{"the main line's weight is not positive", k.weight_N_per_m, 0};
  if (!(positive(k.compliance_per_N) || k.compliance_per_N == 0))
    return Unsolved{"the main line's stretch per newton is negative or no number", k.compliance_per_N, 0};
  const double short_by = std::hypot(k.span_m, k.rise_m) - k.unstretched_m;
  if (k.compliance_per_N == 0 && !(short_by < 0))
    return Unsolved{"the main line does not stretch and is no longer than its chord", short_by, 0};
  return std::nullopt;
}

bool tells_tension(const Cable& k, double H) {
  const double chord = std::sqrt(k.span_m * k.span_m + k.rise_m * k.rise_m), least = 1e-9 * k.unstretched_m;
  return k.compliance_per_N * H * k.unstretched_m >= least || std::abs(k.unstretched_m - chord) >= least;
}

tl::unexpected<Unsolved> does_not_close(double miss_m, int steps) {
  return unsolved("the main line's equilibrium does not close", miss_m, steps);
}

tl::unexpected<Unsolved> too_straight(double miss_m, int steps) {
  return unsolved("the main line is so straight that its length does not tell its tension", miss_m, steps);
}

double taut_tension(const Cable& k, std::span<const Load> loads) {
  const double X = k.span_m, S = k.unstretched_m, chord = std::hypot(X, k.rise_m), cosine = X / chord;
  const double w = k.weight_N_per_m * S / X;
  double shear2 = w * w * X * X * X / 12;  // integral of V2 dx
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const double a = loads[i].x_m, b = X - a, P = loads[i].weight_N;
    shear2 += P * a * b * (w + P / X);
    for (std::size_t j = 0; j < i; ++j) shear2 += 2 * P * loads[j].weight_N * loads[j].x_m * b / X;
  }
  const double cubic = k.compliance_per_N * S / cosine, square = S - chord;
  const double constant = cosine * cosine * cosine * shear2 / 2;
  // Right of the root the cubic rises and is convex, so Newton's iteration comes down on it; a few steps are a start.
  if (!(cubic > 0)) return std::sqrt(constant / square);
  double H = std::cbrt(constant / cubic);
  H = square > 0 ? std::min(H, std::sqrt(constant / square)) : H - square / cubic;
  for (int i = 0; i < 4; ++i) H -= ((cubic * H + square) * H * H - constant) / ((3 * cubic * H + 2 * square) * H);
  return H;
}

double bare_shear(const Cable& k, double H) {
  const double w = k.weight_N_per_m;
  return w / 2 * (k.unstretched_m - k.rise_m / std::tanh(w * k.span_m / (2 * H)));
}

}  // namespace fairlead::mainline
