#include "report/words/states.hpp"

#include <fmt/format.h>

#include "geometry/layout/line_fields.hpp"

namespace fairlead::words {

std::string_view word_for(reeving::Running running) {
  switch (running) {
    case reeving::Running::at_rest:
      return "at rest";
    case reeving::Running::paying_out:
      return "paying out";
  }
  return "unknown";
}

std::string_view word_for(reeving::Friction friction) {
  switch (friction) {
    case reeving::Friction::none:
      return "none";
    case reeving::Friction::paying_out:
      return "paying out";
    case reeving::Friction::returning:
      return "returning";
  }
  return "unknown";
}

std::string_view word_for(loads::Action action) {
  switch (action) {
    case loads::Action::at_rest:
      return "at rest";
    case loads::Action::returning:
      return "returning";
    case loads::Action::wind:
      return "wind";
    case loads::Action::peak_tension:
      return "peak line tension";
    case loads::Action::arrest:
      return "arrest";
    case loads::Action::arrest_return:
      return "drawn back after an arrest";
    case loads::Action::rider_on_span:
      return "rider on span";
    case loads::Action::both_lines:
      return "riders on parallel lines";
    case loads::Action::rescue:
      return "rescue";
    case loads::Action::backup_brake:
      return "backup brake";
    case loads::Action::ice:
      return "ice";
    case loads::Action::storm:
      return "storm";
    case loads::Action::ice_and_wind:
      return "ice and wind";
    case loads::Action::member_lost:
      return "member lost";
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

std::string name_of(const mainline::MainLine& main_line, const mainline::StatePath& path) {
  const mainline::State& state = main_line.states.at(static_cast<std::size_t>(path.state));
  return fmt::format("{}, {}", word_for(path.loading), name_of(main_line, state));
}

std::string name_of(const mainline::MainLine& main_line, const reeving::Sweep& sweep) {
  const mainline::StatePath& path = main_line.paths.at(static_cast<std::size_t>(sweep.path));
  return fmt::format("{}, {}", name_of(main_line, path), word_for(sweep.running));
}

}  // namespace fairlead::words
