#include <cmath>

#include "geometry/arrest/names.hpp"
#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

/// Too short fails too: the window's two ends, one finding each.
struct End {
  const char* words;
  std::optional<Real> Landing::*window;
  Sense sense;
  double arrest::FinalRest::*place;
};
constexpr End ends[] = {
    {"short of", &Landing::earliest_rest_m, Sense::least, &arrest::FinalRest::earliest_m},
    {"beyond", &Landing::latest_rest_m, Sense::greatest, &arrest::FinalRest::latest_m},
};

void judge(const Rig& rig, const End& end, std::vector<Finding>& out) {
  Finding finding{.check = &final_rest, .subject = {Item::Kind::landing, 0}};
  const auto& landing = rig.layout.landing;
  const std::optional<Real> window = landing ? (*landing).*end.window : std::nullopt;
  if (landing) finding.place = landing->place;
  const double rest_m = rig.layout.brake_trolley.rest_m;
  std::optional<Limit> limit;
  if (window) limit = Limit{*window, "pick-up window"}, finding.place = window->place;
  finding.facts.push_back({"end", std::string(end.words)});
  const arrest::Arrest* arrest = arrest_of(rig, finding);
  int worst = -1, unknown = -1;
  double chainage_m = std::nan("");
  for (std::size_t c = 0; arrest && c < arrest->corners.size(); ++c) {
    const auto& rest = arrest->corners[c].rest;
    if (!rest) {
      if (unknown < 0) unknown = static_cast<int>(c);
      continue;
    }
    const double here_m = rest_m + (*rest).*end.place;
    if (worst < 0 || (end.sense == Sense::least ? here_m < chainage_m : here_m > chainage_m))
      worst = static_cast<int>(c), chainage_m = here_m;
  }
  if (worst >= 0) {
    measure(finding, Extreme{chainage_m, chainage_m}, end.sense, limit);
    if (!limit) finding.why = "no pick-up window given";
    const arrest::FinalRest& rest = *arrest->corners[static_cast<std::size_t>(worst)].rest;
    finding.travel_m = rest.*end.place;
    finding.facts.push_back({"corner", corner_of(rig, worst)});
    finding.facts.push_back({"how", std::string(arrest::word_for(rest.how))});
  }
  if (unknown >= 0 && finding.verdict != Verdict::fail)
    leave_undetermined(finding, {corner_of(rig, unknown) + (arrest->corners[static_cast<std::size_t>(unknown)].arrives()
                                                                ? ": where he rests is not known"
                                                                : ": he stalls short of the brake trolley")});
  out.push_back(finding);
}

void run(const Rig& rig, std::vector<Finding>& out) {
  for (const End& end : ends) judge(rig, end, out);
}

}  // namespace

const Check final_rest{
    .name = "final-rest",
    .title = "Riders stay where they can be picked up",
    .sentence = "the rider who comes to rest nearest to {end} the window {how} at chainage {value} ({corner})",
    .formula =
        "final rest after creep, hold or roll-back of every corner, both ends of what resistance holds, within "
        "earliest_rest and latest_rest",
    .source = "own definition",
    .remedy =
        "shift the window, let a device hold the trolley where it stopped, or change brake or reduction so that "
        "riders stop nearer together",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
