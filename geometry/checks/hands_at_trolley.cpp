#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  if (!miss_envelope(rig, hands_at_trolley, out)) judge_hands(rig, hands_at_trolley, out);
}

}  // namespace

// The line ends on the trolley a rider has just run into: no rig keeps it out of reach. It is judged like any other
// line all the same; who lets it pass does so by a waiver, with what keeps hands away.
const Check hands_at_trolley{
    .name = "hands-at-trolley",
    .title = "Hands and the line beside the brake trolley",
    .sentence =
        "of its {stretch} beside the brake trolley {inside} at most lie within the rider's reach; they are "
        "{value} apart at travel {travel} ({case})",
    .formula = "distance of the rider's reach from the line on the trolley, as far as a rider in contact can reach",
    .source = "own definition",
    .remedy = "keep hands away by a guard, a longer trolley or the rider's harness, and waive it with that reason",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
