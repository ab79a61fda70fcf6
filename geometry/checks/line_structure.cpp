#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  if (rig.layout.structures.empty()) return;
  judge_gaps(rig, line_structure, {{ThingKind::line, ThingKind::main_line}, {ThingKind::structure}},
             rig.layout.limits.line_clearance_m, out);
}

}  // namespace

const Check line_structure{
    .name = "line-structure",
    .title = "Lines clear of structures",
    .sentence =
        "comes within {value} of {part}{other} at travel {travel} ({case}); {meet}; they reach {into} or more into "
        "each other; too near as well: {also}",
    .formula =
        "least distance of their surfaces in every passage looked at, sag and wind included; the main line from "
        "support "
        "to support",
    .source = "own definition",
    .remedy = "lead it or set {other} at least {short} further away; where it sags onto it, more tension at rest helps",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
