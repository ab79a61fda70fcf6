#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

struct Measure {
  const char* words;
  std::optional<Limit> Limits::*limit;
  arrest::Peak arrest::Motion::*peak;
};
constexpr Measure measures[] = {
    {"as it is, impact left out", &Limits::rider_load_raw, &arrest::Motion::load_raw},
    {"low-passed at 5 Hz", &Limits::rider_load_filtered, &arrest::Motion::load_filtered},
    {"held for 0.2 s", &Limits::rider_load_held, &arrest::Motion::load_held},
    {"a second, the steepest rise low-passed at 5 Hz", &Limits::rider_load_onset_per_s,
     &arrest::Motion::load_onset_per_s},
};

/// One finding a measure that the layout limits; one that is not judged where it limits none.
void run(const Rig& rig, std::vector<Finding>& out) {
  const Limits& limits = rig.layout.limits;
  const std::size_t before = out.size();
  const auto judge = [&](const Measure& measure) {
    Finding finding{.check = &rider_load, .subject = {Item::Kind::rider, 0}, .place = rig.layout.riders.place};
    const std::optional<Limit>& limit = limits.*measure.limit;
    if (limit) finding.place = limit->at.place;
    judge_corners(rig, finding, Sense::greatest, limit,
                  [&](const arrest::CornerResult& corner) { return (*corner.motion).*measure.peak; });
    finding.facts.push_back({"measure", std::string(measure.words)});
    out.push_back(finding);
  };
  for (const Measure& measure : measures)
    if (limits.*measure.limit) judge(measure);
  if (out.size() == before) judge(measures[1]);
}

}  // namespace

const Check rider_load{
    .name = "rider-load",
    .title = "What the rider feels in the lanyard",
    .sentence = "{value} times the rider's weight {measure}, at travel {travel} ({corner})",
    .formula =
        "lanyard force over weight: raw, or through a 2nd-order Butterworth low-pass at 5 Hz run both ways over "
        "the whole record (continued by 1), or the greatest value held for 0.2 s, "
        "or how fast the low-passed one rises",
    .source = "own definition",
    .remedy = "let riders arrive slower, lighten the brake trolley, or let the lanyard give",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead
