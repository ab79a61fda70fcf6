#include "geometry/studies/reductions.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/arrest/names.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

Cell stop_of(const Reductions::Rider& rider) {
  if (!rider.motion) return std::string("not solved");
  if (rider.motion->outcome == arrest::Outcome::stops) return cell(rider.motion->stop_travel_m, Dimension::length);
  if (rider.motion->outcome == arrest::Outcome::travel_exhausted) return std::string("runs through");
  return std::string(arrest::word_for(rider.motion->outcome));
}

std::string rest_of(const Reductions::Rider& rider, const Style& style) {
  if (!rider.rest) return "\u2013";
  const arrest::FinalRest& rest = *rider.rest;
  if (rest.latest_m == 0) return fmt::format("{}, to the mark", arrest::word_for(rest.how));
  const std::string where = rest.earliest_m == rest.latest_m
                                ? words::shown(rest.latest_m, Dimension::length, style)
                                : fmt::format("{} to {}", words::shown(rest.earliest_m, Dimension::length, style),
                                              words::shown(rest.latest_m, Dimension::length, style));
  if (rest.how == arrest::FinalRest::How::held_back) return "held at " + where;
  return fmt::format("{}: {}", arrest::word_for(rest.how), where);
}

/// The greater of both riders; nothing where one is not solved.
Cell greater_of(const Reductions::Design& design, Dimension dimension, double (*value)(const arrest::Motion&)) {
  if (!design.farthest.motion || !design.shortest.motion) return std::string("not solved");
  return cell(greater(value(*design.farthest.motion), value(*design.shortest.motion)), dimension);
}

}  // namespace

Table reductions(const Dossier& dossier, const Style& style) {
  Table table{"Reductions and slopes compared: predicted, untested",
              {"ratio", "slope", "stopping travel, farthest", "stopping travel, shortest", "greatest line speed",
               "greatest swing", "final rest, farthest", "final rest, shortest", "least reserve", "resets"},
              {},
              {},
              {{2, 3}}};
  if (!dossier.arrest) return table;
  if (!dossier.arrest->reductions) {
    table.notes.push_back(dossier.arrest->reductions.error().why);
    return table;
  }
  const Reductions& all = *dossier.arrest->reductions;
  for (const Reductions::Design& design : all.designs)
    table.rows.push_back(
        {fmt::format("{:g}:1", design.ratio), fmt::format("{:g} %", 100 * design.slope), stop_of(design.farthest),
         stop_of(design.shortest),
         greater_of(design, Dimension::speed, [](const arrest::Motion& m) { return m.line_speed_m_per_s.value; }),
         greater_of(design, Dimension::angle,
                    [](const arrest::Motion& m) { return greater(m.swing_forward_rad.value, m.swing_back_rad.value); }),
         rest_of(design.farthest, style), rest_of(design.shortest, style),
         cell(design.least_reserve_N, Dimension::force), std::string(design.resets() ? "yes" : "no")});
  const bool windy = dossier.judged.rig.arrest.inputs->wind_m_per_s > 0;
  table.notes.emplace_back("Runs through: through the planned travel. Held at: held where it stopped.");
  table.notes.push_back(fmt::format(
      "Farthest: heaviest rider at {},{} least rolling resistance, weakest brake. Shortest: lightest rider at {},{} "
      "greatest rolling resistance, strongest brake.",
      words::shown(all.arrival_m_per_s.high, Dimension::speed, style), windy ? " tail wind," : "",
      words::shown(all.arrival_m_per_s.low, Dimension::speed, style), windy ? " head wind," : ""));
  const std::string sheaves =
      dossier.judged.rig.idea
          ? fmt::format("its sheaves leave {:g} % of the work whatever the ratio", 100 * all.efficiency)
          : "no friction of sheaves";
  table.notes.push_back(fmt::format(
      "Straight main line, ideal reduction: {}, no lead of the lines, no sag under the rider. For comparing ratios and "
      "slopes with one another, not for judging this {}. Slope: rising toward the landing positive.",
      sheaves, dossier.judged.rig.idea ? "concept" : "layout"));
  return table;
}

}  // namespace fairlead::tables
