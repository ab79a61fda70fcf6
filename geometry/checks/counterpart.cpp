#include "geometry/checks/counterpart.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "geometry/checks/list.hpp"

namespace fairlead {

std::optional<double> limit_of(const Finding& finding) {
  if (finding.limit) return finding.limit->at.value;
  for (const auto& [check, at] : {std::pair{&pay_out, 0.0},
                                  {&crossing, 0.0},
                                  {&backup_brake, 0.0},
                                  {&reduction, 1.0},
                                  {&trolley_pitch, 1.0},
                                  {&strength, 1.0},
                                  {&member_lost, 1.0}})
    if (finding.check == check) return at;
  return std::nullopt;
}

std::size_t ordinal(const std::vector<Finding>& findings, std::size_t f) {
  return static_cast<std::size_t>(std::count_if(
      findings.begin(), findings.begin() + static_cast<std::ptrdiff_t>(f),
      [&](const Finding& other) { return other.check == findings[f].check && other.subject == findings[f].subject; }));
}

const Finding* counterpart(const std::vector<Finding>& findings, const Finding& of, std::size_t n) {
  for (const Finding& finding : findings)
    if (finding.check == of.check && finding.subject == of.subject && n-- == 0) return &finding;
  return nullptr;
}

std::optional<double> reserve_of(const Finding& finding) {
  const std::optional<double> limit = limit_of(finding);
  const bool pass = finding.verdict == Verdict::pass;
  if (!limit || *limit == 0 || !finding.measured || !(pass || finding.verdict == Verdict::fail)) return std::nullopt;
  const double left = std::abs(((pass ? finding.bound : finding.value) - *limit) / *limit);
  if (!std::isfinite(left)) return std::nullopt;
  return pass ? left : -left;
}

}  // namespace fairlead
