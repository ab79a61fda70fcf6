#include "geometry/checks/capacity.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const loads::Loads* loads = rig.loads.solved();
  for (std::size_t m = 0; m < rig.layout.members.size(); ++m) {
    const Member& member = rig.layout.members[m];
    Finding finding{.check = &member_utilisation, .subject = {Item::Kind::member, static_cast<int>(m)}};
    finding.place = member.id.place;
    finding.limit = rig.layout.limits.anchor_utilisation;
    if (!loads) {
      leave_undetermined(finding, rig.loads.result->error());
    } else if (const auto& why = loads->anchors[static_cast<std::size_t>(member.anchor)].not_held) {
      leave_undetermined(finding, {.why = why->why});
      add_case(finding, *loads, why->load_case, "");
    } else {
      const Use use = use_of(rig, m, loads->members[m]);
      measure(finding, use.utilisation, Sense::greatest, finding.limit);
      finding.measured = use.why.empty() || use.capacity_N > 0;
      if (finding.verdict == Verdict::undetermined) finding.why = "between its poses the load may exceed the limit";
      if (!use.why.empty() && finding.verdict != Verdict::fail) leave_not_judged(finding, use.why);
      add_use(finding, use);
      add_case(finding, *loads, use.utilisation.pose, "nothing loads it");
    }
    out.push_back(finding);
  }
}

}  // namespace

const Check member_utilisation{
    .name = "member-utilisation",
    .title = "Load of every leg, guy and pole of an anchor against its capacity",
    .sentence = "{way} with {force} of {capacity}; utilisation {value} ({case}); at travel {travel}",
    .formula = "greatest tension / wll, or x design factor / mbs; greatest compression / compression_limit",
    .source = "own definition; the factor applies to a breaking strength only (common practice, no source)",
    .remedy =
        "use a member of at least {force} working load, or hold the anchor by members nearer to the line of its pull",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
