#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  if (rig.layout.blocks.empty()) return;
  judge_gaps(rig, block_clearance,
             {{ThingKind::block},
              {ThingKind::line, ThingKind::main_line, ThingKind::block, ThingKind::sheave, ThingKind::frame,
               ThingKind::unit, ThingKind::structure}},
             rig.layout.limits.block_clearance_m, out);
  miss_sizes(rig, block_clearance, out);
}

}  // namespace

const Check block_clearance{
    .name = "block-clearance",
    .title = "Travelling block clear of everything",
    .sentence =
        "comes within {value} of {part}{other} at travel {travel} ({case}); {meet}; they reach {into} or more into "
        "each other; too near as well: {also}",
    .formula = "least distance of their surfaces in every passage looked at, sag and wind included",
    .source = "own definition",
    .remedy = "let the block rest or run at least {short} further from {other}, or move {other}",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
