#include "geometry/checks/worst.hpp"

#include <fmt/format.h>

#include <limits>

#include "geometry/mainline/names.hpp"

namespace fairlead {
namespace {

const char* running_of(const reeving::SweepInputs& passage) {
  if (passage.running == reeving::Running::paying_out) return "peak line tension";
  if (passage.friction == reeving::Friction::paying_out) return "line at rest, about to be paid out";
  return passage.friction == reeving::Friction::returning ? "line returning or at rest" : "line at rest";
}

}  // namespace

WorstOfSweeps worst_of(const reeving::Reeving& reeving, Sense sense, std::span<const OfSweep> extremes) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  const double sign = sense == Sense::greatest ? 1 : -1;
  WorstOfSweeps worst{{nan, nan, -1}, -1, 0};
  for (const auto& [sweep, e] : extremes) {
    if (!std::isfinite(e.value) || std::isnan(e.bound)) return {{nan, nan, -1}, sweep, 0};
    if (worst.sweep < 0 || sign * e.bound > sign * worst.extreme.bound) worst.extreme.bound = e.bound;
    if (worst.sweep >= 0 && !(sign * e.value > sign * worst.extreme.value)) continue;
    worst.extreme.value = e.value;
    worst.extreme.pose = e.pose;
    worst.sweep = sweep;
    const auto s = static_cast<std::size_t>(sweep);
    worst.travel_m = e.pose >= 0 ? reeving.sweeps[s].poses[static_cast<std::size_t>(e.pose)].travel_m : 0;
  }
  return worst;
}

std::string passage_of(const Rig& rig, int sweep) {
  const reeving::SweepInputs& passage = rig.reeving.inputs->sweeps[static_cast<std::size_t>(sweep)];
  const mainline::MainLine& main_line = *rig.main_line.solved();
  const mainline::StatePath& path = main_line.paths[static_cast<std::size_t>(passage.path)];
  const double wind = dot(passage.wind_Pa, rig.frame.across);
  return fmt::format("{}, {}, {}{}", mainline::word_for(path.loading),
                     mainline::name_of(main_line, main_line.states[static_cast<std::size_t>(path.state)]),
                     running_of(passage),
                     wind > 0   ? ", wind to the left"
                     : wind < 0 ? ", wind to the right"
                                : "");
}

std::string weather_of(const Rig& rig, const reeving::RestPosition& position) {
  const reeving::SweepInputs& passage = rig.reeving.inputs->sweeps[static_cast<std::size_t>(position.sweep)];
  const mainline::MainLine& main_line = *rig.main_line.solved();
  const mainline::State& state =
      main_line.states[static_cast<std::size_t>(main_line.paths[static_cast<std::size_t>(passage.path)].state)];
  const std::string weather(mainline::word_for(position.measured ? mainline::Weather::measured : state.weather));
  return weather + mainline::ends_of(main_line, state);
}

std::string rest_position_of(const Rig& rig, const reeving::RestPosition& position) {
  return weather_of(rig, position) + ", " +
         running_of(rig.reeving.inputs->sweeps[static_cast<std::size_t>(position.sweep)]);
}

void measure(Finding& finding, const Extreme& extreme, Sense sense, const std::optional<Limit>& limit) {
  finding.value = extreme.value;
  finding.bound = extreme.bound;
  finding.measured = true;
  finding.limit = limit;
  finding.verdict = sense == Sense::greatest ? at_most(extreme, limit) : at_least(extreme, limit);
  if (finding.verdict == Verdict::not_judged) finding.why = "no limit given";
}

void measure(Finding& finding, const WorstOfSweeps& worst, Sense sense, const std::optional<Limit>& limit) {
  measure(finding, worst.extreme, sense, limit);
  finding.measured = worst.sweep >= 0;
  finding.travel_m = worst.travel_m;
  if (finding.verdict == Verdict::undetermined)
    finding.why = "between its poses the sweep may exceed the limit, and halving did not decide it";
}

void leave_undetermined(Finding& finding, const Unsolved& unsolved) {
  finding.verdict = Verdict::undetermined;
  finding.why = unsolved.why;
}

void leave_not_judged(Finding& finding, std::string why) {
  finding.verdict = Verdict::not_judged;
  finding.why = std::move(why);
}

void judge_braking_line(const Rig& rig, const Check& check, Extreme reeving::Sweep::*extreme,
                        const std::optional<Limit>& limit, std::vector<Finding>& out) {
  Finding finding{.check = &check, .subject = {Item::Kind::layout, 0}};
  if (rig.braking_line >= 0) {
    finding.subject = {Item::Kind::line, rig.braking_line};
    finding.place = rig.layout.lines[static_cast<std::size_t>(rig.braking_line)].id.place;
  }
  if (const reeving::Reeving* reeving = rig.reeving.solved())
    measure(finding, worst_in(false, *reeving, Sense::greatest, extreme), Sense::greatest, limit);
  else
    leave_undetermined(finding, rig.reeving.result->error());
  out.push_back(finding);
}

}  // namespace fairlead
