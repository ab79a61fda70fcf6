#include "report/tables/corner_columns.hpp"

#include <algorithm>

#include "geometry/checks/corners.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

using arrest::Corner;
using arrest::Wind;

std::string wind_of(const Corner& corner) { return corner.wind == Wind::head ? "head" : "tail"; }

}  // namespace

CornerColumns corner_columns(const Rig& rig, const std::vector<Corner>& corners) {
  CornerColumns columns;
  columns.cells.resize(corners.size());
  const auto add = [&](const char* heading, auto&& word) {
    std::vector<std::string> words;
    words.reserve(corners.size());
    for (const Corner& corner : corners) words.push_back(word(corner));
    if (std::adjacent_find(words.begin(), words.end(), std::not_equal_to<>()) == words.end()) return;
    columns.headings.emplace_back(heading);
    for (std::size_t i = 0; i < words.size(); ++i) columns.cells[i].emplace_back(words[i]);
  };
  const auto one_of = [](bool Corner::*end, const char* low, const char* high) {
    return [=](const Corner& corner) { return std::string(corner.*end ? high : low); };
  };
  add("rider", one_of(&Corner::heaviest, "lightest", "heaviest"));
  add("speed", one_of(&Corner::fastest, "slowest", "fastest"));
  add("wind", wind_of);
  add("rolling", one_of(&Corner::high_rolling, "least", "most"));
  add("brake", one_of(&Corner::strong_brake, "weakest", "strongest"));
  if (const mainline::MainLine* main_line = rig.main_line.solved())
    add("main line", [&](const Corner& corner) {
      const mainline::StatePath& path = main_line->paths.at(static_cast<std::size_t>(corner.path));
      return words::name_of(*main_line, main_line->states.at(static_cast<std::size_t>(path.state)));
    });
  return columns;
}

std::string corner_number(int corner) { return corner < 0 ? "none" : std::to_string(corner + 1); }

std::string numbered_corner(const Rig& rig, int corner) {
  return corner < 0 ? corner_number(corner) : corner_number(corner) + ": " + corner_of(rig, corner);
}

double chainage_of_along_m(const Rig& rig, double along_m) { return along_m + rig.frame.chainage_of_origin_m; }

double chainage_of_travel_m(const Rig& rig, double travel_m) {
  return travel_m + rig.layout.brake_trolley.rest_m.value;
}

}  // namespace fairlead::tables
