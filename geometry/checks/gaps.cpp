#include "geometry/checks/gaps.hpp"

#include <fmt/format.h>

namespace fairlead {
namespace {

using clearance::Gap;
using clearance::Passing;
using clearance::Thing;

void put(const Rig& rig, const Gap& gap, const std::optional<Limit>& limit, Finding& finding) {
  finding.subject = item_of(rig, gap.a);
  finding.place = limit ? limit->at.place : rig.layout.limits.place;
  finding.value = gap.least_m.value;
  finding.bound = gap.least_m.bound;
  finding.measured = true;
  finding.travel_m = gap.travel_m;
  finding.at = gap.on_a;
  finding.limit = limit;
  finding.verdict = at_least(gap.least_m, limit);
  // What touches has failed whatever distance was asked for, or not asked for.
  if (gap.least_m.value <= 0) finding.verdict = Verdict::fail;
  if (finding.verdict == Verdict::not_judged) finding.why = "no limit given";
  if (finding.verdict == Verdict::undetermined)
    finding.why = "between its poses they may come nearer, and halving did not decide it";
  finding.facts.push_back({"own_part", part_of(gap.a)});
  finding.facts.push_back({"part", part_of(gap.b)});
  finding.facts.push_back({"other", item_of(rig, gap.b)});
  finding.facts.push_back({"touch", std::string(gap.least_m.value > 0 ? "come within" : "meet, at")});
  finding.facts.push_back({"case", gap.sweep >= 0 ? passage_of(rig, gap.sweep) : std::string("at every pose")});
}

bool unsolved(const Rig& rig, const Check& check, std::vector<Finding>& out) {
  if (rig.clearance.solved()) return false;
  Finding finding{.check = &check, .subject = {Item::Kind::layout, 0}};
  leave_undetermined(finding, rig.clearance.result->error());
  out.push_back(finding);
  return true;
}

}  // namespace

Item item_of(const Rig& rig, const Thing& thing) {
  const auto index = static_cast<std::size_t>(thing.index);
  switch (thing.kind) {
    case Thing::Kind::rider:
      return {Item::Kind::rider, 0};
    case Thing::Kind::hands:
      return rig.lines[static_cast<std::size_t>(rig.reeving.inputs->pulling)];
    case Thing::Kind::line:
      return rig.lines[index];
    case Thing::Kind::main_line:
      return {Item::Kind::main_line, 0};
    case Thing::Kind::block:
      return {Item::Kind::block, thing.index};
    case Thing::Kind::sheave:
    case Thing::Kind::frame:
      return {Item::Kind::sheave, rig.reeved[index]};
    case Thing::Kind::unit:
      return {Item::Kind::brake_unit, 0};
    case Thing::Kind::structure:
      return {Item::Kind::structure, thing.index};
  }
  return {};
}

std::string part_of(const Thing& thing) {
  switch (thing.kind) {
    case Thing::Kind::rider:
      return "reach of the ";
    case Thing::Kind::hands:
      return "stretch at the trolley of ";
    case Thing::Kind::frame:
      return "frame of ";
    default:
      return "";
  }
}

void judge_gaps(const Rig& rig, const Check& check, bool (*wanted)(const Gap&), const std::optional<Limit>& limit,
                std::vector<Finding>& out) {
  if (unsolved(rig, check, out)) return;
  for (const Gap& gap : rig.clearance.solved()->gaps) {
    if (!wanted(gap)) continue;
    Finding finding{.check = &check};
    put(rig, gap, limit, finding);
    out.push_back(finding);
  }
}

void judge_passings(const Rig& rig, const Check& check, Thing::Kind other, std::vector<Finding>& out) {
  if (unsolved(rig, check, out)) return;
  for (const Passing& passing : rig.clearance.solved()->passings) {
    if (passing.other.kind != other) continue;
    Finding finding{.check = &check};
    if (passing.met == Passing::Met::at_travel && !passing.gaps.empty()) {
      put(rig, passing.gaps.front(), rig.layout.limits.rider_line_clearance_m, finding);
      finding.facts.push_back({"met", std::string("passes")});
    } else {
      // They never stand side by side: what they come within on the way is judged by the clearance of rider and lines.
      finding.verdict = Verdict::pass;
      finding.facts.push_back(
          {"met", std::string(passing.met == Passing::Met::stays_upstream     ? "stays upstream of"
                              : passing.met == Passing::Met::stays_downstream ? "stays downstream of"
                                                                              : "passes, nothing of it being known,")});
      if (passing.met == Passing::Met::at_travel) leave_not_judged(finding, "its size is not given");
      finding.facts.push_back({"case", passage_of(rig, passing.sweep)});
    }
    finding.subject = item_of(rig, passing.other);
    finding.travel_m = passing.met == Passing::Met::at_travel ? std::optional(passing.travel_m) : std::nullopt;
    out.push_back(finding);
  }
}

}  // namespace fairlead
