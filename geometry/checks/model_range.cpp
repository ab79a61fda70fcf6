#include <cmath>

#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &model_range, .subject = {Item::Kind::main_line, 0}, .place = rig.layout.main_line.place};
  const arrest::Arrest* arrest = arrest_of(rig, finding);
  if (arrest) {
    int worst = -1;
    for (std::size_t c = 0; c < arrest->corners.size(); ++c)
      if (worst < 0 ||
          arrest->corners[c].speed_over_wave > arrest->corners[static_cast<std::size_t>(worst)].speed_over_wave)
        worst = static_cast<int>(c);
    const double ratio = worst < 0 ? std::nan("") : arrest->corners[static_cast<std::size_t>(worst)].speed_over_wave;
    if (!std::isfinite(ratio)) {
      leave_not_judged(finding, "no [approach] given, so the greatest speed on the way is not known");
    } else {
      finding.value = finding.bound = ratio;
      finding.measured = true;
      finding.facts = {{"corner", corner_of(rig, worst)}};
      finding.verdict = ratio <= arrest::greatest_speed_over_wave ? Verdict::pass : Verdict::undetermined;
      if (finding.verdict == Verdict::undetermined)
        finding.why = "above 0.3 the line's own inertia counts: outside the model";
    }
  }
  out.push_back(finding);
}

}  // namespace

const Check model_range{
    .name = "model-range",
    .title = "Riders are slow against the waves of the main line",
    .sentence = "at most {value} of the speed of a wave along it ({corner})",
    .formula = "v / sqrt(H / mass per metre) <= 0.3; what is left out of the deflection is about its square",
    .source = "own estimate",
    .remedy = "ride slower, or have the line's dynamics computed",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
