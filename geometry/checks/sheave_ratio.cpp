#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/sheaves.hpp"
#include "geometry/checks/worst.hpp"
#include "geometry/rig/strength_left.hpp"

namespace fairlead {
namespace {

/// Tables of sheave over line diameter are for steel; whoever wants them for another line says so at the sheave.
const std::optional<Limit>& limit_of(const Rig& rig, const SheaveUnder& under) {
  static const std::optional<Limit> none;
  if (under.sheave->sheave_ratio) return under.sheave->sheave_ratio;
  return under.line->material == LineMaterial::steel ? rig.layout.limits.sheave_ratio : none;
}

void run(const Rig& rig, std::vector<Finding>& out) {
  for (const SheaveUnder& under : sheaves_under_lines(rig)) {
    Finding finding{.check = &sheave_ratio, .subject = {Item::Kind::sheave, under.index}};
    finding.place = under.sheave->pitch_diameter_m.place;
    const double ratio = tread_ratio(*under.sheave, *under.line);
    measure(finding, Extreme{ratio, ratio}, Sense::least, limit_of(rig, under));
    if (finding.verdict == Verdict::not_judged && under.line->material != LineMaterial::steel)
      finding.why = "no limit given at the sheave, and tables are for steel lines";
    finding.facts.push_back(
        {"tread", Quantity{under.sheave->pitch_diameter_m - under.line->diameter_m, Dimension::length}});
    finding.facts.push_back({"diameter", Quantity{under.line->diameter_m, Dimension::length}});
    out.push_back(finding);
  }
}

}  // namespace

const Check sheave_ratio{
    .name = "sheave-ratio",
    .title = "Sheave over line diameter",
    .sentence = "{tread} at the bottom of its groove over a line of {diameter}: {value}",
    .formula = "(pitch diameter - line diameter) / line diameter",
    .source = "own definition; limits for steel from rigging texts, for fibre from the line's maker",
    .remedy = "take a larger sheave or a thinner line",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
