#include "geometry/trial/trial.hpp"

namespace fairlead::trial {
namespace {

Solved<Judged> judged_anew(const Rig& rig, const Solved<Fit>& fit, const Work& work) {
  if (!fit) return tl::unexpected(fit.error());
  if (!fit->agrees) return unsolved("the readings disagree with every choice of the fitted inputs", fit->chi_squared);
  auto layout = with_fitted(rig.layout, *fit);
  if (!layout) return tl::unexpected(layout.error());
  return judge(std::move(*layout), {&rig}, work);
}

}  // namespace

Learnt learn(const Rig& rig, const Plan& plan, const Results& results, const Work& work) {
  Learnt learnt{.fit = fit(rig, plan, results, work)};
  learnt.judged = std::make_shared<const Solved<Judged>>(judged_anew(rig, learnt.fit, work));
  return learnt;
}

std::optional<mainline::Span> arrivals_measured(const Trial& trial) {
  std::optional<mainline::Span> span;
  if (!trial.results) return span;
  for (const Tested& one : trial.results->tested)
    for (const Compared& compared : one.compared) {
      if (compared.expected.what != Trialled::arrival_speed || !compared.value) continue;
      if (!span) span = {*compared.value, *compared.value};
      span = {std::min(span->low, *compared.value), std::max(span->high, *compared.value)};
    }
  return span;
}

bool passed(const Trial& trial) {
  if (!trial.results) return true;
  if (trial.results->verdict != Verdict::pass) return false;
  return !trial.learnt || !*trial.learnt->judged || exit_status((*trial.learnt->judged)->findings) == 0;
}

}  // namespace fairlead::trial
