#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/sheaves.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const std::optional<Limit>& limit = rig.layout.limits.groove_ratio;
  for (const SheaveUnder& under : sheaves_under_lines(rig)) {
    if (!under.sheave->groove_m) continue;
    Finding finding{.check = &groove, .subject = {Item::Kind::sheave, under.index}};
    finding.place = under.sheave->groove_m->place;
    const double ratio = *under.sheave->groove_m / under.line->diameter_m;
    measure(finding, Extreme{ratio, ratio}, Sense::greatest, limit);
    // A line that its groove pinches has failed whatever width was asked for, or not asked for.
    if (!(ratio >= 1)) finding.verdict = Verdict::fail;
    finding.facts.push_back({"width", Quantity{*under.sheave->groove_m, Dimension::length}});
    finding.facts.push_back({"diameter", Quantity{under.line->diameter_m, Dimension::length}});
    out.push_back(finding);
  }
}

}  // namespace

const Check groove{.name = "groove",
                   .title = "Groove against its line",
                   .sentence = "a groove of {width} for a line of {diameter}: {value}",
                   .formula = "groove width / line diameter; below 1 it pinches the line",
                   .source = "own definition",
                   .remedy = "take a sheave whose groove fits the line",
                   .dimension = Dimension::ratio,
                   .run = run};

}  // namespace fairlead
