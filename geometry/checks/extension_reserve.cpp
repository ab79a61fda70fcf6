#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &extension_reserve, .subject = {Item::Kind::brake_unit, 0}};
  const Real& limit_m = rig.layout.brake_unit.extension_limit_m;
  finding.place = limit_m.place;
  if (const reeving::Reeving* reeving = rig.reeving.solved()) {
    const auto greatest = worst_of_sweeps(*reeving, Sense::greatest, &reeving::Sweep::greatest_extension_m);
    WorstOfSweeps reserve = greatest;
    reserve.extreme.value = limit_m - greatest.extreme.value;
    reserve.extreme.bound = limit_m - greatest.extreme.bound;
    measure(finding, reserve, Sense::least, rig.layout.limits.extension_reserve_m);
    // A line already out at its end is a failure whatever reserve was asked for, or not asked for.
    if (reserve.extreme.value < 0) finding.verdict = Verdict::fail;
    finding.facts.push_back({"extension", Quantity{greatest.extreme.value, Dimension::length}});
    finding.facts.push_back({"unit_limit", Quantity{limit_m, Dimension::length}});
  } else {
    leave_undetermined(finding, rig.reeving.result->error());
  }
  out.push_back(finding);
}

}  // namespace

const Check extension_reserve{
    .name = "extension-reserve",
    .title = "Line left in the brake unit at full travel",
    .sentence = "{extension} of {unit_limit} is out at travel {travel}, {value} left",
    .formula = "extension limit - greatest extension over all paths, the heaviest rider's sag included",
    .source = "own definition",
    .remedy = "shorten the planned travel, take a unit with more line, or a reduction",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
