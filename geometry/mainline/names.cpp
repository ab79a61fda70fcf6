#include "geometry/mainline/names.hpp"

#include <algorithm>

namespace fairlead::mainline {

std::string_view word_for(Weather weather) {
  switch (weather) {
    case Weather::measured:
      return "as measured";
    case Weather::cold:
      return "cold";
    case Weather::warm:
      return "warm";
  }
  return "unknown";
}

std::string_view word_for(Loading loading) {
  switch (loading) {
    case Loading::empty:
      return "empty";
    case Loading::lightest:
      return "lightest rider";
    case Loading::heaviest:
      return "heaviest rider";
  }
  return "unknown";
}

std::string ends_of(const MainLine& main_line, const State& state) {
  const auto differs = [&](bool State::*end) {
    return std::any_of(main_line.states.begin(), main_line.states.end(),
                       [&](const State& other) { return other.*end != state.*end; });
  };
  std::string name;
  if (differs(&State::stiff)) name += state.stiff ? ", stiffest" : ", softest";
  if (differs(&State::taut)) name += state.taut ? ", tightest" : ", slackest";
  return name;
}

std::string name_of(const MainLine& main_line, const State& state) {
  return std::string(word_for(state.weather)) + ends_of(main_line, state);
}

}  // namespace fairlead::mainline
