#include "geometry/checks/corners.hpp"

#include <cmath>

#include "geometry/arrest/names.hpp"
#include "geometry/mainline/names.hpp"

namespace fairlead {

std::string name_of(const Rig& rig, const arrest::Corner& corner) {
  const mainline::MainLine* main_line = rig.main_line.solved();
  return main_line ? arrest::name_of(*rig.approach.inputs, *main_line, corner)
                   : arrest::name_of(*rig.arrest.inputs, corner);
}

std::string corner_of(const Rig& rig, int corner) {
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest || corner < 0) return "";
  return name_of(rig, arrest->corners[static_cast<std::size_t>(corner)].corner);
}

const arrest::Arrest* arrest_of(const Rig& rig, Finding& finding) {
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) leave_undetermined(finding, rig.arrest.result->error());
  return arrest;
}

void judge_corners(const Rig& rig, Finding& finding, Sense sense, const std::optional<Limit>& limit,
                   const std::function<arrest::Peak(const arrest::CornerResult&)>& get) {
  const arrest::Arrest* arrest = arrest_of(rig, finding);
  if (!arrest) return;
  int worst = -1, unsolved = -1;
  arrest::Peak peak;
  for (std::size_t c = 0; c < arrest->corners.size(); ++c) {
    const arrest::CornerResult& corner = arrest->corners[c];
    const arrest::Peak here = corner.motion ? get(corner) : arrest::Peak{};
    if (!corner.motion || !std::isfinite(here.value)) {
      if (unsolved < 0) unsolved = static_cast<int>(c);
      continue;
    }
    const bool worse = worst < 0 || (sense == Sense::greatest ? here.value > peak.value : here.value < peak.value);
    if (worse) worst = static_cast<int>(c), peak = here;
  }
  if (worst >= 0) {
    measure(finding, Extreme{peak.value, peak.value}, sense, limit);
    finding.travel_m = peak.travel_m;
    finding.facts.push_back({"corner", corner_of(rig, worst)});
  }
  if (unsolved < 0 || finding.verdict == Verdict::fail) return;
  const arrest::CornerResult& corner = arrest->corners[static_cast<std::size_t>(unsolved)];
  leave_undetermined(finding,
                     {corner_of(rig, unsolved) + ": " +
                      (corner.motion ? "not known for as long as it was followed" : corner.motion.error().why)});
}

std::string weather_of(const Rig& rig, const arrest::Reset& reset) {
  const mainline::MainLine* main_line = rig.main_line.solved();
  if (!main_line) return "straight main line";
  const mainline::StatePath& path = main_line->paths[static_cast<std::size_t>(reset.path)];
  return mainline::name_of(*main_line, main_line->states[static_cast<std::size_t>(path.state)]);
}

}  // namespace fairlead
