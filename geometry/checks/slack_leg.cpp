#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/sheaves.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// The slackest leg of one line.
struct Slackest {
  WorstOfSweeps worst;
  const LegOf* leg{};
};

Slackest slackest(const reeving::Reeving& reeving, const std::vector<LegOf>& legs, Item line) {
  Slackest least;
  for (std::size_t i = 0; i < legs.size(); ++i) {
    if (!(legs[i].line == line)) continue;
    const WorstOfSweeps one = worst_of_sweeps(
        reeving, Sense::least, [i](const reeving::Sweep& s) -> const Extreme& { return s.least_tension_N[i]; });
    if (!least.leg) {
      least = {one, &legs[i]};
      continue;
    }
    const double bound = lesser(least.worst.extreme.bound, one.extreme.bound);
    if (!(one.extreme.value >= least.worst.extreme.value)) least = {one, &legs[i]};
    least.worst.extreme.bound = bound;
  }
  return least;
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  const std::vector<LegOf> legs = legs_of(rig);
  for (std::size_t l = 0; l < rig.layout.lines.size(); ++l) {
    const Item line{Item::Kind::line, static_cast<int>(l)};
    Finding finding{.check = &slack_leg, .subject = line, .place = rig.layout.lines[l].id.place};
    if (reeving) {
      const Slackest least = slackest(*reeving, legs, line);
      if (!least.leg) continue;
      measure(finding, least.worst, Sense::least, rig.layout.limits.slack_tension_N);
      finding.facts.push_back({"from", least.leg->from.item});
      finding.facts.push_back({"to", least.leg->to.item});
      if (least.worst.sweep >= 0) finding.facts.push_back({"case", passage_of(rig, least.worst.sweep)});
    } else {
      leave_undetermined(finding, rig.reeving.result->error());
    }
    out.push_back(finding);
  }
}

}  // namespace

const Check slack_leg{
    .name = "slack-leg",
    .title = "No leg goes slack",
    .sentence = "the leg from {from} to {to} pulls with as little as {value} at travel {travel} ({case})",
    .formula = "least tension anywhere along a leg, over all passages",
    .source = "own definition",
    .remedy = "take a unit that retracts harder, a lighter line or shorter legs",
    .dimension = Dimension::force,
    .run = run};

}  // namespace fairlead
