#include <fmt/format.h>

#include "geometry/arrest/names.hpp"
#include "report/tables/corner_columns.hpp"
#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

using arrest::CornerResult;
using arrest::Motion;
using arrest::Peak;

struct Measure {
  const char* heading;
  Dimension dimension;
  Peak Motion::*peak;
};
constexpr Measure measures[] = {
    {"line speed", Dimension::speed, &Motion::line_speed_m_per_s},
    {"tension at the unit", Dimension::force, &Motion::unit_tension_N},
    {"load raw", Dimension::ratio, &Motion::load_raw},
    {"load at 5 Hz", Dimension::ratio, &Motion::load_filtered},
    {"load held 0.2 s", Dimension::ratio, &Motion::load_held},
    {"load rises, per s", Dimension::ratio, &Motion::load_onset_per_s},
    {"slowed at 5 Hz", Dimension::acceleration, &Motion::deceleration_filtered_m_per_s2},
    {"swing forward", Dimension::angle, &Motion::swing_forward_rad},
    {"swing back", Dimension::angle, &Motion::swing_back_rad},
};

/// In the place of an outcome.
std::string unsolved_words(const Rig& rig, const CornerResult& corner, const Style& style) {
  if (corner.arrives()) return "unsolved";
  std::string stalls = "stalls before the brake trolley";
  if (corner.hangs_at_m)
    return stalls + ", hangs at chainage " + words::travel(chainage_of_along_m(rig, *corner.hangs_at_m), style);
  if (corner.back_at_start_m_per_s)
    return stalls + ", rolls back over the start at " +
           words::shown(*corner.back_at_start_m_per_s, Dimension::speed, style);
  return stalls;
}

void add_motion(const CornerResult& corner, std::vector<Cell>& cells) {
  if (!corner.motion) {
    cells.insert(cells.end(), 3 + std::size(measures), Cell{});
    return;
  }
  const Motion& motion = *corner.motion;
  cells.push_back(cell(motion.stop_travel_m, Dimension::length));
  cells.push_back(cell(motion.stop_time_s, Dimension::time));
  cells.push_back(cell(corner.greatest_extension_m().value, Dimension::length));
  for (const Measure& measure : measures) cells.push_back(cell((motion.*measure.peak).value, measure.dimension));
}

void add_rest(const Rig& rig, const CornerResult& corner, std::vector<Cell>& cells) {
  if (!corner.rest) {
    cells.insert(cells.end(), {Cell{}, Cell{}, Cell{"not known"}});
    return;
  }
  const auto chainage = [&](double travel_m) { return cell(chainage_of_travel_m(rig, travel_m), Dimension::length); };
  cells.insert(cells.end(), {chainage(corner.rest->earliest_m), chainage(corner.rest->latest_m),
                             Cell{std::string(arrest::word_for(corner.rest->how))}});
}

/// "extension, line speed": what the corner is the worst for.
std::string governs(const arrest::Governing& g, int corner) {
  const std::pair<int, const char*> results[] = {
      {g.arrival_speed, "arrival speed"}, {g.stop_travel, "farthest stop"}, {g.farthest_travel, "farthest travel"},
      {g.shortest_stop, "nearest stop"},  {g.extension, "extension"},       {g.line_speed, "line speed"},
      {g.unit_tension, "tension"},        {g.load_raw, "load raw"},         {g.load_filtered, "load at 5 Hz"},
      {g.load_held, "load held"},         {g.load_onset, "rise of load"},   {g.deceleration, "slowing"},
      {g.swing_forward, "swing forward"}, {g.swing_back, "swing back"},     {g.earliest_rest, "earliest rest"},
      {g.latest_rest, "latest rest"}};
  std::string all;
  for (const auto& [worst, result] : results)
    if (worst == corner) all += (all.empty() ? "" : ", ") + std::string(result);
  return all;
}

}  // namespace

Table corners(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Corners of the arrest: predicted, untested", {"corner"}, {}, {}};
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) return undetermined(std::move(table), rig.arrest.result->error());
  std::vector<arrest::Corner> shown;
  for (const CornerResult& corner : arrest->corners) shown.push_back(corner.corner);
  const CornerColumns columns = corner_columns(rig, shown);
  table.headings.insert(table.headings.end(), columns.headings.begin(), columns.headings.end());
  table.headings.insert(table.headings.end(), {"arrives at", "outcome", "farthest travel", "after", "extension"});
  for (const Measure& measure : measures) table.headings.emplace_back(measure.heading);
  table.headings.insert(table.headings.end(), {"rests from chainage", "to chainage", "how", "governs"});
  table.notes = {
      "Farthest travel and after: where and when the brake trolley first stands still after contact, or as far as it "
      "was followed. Greatest values of the whole motion, the instant of the impact left out; extension: of a later "
      "creep too. Load: lanyard force over "
      "the rider's weight, raw, low-passed at 5 Hz and held for 0.2 s. Slowed: the rider trolley. Rests: what "
      "resistance holds him in, in the end. Governs: what no other corner is worse for.",
      "Of who does not stop, the numbers are those up to where he was followed, not the greatest there may be."};
  for (std::size_t i = 0; i < arrest->corners.size(); ++i) {
    const CornerResult& corner = arrest->corners[i];
    std::vector<Cell> cells{corner_number(static_cast<int>(i))};
    cells.insert(cells.end(), columns.cells[i].begin(), columns.cells[i].end());
    cells.push_back(corner.arrives() ? cell(corner.arrival_speed_m_per_s, Dimension::speed) : Cell{});
    cells.emplace_back(corner.motion ? std::string(arrest::word_for(corner.motion->outcome))
                                     : unsolved_words(rig, corner, style));
    add_motion(corner, cells);
    add_rest(rig, corner, cells);
    cells.emplace_back(governs(arrest->governing, static_cast<int>(i)));
    table.rows.push_back(std::move(cells));
    if (!corner.motion && corner.arrives())
      table.notes.push_back(
          fmt::format("Corner {}: {}.", corner_number(static_cast<int>(i)), corner.motion.error().why));
  }
  return table;
}

}  // namespace fairlead::tables
