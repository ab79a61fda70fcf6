#include "report/words/states.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/layout/line_fields.hpp"

namespace fairlead::words {

std::string_view word_for(mainline::Weather weather) {
  switch (weather) {
    case mainline::Weather::measured:
      return "as measured";
    case mainline::Weather::cold:
      return "cold";
    case mainline::Weather::warm:
      return "warm";
  }
  return "unknown";
}

std::string_view word_for(mainline::Loading loading) {
  switch (loading) {
    case mainline::Loading::empty:
      return "empty";
    case mainline::Loading::lightest:
      return "lightest rider";
    case mainline::Loading::heaviest:
      return "heaviest rider";
  }
  return "unknown";
}

std::string_view word_for(reeving::Running running) {
  switch (running) {
    case reeving::Running::at_rest:
      return "at rest";
    case reeving::Running::paying_out:
      return "paying out";
    case reeving::Running::returning:
      return "returning";
  }
  return "unknown";
}

std::string_view word_for(LineMaterial material) {
  for (const auto& choice : choices_of<LineMaterial>)
    if (choice.value == material) return choice.word;
  return "unknown";
}

std::string_view turning_of(int sense) {
  const Turning turning = sense > 0 ? Turning::anticlockwise : Turning::clockwise;
  for (const auto& choice : choices_of<Turning>)
    if (choice.value == turning) return choice.word;
  return "unknown";
}

std::string name_of(const mainline::MainLine& main_line, const mainline::State& state) {
  const auto differs = [&](bool mainline::State::*end) {
    return std::any_of(main_line.states.begin(), main_line.states.end(),
                       [&](const mainline::State& other) { return other.*end != state.*end; });
  };
  std::string name(word_for(state.weather));
  if (differs(&mainline::State::stiff)) name += state.stiff ? ", stiffest" : ", softest";
  if (differs(&mainline::State::taut)) name += state.taut ? ", tautest" : ", slackest";
  return name;
}

std::string name_of(const mainline::MainLine& main_line, const reeving::Sweep& sweep) {
  const mainline::StatePath& path = main_line.paths.at(static_cast<std::size_t>(sweep.path));
  const mainline::State& state = main_line.states.at(static_cast<std::size_t>(path.state));
  return fmt::format("{}, {}, {}", word_for(path.loading), name_of(main_line, state), word_for(sweep.running));
}

}  // namespace fairlead::words
