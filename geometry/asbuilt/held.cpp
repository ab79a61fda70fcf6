#include "geometry/asbuilt/held.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "geometry/quantity/nearest.hpp"

namespace fairlead {
namespace {

void add(PointsErrors& errors, std::string message, std::string instead) {
  errors.first.push_back({.message = std::move(message), .instead = std::move(instead)});
}

void add_unknown(PointsErrors& errors, const std::string& id, const std::map<std::string, Known>& known) {
  std::vector<std::string> ids;
  for (const auto& [one, at] : known) ids.push_back(one);
  const auto near = nearest(id, ids);
  add(errors, fmt::format("--control: there is no mark or peg \"{}\"", id),
      near ? fmt::format("did you mean \"{}\"?", *near) : "name marks that fairlead setout lists, or pegs");
}

}  // namespace

std::vector<PlacedPoint> held_points(const std::map<std::string, Known>& known, const std::vector<SetOutPoint>& marks,
                                     const std::vector<std::string>& control, PointsErrors& errors) {
  std::vector<PlacedPoint> held;
  for (const std::string& id : control) {
    const auto found = known.find(id);
    if (found == known.end()) {
      add_unknown(errors, id, known);
      continue;
    }
    const auto& [mark, at] = found->second;
    if (std::ranges::find(held, id, &PlacedPoint::id) != held.end())
      add(errors, fmt::format("--control: \"{}\" is named twice", id), "name it once");
    else if (!at || (mark >= 0 && marks[static_cast<std::size_t>(mark)].mark == Mark::rest_mark))
      add(errors, fmt::format("--control: the rest mark, \"{}\", is no control mark: it lies on a line that hangs", id),
          "name pegs, or marks that stand");
    else
      held.push_back({.id = id,
                      .mark = mark,
                      .design = *at,
                      .measured = *at,
                      .at = *at,
                      .shot = false,
                      .held = true,
                      .control = true});
  }
  if (!errors.first.empty()) return held;
  if (held.size() < 3) {
    add(errors,
        fmt::format("--control names {} mark{}, and tapes alone need three that did not move",
                    held.empty() ? "no" : std::to_string(held.size()), held.size() == 1 ? "" : "s"),
        "name marks that stand where the layout has them, not in one line: supports, anchors, pegs");
    return held;
  }
  std::vector<FitPair> pairs;
  for (const PlacedPoint& point : held) pairs.push_back({point.design, point.design});
  if (!best_fit(pairs, FitKind::tilted))
    add(errors, "--control: the marks stand in one line, and whatever is taped from them may turn about it",
        "name one that stands aside");
  return held;
}

void refuse_other_unit(const std::vector<SiteReading>& readings, const std::map<std::string, Known>& known,
                       PointsErrors& errors) {
  std::vector<double> times;
  for (const SiteReading& one : readings) {
    const auto &from = known.at(one.from).at, &to = known.at(one.to).at;
    if (one.kind == NetworkReading::Kind::distance && from && to) times.push_back(one.value_m / norm(*to - *from));
  }
  if (times.empty()) return;
  std::ranges::sort(times);
  const double middle = times[times.size() / 2];
  constexpr double slack = 0.02;  // own: decimetres of ten metres
  if (const char* unit = wrong_unit(middle, slack))
    add(errors, fmt::format("the tapes are {:.4g} times as long as the layout has them: {}", middle, unit),
        "state the unit in which each was read");
}

double shows_from_m(const Placing& placing, const PlacedPoint& point) {
  if (placing.taping)
    for (const HeldPoint& one : placing.taping->adjustment.held)
      if (placing.taping->ids[static_cast<std::size_t>(one.point)] == point.id) return one.shows_from_m;
  return std::numeric_limits<double>::infinity();
}

}  // namespace fairlead
