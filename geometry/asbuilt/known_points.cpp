#include "geometry/asbuilt/known_points.hpp"

#include <cmath>

namespace fairlead {
namespace {

/// A unit that was taken for another, by how many times too large it makes a length.
struct WrongUnit {
  double times;
  const char* words;
};
constexpr WrongUnit wrong_units[] = {
    {1 / 0.3048, "feet, taken for metres"},  {0.3048, "metres, taken for feet"},
    {1000, "millimetres, taken for metres"}, {0.001, "metres, taken for millimetres"},
    {304.8, "millimetres, taken for feet"},  {1 / 304.8, "feet, taken for millimetres"}};

}  // namespace

std::map<std::string, Known> known_points(const Layout& layout, const std::vector<SetOutPoint>& marks) {
  std::map<std::string, Known> known;
  for (std::size_t m = 0; m < marks.size(); ++m) known[marks[m].id] = {static_cast<int>(m), marks[m].at};
  if (layout.points)
    for (const SurveyPoint& peg : *layout.points->pegs) known.try_emplace(peg.id, Known{-1, peg.at});
  return known;
}

const char* wrong_unit(double times_too_large, double slack) {
  for (const WrongUnit& wrong : wrong_units)
    if (std::abs(times_too_large / wrong.times - 1) < slack) return wrong.words;
  return nullptr;
}

}  // namespace fairlead
