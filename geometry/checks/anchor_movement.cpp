#include <algorithm>

#include "geometry/checks/capacity.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

struct Held {
  std::vector<std::size_t> members;
  bool all_stiff = true;  ///< every one of them gives its ea
};

Held held_by(const Layout& layout, std::size_t anchor) {
  Held held;
  for (std::size_t m = 0; m < layout.members.size(); ++m)
    if (static_cast<std::size_t>(layout.members[m].anchor) == anchor) {
      held.members.push_back(m);
      held.all_stiff = held.all_stiff && layout.members[m].ea_N;
    }
  return held;
}

/// Share of the box on the worst axis: 0 of an axis along which it does not move, infinite where it may not.
Extreme share_of(const loads::AnchorDemand& demand, const Size& box) {
  Extreme worst{0, 0, -1};
  const double reach_m[] = {box.along_m, box.across_m, box.up_m};
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const Extreme& moved = demand.moved_m[axis];
    if (moved.bound <= 1e-9) continue;  // m: rounding
    const double value = moved.value / reach_m[axis];
    if (!(value <= worst.value)) worst.value = value, worst.pose = moved.pose;
    worst.bound = greater(worst.bound, moved.bound / reach_m[axis]);
  }
  return worst;
}

void measure_movement(const Anchor& anchor, const loads::Loads& loads, const loads::AnchorDemand& demand, bool swings,
                      Finding& finding) {
  constexpr std::string_view axes[] = {"along", "across", "up"};
  for (std::size_t axis = 0; axis < 3; ++axis)
    finding.facts.push_back({axes[axis], Quantity{demand.moved_m[axis].value, Dimension::length}});
  const auto moved_most = std::max_element(demand.moved_m.begin(), demand.moved_m.end(),
                                           [](const Extreme& a, const Extreme& b) { return a.value < b.value; });
  if (!anchor.movement) {
    leave_not_judged(finding, "give its \"movement\", within which all is then judged");
    if (swings) finding.verdict = Verdict::undetermined;
    add_case(finding, loads, moved_most->pose, "nothing moves it");
    return;
  }
  const Extreme share = share_of(demand, *anchor.movement);
  finding.value = share.value;
  finding.bound = share.bound;
  finding.measured = true;
  finding.limit = Limit{Real{1, anchor.movement->place}, "its movement"};
  finding.verdict = at_most(share, finding.limit);
  if (finding.verdict == Verdict::undetermined) finding.why = "between its poses it may move farther";
  add_case(finding, loads, share.pose, "nothing moves it");
}

/// A leg of a bridle or cross line that goes slack has left all to the other.
bool leg_slack(const Layout& layout, const loads::Loads& loads, const Held& held, Finding& finding) {
  if (held.members.size() != 2) return false;
  for (const std::size_t m : held.members) {
    if (loads.members[m].slack_case < 0 || layout.members[m].kind == MemberKind::pole) continue;
    finding.verdict = Verdict::fail;
    finding.facts.push_back({"slack", Item{Item::Kind::member, static_cast<int>(m)}});
    add_case(finding, loads, loads.members[m].slack_case, "");
    return true;
  }
  return false;
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const loads::Loads* loads = rig.loads.solved();
  for (std::size_t a = 0; a < rig.layout.anchors.size(); ++a) {
    const Anchor& anchor = rig.layout.anchors[a];
    const Held held = held_by(rig.layout, a);
    const bool swings = held.members.size() < 3;
    // Of three members and more without stiffness nothing is known; that is among the assumptions.
    if (held.members.empty() || (!swings && !held.all_stiff && !anchor.movement)) continue;
    Finding finding{.check = &anchor_movement, .subject = {Item::Kind::anchor, static_cast<int>(a)}};
    finding.place = anchor.movement ? anchor.movement->place : anchor.id.place;
    finding.at = anchor.position;
    if (!loads) {
      leave_undetermined(finding, rig.loads.result->error());
    } else if (const auto& why = loads->anchors[a].not_held) {
      leave_undetermined(finding, {.why = why->why});
      add_case(finding, *loads, why->load_case, "");
    } else if (const auto& moved = loads->anchors[a].moved_m;
               !leg_slack(rig.layout, *loads, held, finding) &&
               std::any_of(moved.begin(), moved.end(), [](const Extreme& m) { return !std::isfinite(m.value); })) {
      leave_undetermined(
          finding,
          {.why = held.all_stiff
                      ? "some case, or its pretensions alone, leave it free to lean until another guy is taut; "
                        "give it guys to every side, each with a \"pretension\""
                      : "give its members their \"ea\""});
    } else if (finding.verdict != Verdict::fail) {
      measure_movement(anchor, *loads, loads->anchors[a], swings, finding);
    }
    out.push_back(finding);
  }
}

}  // namespace

const Check anchor_movement{
    .name = "anchor-movement",
    .title = "Swing and give of a built-up anchor within its movement",
    .sentence =
        "{slack} goes slack; it moves up to {along} along, {across} across and {up} up; {value} of the movement given; "
        "{case}; at travel {travel}",
    .formula = "greatest movement of its point / movement, on each axis <= 1; no leg of two goes slack",
    .source = "own definition",
    .remedy =
        "draw the anchor where its members hold it under load, spread its legs so that the load stays between them, or "
        "give it a greater movement",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
