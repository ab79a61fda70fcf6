#include "geometry/quantity/nearest.hpp"

#include <algorithm>
#include <vector>

namespace fairlead {
namespace {

/// Optimal string alignment: insertions, deletions, changes, and swaps of two neighbours.
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last, last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0u : 1u)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], before_last[j - 2] + 1);
    }
    before_last = last;
    last = now;
  }
  return last[b.size()];
}

}  // namespace

std::optional<std::string> nearest(std::string_view word, std::span<const std::string> known) {
  std::optional<std::string> best;
  std::size_t least = 0;
  for (const std::string& candidate : known) {
    const std::size_t d = distance(word, candidate);
    if (3 * d > std::max(word.size(), candidate.size()) || (best && d >= least)) continue;
    best = candidate;
    least = d;
  }
  return best;
}

}  // namespace fairlead
