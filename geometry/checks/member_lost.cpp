#include "geometry/checks/capacity.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// The other members of the anchor that is left with them.
void judge_rest(const Rig& rig, const loads::Loads& loads, const loads::LostDemand& lost, Finding& finding) {
  if (lost.not_held) {
    finding.verdict = Verdict::fail;
    finding.facts.push_back({"why", lost.not_held->why});
    add_case(finding, loads, lost.not_held->load_case, "");
    return;
  }
  const std::vector<Member>& members = rig.layout.members;
  Use worst{{-1, -1, -1}, 0, 0, false, ""};
  std::size_t which = 0;
  for (std::size_t m = 0; m < members.size(); ++m) {
    if (static_cast<int>(m) == lost.member ||
        members[m].anchor != members[static_cast<std::size_t>(lost.member)].anchor)
      continue;
    Use use = use_of(rig, m, lost.others[m]);
    if (!use.why.empty()) finding.why = use.why;
    use.utilisation.bound = greater(worst.utilisation.bound, use.utilisation.bound);
    if (use.utilisation.value <= worst.utilisation.value)
      worst.utilisation.bound = use.utilisation.bound;
    else
      worst = use, which = m;
  }
  finding.value = worst.utilisation.value;
  finding.bound = worst.utilisation.bound;
  finding.measured = true;
  // That a part carries no more than its capacity is no author's limit.
  finding.verdict = finding.value <= finding.bound && finding.bound <= 1 ? Verdict::pass
                    : finding.value > 1                                  ? Verdict::fail
                                                                         : Verdict::undetermined;
  const std::string missing = finding.why;
  if (finding.verdict == Verdict::undetermined) finding.why = "between its poses the load may exceed the capacity";
  if (!missing.empty() && finding.verdict != Verdict::fail) leave_not_judged(finding, missing);
  finding.facts.push_back({"member", Item{Item::Kind::member, static_cast<int>(which)}});
  add_use(finding, worst);
  add_case(finding, loads, worst.utilisation.pose, "nothing loads it");
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const loads::Loads* loads = rig.loads.solved();
  std::size_t lost = 0;
  for (std::size_t m = 0; m < rig.layout.members.size(); ++m) {
    const Member& member = rig.layout.members[m];
    if (!member.may_be_lost || !member.may_be_lost->value) continue;
    Finding finding{.check = &member_lost, .subject = {Item::Kind::member, static_cast<int>(m)}};
    finding.place = member.may_be_lost->place;
    if (loads)
      judge_rest(rig, *loads, loads->lost[lost++], finding);
    else
      leave_undetermined(finding, rig.loads.result->error());
    out.push_back(finding);
  }
}

}  // namespace

const Check member_lost{
    .name = "member-lost",
    .title = "The rest of an anchor's members hold when one is lost",
    .sentence =
        "without it {why}; without it the most used is {member}, {way} with {force} of {capacity}; utilisation "
        "{value}; {case}; "
        "at travel {travel}",
    .formula = "without the member: a balance in every case, and each other's load / its capacity <= 1",
    .source = "own definition; that one guy or leg may be lost is common practice, no source",
    .remedy = "add a member that takes over; or use {member} of at least {force} working load",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
