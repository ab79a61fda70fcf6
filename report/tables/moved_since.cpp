#include <fmt/format.h>

#include <algorithm>

#include "geometry/asbuilt/as_built.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::tables {
namespace {

constexpr std::size_t most_named = 24;  // of a survey of the whole slope the rest is in the JSON

std::string ids(const std::vector<std::string>& names) {
  const std::size_t shown = std::min(names.size(), most_named);
  return fmt::format("{}{}", fmt::join(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(shown), ", "),
                     names.size() > most_named ? fmt::format(" and {} more", names.size() - most_named) : "");
}

}  // namespace

Table moved_since(const AsBuilt& as_built) {
  Table table{"Moved since the earlier survey",
              {"point", "along", "left", "up", "uncertainty", "shows from", "moved"},
              {},
              {},
              {{1, 2, 3, 4, 5}}};
  if (!as_built.since) return table;
  const Since& since = *as_built.since;
  bool control = false;
  for (const Movement& one : since.movements) {
    const Vec3 u = one.uncertainty_m;
    const double most = std::max({u.x, u.y, u.z});
    control = control || one.control;
    table.rows.push_back({one.id + (one.control ? " *" : ""), cell(one.by_m.x, Dimension::length),
                          cell(one.by_m.y, Dimension::length), cell(one.by_m.z, Dimension::length),
                          cell(most, Dimension::length), cell(shows_from * most, Dimension::length),
                          std::string(keyword(one.moved))});
  }
  table.notes.push_back(fmt::format(
      "Along the main line toward the landing, to its left, up; both surveys fitted to the same points. Uncertainty: "
      "standard, of both surveys and their fits, of the coordinate that has the most. Moved: by more than {:.2f} of it "
      "along an axis; a point that stood still is called so in 5 % of pairs of surveys at most. Shows from: a movement "
      "so large is called so in 95 % of pairs at least; a smaller one may stay unseen.",
      moved_beyond));
  if (control) table.notes.emplace_back("* Fitted to in both surveys: the fit takes a part of its movement away.");
  if (!since.placing.doubt.empty())
    table.notes.push_back("No place of the earlier survey is believed: " + since.placing.doubt + ".");
  if (!since.only_now.empty()) table.notes.push_back("Not in the earlier survey: " + ids(since.only_now) + ".");
  if (!since.only_then.empty()) table.notes.push_back("In the earlier survey alone: " + ids(since.only_then) + ".");
  return table;
}

}  // namespace fairlead::tables
