#include <fmt/format.h>

#include "geometry/checks/list.hpp"
#include "geometry/checks/sheaves.hpp"
#include "geometry/checks/worst.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

/// The sheaves under lines whose friction nobody gave, by id: "R1, R2".
std::string without_friction(const Rig& rig, bool& any_given) {
  std::string ids;
  for (const SheaveUnder& under : sheaves_under_lines(rig)) {
    if (friction_of(*under.sheave, *under.line))
      any_given = true;
    else
      ids += (ids.empty() ? "" : ", ") + under.sheave->id.value;
  }
  return ids;
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const std::optional<Limit>& limit = rig.layout.limits.efficiency;
  Finding finding{.check = &efficiency, .subject = {Item::Kind::brake_trolley, 0}};
  finding.place = limit ? limit->at.place : rig.layout.limits.place;
  bool any_given = false;
  const std::string missing = rig.reeving.inputs ? without_friction(rig, any_given) : "";
  if (!limit && !any_given) return;
  if (!rig.reeving.inputs) {
    leave_undetermined(finding, rig.reeving.inputs.error());
  } else if (!missing.empty()) {
    leave_not_judged(finding, fmt::format("no friction is known of {}", missing));
  } else if (const reeving::Reeving* reeving = rig.reeving.solved()) {
    std::vector<OfSweep> rubbing;
    for (std::size_t s = 0; s < reeving->sweeps.size(); ++s)
      if (!reeving->sweeps[s].tension_ratio.empty())
        rubbing.push_back({static_cast<int>(s), reeving->sweeps[s].least_efficiency});
    const WorstOfSweeps worst = rubbing.empty() ? WorstOfSweeps{{1, 1, 0}, -1, 0}  // every K is 1
                                                : worst_of(*reeving, Sense::least, rubbing);
    measure(finding, worst, Sense::least, limit);
    finding.facts.push_back({"case", worst.sweep >= 0 ? passage_of(rig, worst.sweep) : "no sheave rubs"});
  } else {
    leave_undetermined(finding, rig.reeving.result->error());
  }
  out.push_back(finding);
}

}  // namespace

const Check efficiency{
    .name = "efficiency",
    .title = "What sheave friction leaves of the work",
    .sentence = "the sheaves leave {value} of the work at travel {travel} ({case})",
    .formula =
        "paying out: 1 - lost / work of the trolley; returning: work on the trolley / (that + lost); lost: sum over "
        "sheaves of tension difference x line that passes",
    .source =
        "own definition; tension over a turning sheave grows by K in the sense of its motion (Wire Rope Users "
        "Manual, 4th ed., p. 86-88, second-hand)",
    .remedy = "take sheaves with rolling bearings, larger ones, or fewer",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
