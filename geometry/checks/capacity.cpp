#include "geometry/checks/capacity.hpp"

#include "geometry/checks/worst.hpp"

namespace fairlead {

Capacity capacity_of(const std::optional<Real>& wll_N, const std::optional<Real>& mbs_N, const Limits& limits,
                     Place part) {
  if (wll_N) return {wll_N->value, wll_N->place, ""};
  if (!mbs_N) return {std::nullopt, part, "it carries load and has neither a wll nor an mbs"};
  if (!limits.design_factor) return {std::nullopt, mbs_N->place, "its mbs needs limits.design_factor"};
  return {*mbs_N / limits.design_factor->at, mbs_N->place, ""};
}

void add_case(Finding& finding, const loads::Loads& loads, int load_case, std::string_view otherwise) {
  if (finding.verdict == Verdict::pass && !loads.without_arrest.empty())
    leave_undetermined(finding, {"no case has the load of an arrest: " + loads.without_arrest});
  if (load_case < 0) {
    finding.facts.push_back({"case", std::string(otherwise)});
    return;
  }
  const loads::LoadCase& found = loads.cases[static_cast<std::size_t>(load_case)];
  finding.facts.push_back({"case", found.name});
  finding.travel_m = found.travel_m;
}

Use use_of(const Rig& rig, std::size_t index, const loads::MemberDemand& demand) {
  const Member& member = rig.layout.members[index];
  Capacity pushed{std::nullopt, member.id.place, "it is pushed and has no compression_limit"};
  if (member.compression_limit_N) pushed.force_N = *member.compression_limit_N;
  const Capacity pulled = capacity_of(member.wll_N, member.mbs_N, rig.layout.limits, member.id.place);
  Use use{{0, 0, -1}, 0, 0, false, ""};
  for (const bool is_pushed : {false, true}) {
    const Extreme& force = is_pushed ? demand.compression_N : demand.tension_N;
    const Capacity& capacity = is_pushed ? pushed : pulled;
    if (force.value == 0 && force.bound == 0) continue;
    if (!capacity.force_N) {
      use.why = capacity.why;
      continue;
    }
    const Extreme utilisation{force.value / *capacity.force_N, force.bound / *capacity.force_N, force.pose};
    if (!(utilisation.value <= use.utilisation.value)) {
      use.utilisation.value = utilisation.value;
      use.utilisation.pose = utilisation.pose;
      use.force_N = force.value, use.capacity_N = *capacity.force_N, use.pushed = is_pushed;
    }
    use.utilisation.bound = greater(use.utilisation.bound, utilisation.bound);
  }
  return use;
}

void add_use(Finding& finding, const Use& use) {
  if (!(use.capacity_N > 0)) return;
  finding.facts.push_back({"force", Quantity{use.force_N, Dimension::force}});
  finding.facts.push_back({"capacity", Quantity{use.capacity_N, Dimension::force}});
  finding.facts.push_back({"way", std::string(use.pushed ? "pushed" : "pulled")});
}

}  // namespace fairlead
