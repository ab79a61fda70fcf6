#include "geometry/rig/line_numbers.hpp"

namespace fairlead {
namespace {

std::optional<double> number_of(const Rig& rig, Item line, std::vector<double> reeving::Reeving::*per_line) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  const auto index = reeved_line(rig, line);
  if (!reeving || !index) return std::nullopt;
  return (reeving->*per_line).at(*index);
}

}  // namespace

std::vector<Item> all_lines(const Layout& layout) {
  std::vector<Item> lines;
  for (std::size_t i = 0; i < layout.lines.size(); ++i) lines.push_back({Item::Kind::line, static_cast<int>(i)});
  for (std::size_t i = 0; i < layout.support_lines.size(); ++i)
    lines.push_back({Item::Kind::support_line, static_cast<int>(i)});
  return lines;
}

std::optional<std::size_t> reeved_line(const Rig& rig, Item line) {
  for (std::size_t i = 0; i < rig.lines.size(); ++i)
    if (rig.lines[i] == line) return i;
  return std::nullopt;
}

std::optional<double> finished_length_m(const Rig& rig, Item line) {
  return number_of(rig, line, &reeving::Reeving::finished_length_m);
}

std::optional<double> unloaded_length_m(const Rig& rig, Item line) {
  return number_of(rig, line, &reeving::Reeving::unloaded_length_m);
}

std::optional<double> cut_length_m(const Rig& rig, Item line) {
  const auto unloaded_m = unloaded_length_m(rig, line);
  if (!unloaded_m || line.kind != Item::Kind::line) return std::nullopt;
  const auto& tails_m = rig.layout.lines.at(static_cast<std::size_t>(line.index)).tails_m;
  if (!tails_m) return std::nullopt;
  return *unloaded_m + *tails_m;
}

std::optional<double> rest_tension_N(const Rig& rig, Item line) {
  return number_of(rig, line, &reeving::Reeving::rest_tension_N);
}

std::optional<Extreme> greatest_tension_N(const Rig& rig, Item line) {
  const loads::Loads* loads = rig.loads.solved();
  const auto index = reeved_line(rig, line);
  if (!loads || !index) return std::nullopt;
  return loads->lines.at(*index).tension_N;
}

}  // namespace fairlead
