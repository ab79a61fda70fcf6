#include "geometry/checks/gaps.hpp"

#include <algorithm>

#include "geometry/layout/items.hpp"
#include "geometry/layout/rider_shape.hpp"

namespace fairlead {
namespace {

using clearance::Gap;
using clearance::Passing;
using clearance::Thing;

/// A gap told of its subject.
struct Told {
  Thing subject, other;
  Point3 on_subject, on_other;
  const Gap* gap{};
};

bool among(ThingKind kind, std::initializer_list<ThingKind> kinds) {
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

std::optional<Told> told(const Gap& gap, const Pairs& pairs) {
  if (among(gap.a.kind, pairs.subjects) && among(gap.b.kind, pairs.others))
    return Told{gap.a, gap.b, gap.on_a, gap.on_b, &gap};
  if (among(gap.b.kind, pairs.subjects) && among(gap.a.kind, pairs.others))
    return Told{gap.b, gap.a, gap.on_b, gap.on_a, &gap};
  return std::nullopt;
}

std::string what_of(const Thing& thing) { return thing.kind == ThingKind::frame ? "the frame of " : ""; }

std::string called(const Rig& rig, const Thing& thing) {
  const std::string* id = given_id(rig.layout, item_of(rig, thing));
  if (id) return what_of(thing) + *id;
  switch (thing.kind) {
    case ThingKind::rider:
      return "the rider";
    case ThingKind::main_line:
      return "the main line";
    default:
      return "the brake unit";
  }
}

Place place_of_item(const Layout& layout, Item item) {
  const auto index = static_cast<std::size_t>(item.index);
  switch (item.kind) {
    case Item::Kind::line:
      return layout.lines[index].id.place;
    case Item::Kind::support_line:
      return layout.support_lines[index].id.place;
    case Item::Kind::block:
      return layout.blocks[index].id.place;
    case Item::Kind::sheave:
      return layout.sheaves[index].id.place;
    case Item::Kind::structure:
      return layout.structures[index].id.place;
    default:
      return layout.limits.place;
  }
}

Verdict verdict_of(const Extreme& least, const std::optional<Limit>& limit) {
  return least.value <= 0 ? Verdict::fail : at_least(least, limit);
}

/// A rider whose swing is not known hung upright.
void doubt_swing(const Rig& rig, Finding& finding) {
  if (rig.clearance.inputs->swing || finding.verdict != Verdict::pass) return;
  finding.verdict = Verdict::undetermined;
  finding.why = "an upright rider keeps clear, and how far riders swing is not known";
  if (!rig.arrest.solved()) finding.why += ": " + rig.arrest.result->error().why;
}

/// The finding of one subject from all its gaps.
Finding nearest_of(const Rig& rig, const Check& check, const std::vector<Told>& gaps,
                   const std::optional<Limit>& limit) {
  const Told* nearest = &gaps.front();
  for (const Told& t : gaps)
    if (t.gap->least_m.value < nearest->gap->least_m.value) nearest = &t;
  Extreme least = nearest->gap->least_m;
  std::string also;
  for (const Told& t : gaps) {
    least.bound = lesser(least.bound, t.gap->least_m.bound);
    const Verdict verdict = verdict_of(t.gap->least_m, limit);
    const bool clear = verdict == Verdict::pass || verdict == Verdict::not_judged;
    if (&t != nearest && !(t.other == nearest->other) && !clear)
      also += (also.empty() ? "" : ", ") + called(rig, t.other);
  }
  Finding finding{.check = &check, .subject = item_of(rig, nearest->subject)};
  finding.place = place_of_item(rig.layout, finding.subject);
  finding.value = least.value;
  finding.bound = least.bound;
  finding.measured = true;
  finding.travel_m = nearest->gap->travel_m;
  finding.at = nearest->on_subject;
  finding.at_other = nearest->on_other;
  finding.limit = limit;
  finding.verdict = verdict_of(least, limit);
  if (finding.verdict == Verdict::not_judged) finding.why = "no limit given";
  if (finding.verdict == Verdict::undetermined)
    finding.why = "between its poses they may come nearer, and halving did not decide it";
  finding.facts.push_back({"part", what_of(nearest->other)});
  finding.facts.push_back({"other", item_of(rig, nearest->other)});
  finding.facts.push_back({"case", passage_of(rig, nearest->gap->sweep)});
  if (least.value < 0)
    finding.facts.push_back({"into", Quantity{-least.value, Dimension::length}});
  else if (least.value == 0)
    finding.facts.push_back({"meet", std::string("they touch or cross, how deep is not known")});
  if (limit) finding.facts.push_back({"short", Quantity{limit->at - least.value, Dimension::length}});
  if (!also.empty()) finding.facts.push_back({"also", also});
  return finding;
}

bool leave_unsolved(const Rig& rig, const Check& check, std::vector<Finding>& out) {
  if (rig.clearance.solved()) return false;
  Finding finding{.check = &check, .subject = {Item::Kind::layout, 0}};
  leave_undetermined(finding, rig.clearance.result->error());
  out.push_back(finding);
  return true;
}

/// The passages in which the rider never stands beside it.
Finding never_beside(const Rig& rig, const Check& check, const Passing& passing) {
  Finding finding{.check = &check, .subject = item_of(rig, passing.other), .verdict = Verdict::pass};
  finding.place = place_of_item(rig.layout, finding.subject);
  finding.facts.push_back(
      {"never", std::string(passing.met == Passing::Met::stays_upstream ? "upstream of it" : "downstream of it")});
  return finding;
}

}  // namespace

Item item_of(const Rig& rig, const Thing& thing) {
  const auto index = static_cast<std::size_t>(thing.index);
  switch (thing.kind) {
    case ThingKind::rider:
      return {Item::Kind::rider, 0};
    case ThingKind::hands:
      return rig.lines[static_cast<std::size_t>(rig.reeving.inputs->pulling)];
    case ThingKind::line:
      return rig.lines[index];
    case ThingKind::main_line:
      return {Item::Kind::main_line, 0};
    case ThingKind::block:
      return {Item::Kind::block, thing.index};
    case ThingKind::sheave:
    case ThingKind::frame:
      return {Item::Kind::sheave, rig.reeved[index]};
    case ThingKind::unit:
      return {Item::Kind::brake_unit, 0};
    case ThingKind::structure:
      return {Item::Kind::structure, thing.index};
  }
  return {};
}

void judge_gaps(const Rig& rig, const Check& check, const Pairs& pairs, const std::optional<Limit>& limit,
                std::vector<Finding>& out) {
  if (leave_unsolved(rig, check, out)) return;
  std::vector<std::vector<Told>> groups;
  for (const Gap& gap : rig.clearance.solved()->gaps) {
    const auto t = told(gap, pairs);
    if (!t) continue;
    const auto of_same = [&](const std::vector<Told>& g) {
      return item_of(rig, g.front().subject) == item_of(rig, t->subject);
    };
    auto group = std::find_if(groups.begin(), groups.end(), of_same);
    if (group == groups.end()) group = groups.insert(groups.end(), std::vector<Told>{});
    group->push_back(*t);
  }
  for (const std::vector<Told>& group : groups) {
    out.push_back(nearest_of(rig, check, group, limit));
    const Gap& first = *group.front().gap;
    if (first.a.kind == ThingKind::rider || first.b.kind == ThingKind::rider) doubt_swing(rig, out.back());
  }
}

void judge_passings(const Rig& rig, const Check& check, ThingKind other, std::vector<Finding>& out) {
  if (leave_unsolved(rig, check, out)) return;
  const std::vector<Passing>& passings = rig.clearance.solved()->passings;
  for (std::size_t i = 0; i < passings.size(); ++i) {
    const Thing& thing = passings[i].other;
    const bool seen = std::any_of(passings.begin(), passings.begin() + static_cast<std::ptrdiff_t>(i),
                                  [&](const Passing& p) { return p.other == thing; });
    if (thing.kind != other || seen) continue;
    std::vector<Told> gaps;
    bool beside = false, swinging = false;
    for (const Passing& p : passings) {
      beside = beside || (p.other == thing && p.met == Passing::Met::at_travel);
      if (p.other == thing && !p.gaps.empty()) {
        const Gap& gap = p.gaps.front();
        const auto& sweep = rig.reeving.solved()->sweeps[static_cast<std::size_t>(p.sweep)];
        swinging = swinging || sweep.running != reeving::Running::at_rest;
        gaps.push_back({gap.a, gap.b, gap.on_a, gap.on_b, &gap});
      }
    }
    if (!gaps.empty()) {
      Finding finding = nearest_of(rig, check, gaps, rig.layout.limits.rider_line_clearance_m);
      finding.subject = item_of(rig, thing);
      finding.place = place_of_item(rig.layout, finding.subject);
      finding.facts.push_back({"met", std::string("passes")});
      if (swinging) doubt_swing(rig, finding);
      out.push_back(finding);
    } else if (!beside) {
      out.push_back(never_beside(rig, check, passings[i]));
    }
  }
}

void judge_hands(const Rig& rig, const Check& check, std::vector<Finding>& out) {
  if (leave_unsolved(rig, check, out)) return;
  const auto& hands = rig.clearance.solved()->hands;
  if (!hands || hands->gap.sweep < 0) return;
  const Gap& gap = hands->gap;
  const bool rider_first = gap.a.kind == ThingKind::rider;
  const Told told{{ThingKind::hands, 0},
                  {ThingKind::rider, 0},
                  rider_first ? gap.on_b : gap.on_a,
                  rider_first ? gap.on_a : gap.on_b,
                  &gap};
  Finding finding = nearest_of(rig, check, {told}, rig.layout.limits.rider_line_clearance_m);
  finding.facts.push_back({"inside", Quantity{hands->inside_m, Dimension::length}});
  finding.facts.push_back({"stretch", Quantity{hands->stretch_m, Dimension::length}});
  out.push_back(finding);
}

bool miss_envelope(const Rig& rig, const Check& check, std::vector<Finding>& out) {
  if (shape_of(rig.layout.riders)) return false;
  Finding finding{.check = &check, .subject = {Item::Kind::rider, 0}};
  finding.place = rig.layout.riders.place;
  leave_not_judged(finding, "no riders.envelope given");
  out.push_back(finding);
  return true;
}

void miss_sizes(const Rig& rig, const Check& check, std::vector<Finding>& out) {
  for (std::size_t i = 0; i < rig.layout.blocks.size(); ++i) {
    const Block& block = rig.layout.blocks[i];
    if (block.size_m) continue;
    Finding finding{.check = &check, .subject = {Item::Kind::block, static_cast<int>(i)}, .place = block.id.place};
    leave_not_judged(finding, "no block.size given");
    out.push_back(finding);
  }
}

}  // namespace fairlead
