#include "geometry/checks/capacity.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// What an anchor may carry. A working load limit already has its factor; a breaking strength is divided by the
/// layout's design factor, and without one there is no capacity.
std::optional<double> capacity_N(const Anchor& anchor, const Limits& limits) {
  if (anchor.wll_N) return anchor.wll_N->value;
  if (anchor.mbs_N && limits.design_factor) return *anchor.mbs_N / limits.design_factor->at;
  return std::nullopt;
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const loads::Loads* loads = rig.loads.solved();
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i) {
    const Anchor& anchor = rig.layout.anchors[i];
    if (!anchor.wll_N && !anchor.mbs_N) continue;  // what its members carry is judged
    Finding finding{.check = &anchor_utilisation, .subject = {Item::Kind::anchor, static_cast<int>(i)}};
    finding.place = anchor.wll_N ? anchor.wll_N->place : anchor.mbs_N ? anchor.mbs_N->place : anchor.id.place;
    finding.at = anchor.position;
    finding.limit = rig.layout.limits.anchor_utilisation;
    const auto capacity = capacity_N(anchor, rig.layout.limits);
    if (!loads) {
      leave_undetermined(finding, rig.loads.result->error());
    } else if (!capacity) {
      finding.verdict = Verdict::not_judged;
      finding.why = "its mbs needs limits.design_factor";
    } else {
      const Extreme force = loads->demands[i].force_N;
      const Extreme utilisation{force.value / *capacity, force.bound / *capacity, force.pose};
      measure(finding, utilisation, Sense::greatest, finding.limit);
      if (finding.verdict == Verdict::undetermined) finding.why = "between its poses the load may exceed the limit";
      finding.facts.push_back({"force", Quantity{force.value, Dimension::force}});
      finding.facts.push_back({"capacity", Quantity{*capacity, Dimension::force}});
      add_case(finding, *loads, force.pose, "nothing is tied to it");
    }
    out.push_back(finding);
  }
}

}  // namespace

const Check anchor_utilisation{
    .name = "anchor-utilisation",
    .title = "Anchor load against its capacity",
    .sentence = "{force} of {capacity}, utilisation {value} ({case}); at travel {travel}",
    .formula = "greatest force of any load case / wll, or x design factor / mbs",
    .source = "own definition; the factor applies to a breaking strength only (common practice, no source)",
    .remedy = "use an anchor of at least {force} working load, or ease the lines that pull on it",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
