#include "geometry/checks/worst.hpp"

namespace fairlead {

void measure(Finding& finding, const WorstOfSweeps& worst, Sense sense, const std::optional<Limit>& limit) {
  finding.value = worst.extreme.value;
  finding.bound = worst.extreme.bound;
  finding.measured = worst.sweep >= 0;
  finding.travel_m = worst.travel_m;
  finding.limit = limit;
  finding.verdict = sense == Sense::greatest ? at_most(worst.extreme, limit) : at_least(worst.extreme, limit);
  if (finding.verdict == Verdict::not_judged) finding.why = "no limit given";
  if (finding.verdict == Verdict::undetermined)
    finding.why = "between its poses the sweep may exceed the limit, and halving did not decide it";
}

void leave_undetermined(Finding& finding, const Unsolved& unsolved) {
  finding.verdict = Verdict::undetermined;
  finding.why = unsolved.why;
}

void judge_braking_line(const Rig& rig, const Check& check, Extreme reeving::Sweep::*extreme,
                        const std::optional<Limit>& limit, std::vector<Finding>& out) {
  Finding finding{.check = &check, .subject = {Item::Kind::layout, 0}};
  if (rig.braking_line >= 0) {
    finding.subject = {Item::Kind::line, rig.braking_line};
    finding.place = rig.layout.lines[static_cast<std::size_t>(rig.braking_line)].id.place;
  }
  if (const reeving::Reeving* reeving = rig.reeving.solved())
    measure(finding, worst_of_sweeps(*reeving, Sense::greatest, extreme), Sense::greatest, limit);
  else
    leave_undetermined(finding, rig.reeving.result->error());
  out.push_back(finding);
}

}  // namespace fairlead
