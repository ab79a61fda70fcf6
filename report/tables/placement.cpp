#include <fmt/format.h>

#include "report/tables/parts.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

constexpr const char* moves_alone =
    "A mark moves by itself: a dead end, the main line's end, a free sheave go with the bearing point of their anchor; "
    "sheaves, the unit and feet are marks of their own. Axles lie as drawn; lines are made to fit.";

/// "downstream", "to the right", "down"
const char* toward(FrameAxis axis, bool more) {
  switch (axis) {
    case FrameAxis::along:
      return more ? "downstream" : "upstream";
    case FrameAxis::across:
      return more ? "to the left" : "to the right";
    case FrameAxis::up:
      return more ? "up" : "down";
  }
  return "";
}

std::vector<Cell> row_of(const Layout& layout, const std::string& id, const char* way, const Reach& reach,
                         const Style& style) {
  std::vector<Cell> row{id, way, words::allowance(reach.holds, style)};
  if (!reach.first) {
    row.insert(row.end(), {Cell{"nothing as far as was looked"}, Cell{}, Cell{}});
    return row;
  }
  const Finding& first = *reach.first;
  row.insert(row.end(), {Cell{std::string(first.check->name)}, Cell{words::name_of(layout, first.subject)},
                         first.travel_m ? Cell{words::travel(*first.travel_m, style)} : Cell{}});
  return row;
}

}  // namespace

Table tolerance_box(const Dossier& dossier, const Style& style) {
  Table table{"Box of all marks at once", {"mark", "along", "across", "up"}, {}, {}, {{1, 2, 3}}};
  if (!dossier.placement) {
    table.notes = {"Not computed: set out to the numbers."};
    return table;
  }
  const Placement& placement = *dossier.placement;
  if (!placement.box) return undetermined(std::move(table), placement.box.error());
  const ToleranceBox& box = *placement.box;
  for (std::size_t p = 0; p < placement.points.size(); ++p) {
    std::vector<Cell> row{placement.points[p].id};
    for (const std::optional<double>& allowed_m : placement.allowed_m(p))
      row.push_back(allowed_m ? Cell{"\u00B1 " + words::allowance(*allowed_m, style)} : Cell{});
    table.rows.push_back(std::move(row));
  }
  table.notes = {
      fmt::format("Every mark may be off by so much at once, in any combination, and every check that passes as drawn "
                  "still holds. Rounded down; no more than {} is given.",
                  words::allowance(box.most, style)),
      fmt::format("Proof: {} combinations judged: each mark at each end of its amounts, and for every check that uses "
                  "half of its reserve all marks off the ways that cost it most, and the opposite ways. Bound of a "
                  "check: the sum of its single losses and the most that a judged combination lost beyond that sum. "
                  "Between judged combinations estimated, not proven.",
                  box.judged),
      moves_alone};
  if (!box.binding.empty()) {
    const Binding& most = box.binding.front();
    table.notes.push_back(
        fmt::format("What narrows it most: {}, {}: {:.0f} % of its reserve used.", most.finding.check->name,
                    words::name_of(dossier.judged.rig.layout, most.finding.subject), 100 * most.loss / most.reserve));
  }
  return table;
}

Table windows(const Dossier& dossier, const Style& style) {
  Table table{"Placement windows", {"mark", "toward", "holds to", "first to give way", "of", "at travel"}, {}, {}};
  if (!dossier.placement || !dossier.placement->windows) return table;
  const Placement& placement = *dossier.placement;
  const Windows& windows = *placement.windows;
  const Layout& layout = dossier.judged.rig.layout;
  for (std::size_t v = 0; v < windows.windows.size(); ++v) {
    const std::string& id = placement.points[placement.axes[v].point].id;
    const Window& window = windows.windows[v];
    table.rows.push_back(row_of(layout, id, toward(placement.axes[v].axis, false), window.less, style));
    table.rows.push_back(row_of(layout, id, toward(placement.axes[v].axis, true), window.more, style));
  }
  table.notes = {
      fmt::format("One mark off at a time, all others as drawn: not a tolerance for a crew, which the box of all marks "
                  "is. Looked as far as {}; what gives way does so within {} or {:.0f} % beyond.",
                  words::allowance(windows.search.reach, style), words::allowance(windows.search.fine, style),
                  100 * windows.search.fine_share),
      moves_alone};
  if (!windows.unwatched.empty())
    table.notes.push_back(
        windows.unwatched.size() == 1
            ? "1 finding that does not pass as drawn is not looked at."
            : fmt::format("{} findings that do not pass as drawn are not looked at.", windows.unwatched.size()));
  return table;
}

}  // namespace fairlead::tables
