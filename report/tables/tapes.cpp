#include <fmt/format.h>

#include <cmath>

#include "geometry/asbuilt/as_built.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

std::string share_of(const Leftover& left) {
  return left.redundancy > 0 ? fmt::format("{:.0f} %", 100 * left.redundancy) : "nothing";
}

std::string deviations(const Leftover& left) {
  return std::isfinite(left.standardised) ? fmt::format("{:+.1f}", left.standardised) : "-";
}

}  // namespace

Table tapes(const AsBuilt& as_built, const Style&) {
  Table table{"Tapes and rises, adjusted",
              {"reading", "read", "uncertainty", "left over", "in its deviations", "checked by others"},
              {},
              {}};
  if (!as_built.placing.taping) return table;
  const Taping& taping = *as_built.placing.taping;
  const Adjustment& it = taping.adjustment;
  bool unchecked = false;
  for (std::size_t r = 0; r < taping.readings.size(); ++r) {
    const SiteReading& one = taping.readings[r];
    const Leftover& left = it.readings[r];
    unchecked = unchecked || !(left.redundancy > 0);
    table.rows.push_back(
        {fmt::format("{}{} to {}", one.kind == NetworkReading::Kind::rise ? "rise " : "", one.from, one.to),
         cell(one.value_m, Dimension::length), cell(one.uncertainty_m, Dimension::length),
         cell(left.residual_m, Dimension::length), deviations(left), share_of(left)});
  }
  table.notes.push_back(
      fmt::format("Least squares {}. Left over: as adjusted, less as read. "
                  "Chi-squared {:.1f} of {} "
                  "degree{} of freedom, which chance exceeds with {:.1f} %; a residual beyond {:.2f} of its own "
                  "deviations, or less "
                  "than a thousandth of chance, is not believed.",
                  as_built.survey.terms.tapes_alone ? "from the control marks as drawn, which do not move"
                                                    : "with the shot points, in their frame",
                  it.chi_squared, it.redundancy, it.redundancy == 1 ? "" : "s", 100 * it.probability, rejected_beyond));
  if (const std::string worst = worst_of(taping); !worst.empty())
    table.notes.push_back(fmt::format("The worst is {}, {:.1f} of its deviations.", worst, it.worst));
  if (unchecked)
    table.notes.emplace_back(
        "Where nothing checks a reading, an error in it stays unseen and stands in the mark: read it twice, or from "
        "one "
        "mark more.");
  for (std::size_t p = 0; p < taping.ids.size(); ++p)
    if (!it.open[p].empty()) table.notes.push_back(fmt::format("{} is not placed: {}.", taping.ids[p], it.open[p]));
  return table;
}

}  // namespace fairlead::tables
