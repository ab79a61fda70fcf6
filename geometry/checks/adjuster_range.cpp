#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"
#include "geometry/rig/adjuster.hpp"

namespace fairlead {
namespace {

void measure_need(const AdjusterNeed& need, const std::optional<Real>& adjuster_m, Finding& finding) {
  finding.value = finding.bound = need.whole_m();
  finding.measured = true;
  if (adjuster_m) finding.limit = Limit{*adjuster_m, "what the adjuster takes up, as given"};
  finding.verdict = at_most({finding.value, finding.bound}, finding.limit);
  if (finding.verdict == Verdict::undetermined) finding.why = "the length it needs is not a number";
  if (!adjuster_m)
    leave_not_judged(finding, "it has no \"adjuster\"");
  else if (!need.unknown.empty() && finding.verdict == Verdict::pass)
    leave_not_judged(finding, need.unknown);
  const auto add = [&](std::string_view name, double m) {
    finding.facts.push_back({name, Quantity{m, Dimension::length}});
  };
  add("states", need.shorter_m + need.longer_m);
  add("stretch", need.stretch_m);
  add("tolerance", 2 * need.tolerance_m);
  add("take_in", need.take_in_m());
  add("let_out", need.let_out_m());
}

/// The unit takes up what its own line needs, so that line is judged only where it has an adjuster too.
void run(const Rig& rig, std::vector<Finding>& out) {
  for (std::size_t i = 0; i < rig.layout.lines.size(); ++i) {
    const Line& line = rig.layout.lines[i];
    const int index = static_cast<int>(i);
    if (index == rig.braking_line && !line.adjuster_m) continue;
    Finding finding{.check = &adjuster_range, .subject = {Item::Kind::line, index}};
    finding.place = line.adjuster_m ? line.adjuster_m->place : line.id.place;
    if (const auto need = adjuster_need(rig, index))
      measure_need(*need, line.adjuster_m, finding);
    else
      leave_undetermined(finding, need.error());
    out.push_back(finding);
  }
}

}  // namespace

const Check adjuster_range{
    .name = "adjuster-range",
    .title = "What the adjuster of a line has to take up",
    .sentence =
        "its adjuster has to take up {value}: {states} between the states of the main line, {stretch} of "
        "stretch at rest, {tolerance} of tolerance; {take_in} of it to shorten the line, {let_out} to lengthen "
        "it",
    .formula =
        "greatest less least unloaded length needed at rest, with the line as measured among them, + stretch "
        "from unloaded to rest + 2 x length_tolerance, <= adjuster",
    .source = "own computation; thermal expansion of steel lines 12e-6 /K (common practice, no source)",
    .remedy = "fit an adjuster that takes up at least {value}, or make the line to a closer length",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
