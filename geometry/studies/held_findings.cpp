#include "geometry/studies/held_findings.hpp"

#include <cmath>
#include <limits>

#include "geometry/checks/counterpart.hpp"

namespace fairlead {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// To the limit, by the side of it on which the passing one stands.
double left_of(const Finding& passing, const Finding& there) {
  const std::optional<double> limit = limit_of(passing), limit_there = limit_of(there);
  if (!limit || !limit_there || !passing.measured || !there.measured || passing.bound == *limit) return unknown;
  return passing.bound < *limit ? *limit_there - there.bound : there.bound - *limit_there;
}

}  // namespace

HeldFindings::HeldFindings(const Judged& design, const Work& work)
    : design_(design),
      at_resolution_(judge_at(design.resolution, design.rig.layout, {&design.rig, true, false}, work)) {
  for (std::size_t f = 0; f < at_resolution_.findings.size(); ++f) {
    if (at_resolution_.findings[f].verdict != Verdict::pass) continue;
    findings_.push_back(at_resolution_.findings[f]);
    ordinal_.push_back(ordinal(at_resolution_.findings, f));
  }
  drawn_ = outcome(at_resolution_.findings);
}

Outcome HeldFindings::at(Layout layout, const Work& work) const {
  return outcome(judge_at(design_.resolution, std::move(layout), {&at_resolution_.rig, true, false}, work).findings);
}

Outcome HeldFindings::outcome(const std::vector<Finding>& there) const {
  Outcome out;
  out.holds = true;
  for (std::size_t f = 0; f < findings_.size(); ++f) {
    const Finding* found = counterpart(there, findings_[f], ordinal_[f]);
    out.findings.push_back(found ? *found : findings_[f]);
    if (!found) out.findings.back().verdict = Verdict::undetermined;
    out.left.push_back(found ? left_of(findings_[f], *found) : unknown);
    out.passes.push_back(out.findings.back().verdict == Verdict::pass);
    if (!out.passes.back()) out.holds = false;
  }
  for (std::size_t f = 0; f < there.size(); ++f) {
    if (there[f].verdict == Verdict::pass || counterpart(at_resolution_.findings, there[f], ordinal(there, f)))
      continue;
    out.others.push_back(there[f]);
    out.holds = false;
  }
  return out;
}

}  // namespace fairlead
