#include "geometry/checks/check.hpp"

namespace fairlead {

Verdict at_most(const Extreme& e, const std::optional<Limit>& limit) {
  if (!limit) return Verdict::not_judged;
  if (e.value <= e.bound && e.bound <= limit->at) return Verdict::pass;
  return e.value > limit->at ? Verdict::fail : Verdict::undetermined;
}

Verdict at_least(const Extreme& e, const std::optional<Limit>& limit) {
  if (!limit) return Verdict::not_judged;
  if (e.value >= e.bound && e.bound >= limit->at) return Verdict::pass;
  return e.value < limit->at ? Verdict::fail : Verdict::undetermined;
}

int exit_status(std::span<const Finding> findings) {
  for (const Finding& finding : findings)
    if (finding.verdict != Verdict::pass && finding.waiver < 0) return 1;
  return findings.empty() ? 1 : 0;
}

}  // namespace fairlead
