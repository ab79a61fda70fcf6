#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const std::size_t first = out.size();
  judge_gaps(rig, crossing,
             {{ThingKind::line}, {ThingKind::line, ThingKind::sheave, ThingKind::frame, ThingKind::unit}}, std::nullopt,
             out);
  for (std::size_t i = first; i < out.size(); ++i) {
    Finding& finding = out[i];
    if (finding.verdict != Verdict::not_judged) continue;
    // They must not meet: nature's limit, not an author's.
    finding.verdict = finding.bound > 0 && finding.value >= finding.bound ? Verdict::pass : Verdict::undetermined;
    finding.why =
        finding.verdict == Verdict::pass ? "" : "between its poses they may meet, and halving did not decide it";
  }
}

}  // namespace

const Check crossing{
    .name = "crossing",
    .title = "No leg runs through a sheave or another leg",
    .sentence =
        "comes within {value} of {part}{other} at travel {travel} ({case}); {meet}; they reach {into} or more into "
        "each other",
    .formula =
        "least distance of a line from other lines, its own legs, sheaves it does not run onto there, and the "
        "unit > 0",
    .source = "own definition",
    .remedy = "lead the legs apart, or run them over their sheaves in the order and the way they come",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
