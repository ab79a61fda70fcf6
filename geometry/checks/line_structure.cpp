#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

using Kind = clearance::Thing::Kind;

bool wanted(const clearance::Gap& gap) {
  const auto is = [&](Kind a, Kind b) {
    return (gap.a.kind == a && gap.b.kind == b) || (gap.a.kind == b && gap.b.kind == a);
  };
  return is(Kind::line, Kind::structure);
}

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_gaps(rig, line_structure, wanted, rig.layout.limits.line_clearance_m, out);
}

}  // namespace

const Check line_structure{
    .name = "line-structure",
    .title = "Lines clear of structures",
    .sentence = "its {own_part}surface and {part}{other} {touch} {value} at travel {travel} ({case})",
    .formula = "least distance of their surfaces over every passage, sag, wind and both riders included",
    .source = "own definition",
    .remedy = "move {other} or the line, or give the line more tension",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
