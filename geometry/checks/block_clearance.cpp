#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

using Kind = clearance::Thing::Kind;

bool wanted(const clearance::Gap& gap) {
  const auto is = [&](Kind a, Kind b) {
    return (gap.a.kind == a && gap.b.kind == b) || (gap.a.kind == b && gap.b.kind == a);
  };
  const auto block_and = [&](Kind other) { return is(Kind::block, other); };
  return block_and(Kind::structure) || block_and(Kind::line) || block_and(Kind::main_line) || block_and(Kind::sheave) ||
         block_and(Kind::frame) || block_and(Kind::unit) || block_and(Kind::block);
}

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_gaps(rig, block_clearance, wanted, rig.layout.limits.block_clearance_m, out);
}

}  // namespace

const Check block_clearance{
    .name = "block-clearance",
    .title = "Travelling block clear of everything",
    .sentence = "its {own_part}surface and {part}{other} {touch} {value} at travel {travel} ({case})",
    .formula = "least distance of their surfaces over every passage, sag, wind and both riders included",
    .source = "own definition",
    .remedy = "let the block rest elsewhere, or move {other}",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
