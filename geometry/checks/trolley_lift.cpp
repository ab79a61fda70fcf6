#include <cmath>

#include "geometry/checks/list.hpp"
#include "geometry/checks/trolley.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &trolley_lift};
  const auto& limit = rig.layout.limits.lift_share;
  if (const auto pull = judge_trolley(rig, &reeving::TrolleyPull::lift_share, limit, finding)) {
    const double up_N = finding.value * pull->weight_N;
    finding.facts.push_back({"lift", Quantity{up_N, Dimension::force}});
    finding.facts.push_back({"weight", Quantity{pull->weight_N, Dimension::force}});
    // A wheel lifted off its line is a failure whatever share was allowed, or not named.
    if (finding.value >= 1) finding.verdict = Verdict::fail;
    const double allowed = limit ? limit->at.value : 1;
    advise_upstream(rig, *pull, std::asin(allowed * pull->weight_N / pull->pose.trolley_tension_N), finding);
  }
  out.push_back(finding);
}

}  // namespace

const Check trolley_lift{
    .name = "trolley-lift",
    .title = "Lift of the brake trolley by its line",
    .sentence = "the line lifts it with {lift} of the {weight} on its wheel, {value}, at travel {travel} ({case})",
    .formula = "upward pull of the line / weight on the trolley's wheel; 1 and more lifts it off the main line",
    .source = "own definition",
    .remedy = "move {redirect} at least {upstream} further upstream at its height, or lower it toward the main line",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
