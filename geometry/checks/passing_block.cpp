#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  if (rig.layout.blocks.empty() || miss_envelope(rig, passing_block, out)) return;
  judge_passings(rig, passing_block, ThingKind::block, out);
  miss_sizes(rig, passing_block, out);
}

}  // namespace

const Check passing_block{
    .name = "passing-block",
    .title = "The instant rider and block pass each other",
    .sentence =
        "the rider {met} it at travel {travel}, within {value} ({case}); {meet}; they reach {into} or more into each "
        "other; the rider stays {never} all the way",
    .formula = "distance of the surfaces with the rider's wheel at the chainage of its point",
    .source = "own definition",
    .remedy = "let the block run at least {short} higher above the main line, or rest where no rider passes it",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
