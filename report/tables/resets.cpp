#include <cmath>

#include "geometry/checks/corners.hpp"
#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

Cell stopping_ratio(double n, const Style& style) {
  if (std::isinf(n)) return "above 20:1";
  return words::shown(n, Dimension::ratio, style) + ":1";
}

}  // namespace

Table resets(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{
      "Way back of the empty trolley: predicted, untested",
      {"main line", "least reserve", "at travel", "comes back", "after", "at its mark with", "ratio at which it stops"},
      {},
      {}};
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) return undetermined(std::move(table), rig.arrest.result->error());
  for (const arrest::Reset& reset : arrest->resets)
    table.rows.push_back({weather_of(rig, reset), cell(reset.least_reserve_N, Dimension::force),
                          cell(reset.at_travel_m, Dimension::length), reset.returns ? "by itself" : "not by itself",
                          reset.returns ? cell(reset.time_s, Dimension::time) : Cell{},
                          reset.returns ? cell(reset.speed_at_mark_m_per_s, Dimension::speed) : Cell{},
                          stopping_ratio(reset.ratio_at_which_it_stops, style)});
  table.notes = {
      "Least reserve: what draws it to its mark less what hinders it, with the greatest rolling resistance; below 0 it "
      "stays there. After, and with: let go at full travel, with the least. Ratio at which it stops: the reduction at "
      "which nothing of the reserve is left, all else as it is."};
  return table;
}

}  // namespace fairlead::tables
