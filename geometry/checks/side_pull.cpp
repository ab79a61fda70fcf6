#include <cmath>

#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/trolley.hpp"

namespace fairlead {
namespace {

/// How far the redirect, or the attachment the other way, would have to move across for the pull to come back to the
/// limit.
void advise(const Rig& rig, const WorstPull& pull, double limit_rad, Finding& finding) {
  const std::optional<int> redirect = redirect_of(rig);
  const double left_m = dot(pull.leg.to - pull.leg.from, rig.frame.across);
  const double excess_m = norm(pull.leg.to - pull.leg.from) * (std::sin(finding.value) - std::sin(limit_rad));
  if (!redirect || !(excess_m > 0)) return;
  finding.facts.push_back({"redirect", Item{Item::Kind::sheave, *redirect}});
  finding.facts.push_back({"move", Quantity{excess_m, Dimension::length}});
  finding.facts.push_back({"side", std::string(left_m > 0 ? "to the right" : "to the left")});
}

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &side_pull};
  const auto& limit = rig.layout.brake_trolley.side_pull;
  const auto pull = judge_trolley(rig, &reeving::TrolleyPull::side_rad, limit, finding);
  if (pull && limit) advise(rig, *pull, limit->at, finding);
  out.push_back(finding);
}

}  // namespace

const Check side_pull{
    .name = "side-pull",
    .title = "Side pull at the brake trolley",
    .sentence = "the line pulls {value} off the main line's vertical plane at travel {travel} ({case})",
    .formula = "asin |pull . across| / |pull|",
    .source = "own definition",
    .remedy = "move {redirect} or its axle's plane at least {move} {side} (seen toward the landing)",
    .dimension = Dimension::angle,
    .run = run};

}  // namespace fairlead
