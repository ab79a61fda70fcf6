#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

using Kind = clearance::Thing::Kind;

bool wanted(const clearance::Gap& gap) {
  const auto is = [&](Kind a, Kind b) {
    return (gap.a.kind == a && gap.b.kind == b) || (gap.a.kind == b && gap.b.kind == a);
  };
  return is(Kind::line, Kind::line) || is(Kind::line, Kind::sheave) || is(Kind::line, Kind::frame) ||
         is(Kind::line, Kind::unit);
}

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_gaps(rig, line_line, wanted, rig.layout.limits.line_to_line_m, out);
}

}  // namespace

const Check line_line{
    .name = "line-line",
    .title = "Lines clear of each other and of sheaves they do not run over",
    .sentence = "its {own_part}surface and {part}{other} {touch} {value} at travel {travel} ({case})",
    .formula = "least distance of their surfaces over every passage, sag, wind and both riders included",
    .source = "own definition",
    .remedy = "set the sheaves and ends further apart, up or across, so that legs neither cross nor rub",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
