#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

using Kind = clearance::Thing::Kind;

bool wanted(const clearance::Gap& gap) {
  const auto is = [&](Kind a, Kind b) {
    return (gap.a.kind == a && gap.b.kind == b) || (gap.a.kind == b && gap.b.kind == a);
  };
  return is(Kind::line, Kind::main_line);
}

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_gaps(rig, line_main_line, wanted, rig.layout.limits.line_to_main_line_m, out);
}

}  // namespace

const Check line_main_line{
    .name = "line-main-line",
    .title = "Lines clear of the main line",
    .sentence = "its {own_part}surface and {part}{other} {touch} {value} at travel {travel} ({case})",
    .formula = "least distance of their surfaces over every passage, sag, wind and both riders included",
    .source = "own definition",
    .remedy = "raise the redirect and the unit, or give the line more tension at rest",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
