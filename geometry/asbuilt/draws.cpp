#include "geometry/asbuilt/draws.hpp"

#include <cmath>
#include <numbers>

namespace fairlead {
namespace {

constexpr std::uint64_t mixed(std::uint64_t x) {
  x += 0x9E3779B97F4A7C15u;
  x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9u;
  x = (x ^ (x >> 27)) * 0x94D049BB133111EBu;
  return x ^ (x >> 31);
}

/// Above 0, up to 1.
double uniform(std::uint64_t bits) { return (static_cast<double>(bits >> 11) + 1) * 0x1p-53; }

/// Probability of so many hits or more where each draw hits with probability p.
double tail(int hits, int draws, double p) {
  double sum = 0;
  const auto n = static_cast<double>(draws);
  for (int k = hits; k <= draws; ++k)
    sum += std::exp(std::lgamma(n + 1) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1) + k * std::log(p) +
                    (n - k) * std::log1p(-p));
  return sum;
}

}  // namespace

double standard_normal(std::uint64_t seed, std::uint64_t draw, std::uint64_t index) {
  const std::uint64_t at = mixed(mixed(mixed(seed) ^ draw) ^ index);
  const double radius = std::sqrt(-2 * std::log(uniform(mixed(at))));
  return radius * std::cos(2 * std::numbers::pi * uniform(mixed(~at)));
}

double share_at_least(int hits, int draws, double doubt) {
  if (hits <= 0 || draws <= 0) return 0;
  if (hits >= draws) return std::pow(doubt, 1.0 / draws);
  double low = 0, high = static_cast<double>(hits) / draws;
  constexpr int halvings = 40;  // to 1e-12
  for (int i = 0; i < halvings; ++i) {
    const double middle = (low + high) / 2;
    (tail(hits, draws, middle) <= doubt ? low : high) = middle;
  }
  return low;
}

Conformity conformity(int draws, int passes, int fails) {
  return {draws, passes, fails, share_at_least(passes, draws), share_at_least(fails, draws), draws};
}

}  // namespace fairlead
