#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_passings(rig, passing_block, clearance::Thing::Kind::block, out);
}

}  // namespace

const Check passing_block{.name = "passing-block",
                          .title = "The instant rider and block pass each other",
                          .sentence = "the rider {met} it at travel {travel}, {value} apart ({case})",
                          .formula = "distance of the surfaces when the rider's wheel stands at its chainage",
                          .source = "own definition",
                          .remedy = "let the block run higher above the main line",
                          .dimension = Dimension::length,
                          .run = run};

}  // namespace fairlead
