#include <fmt/format.h>

#include "geometry/arrest/names.hpp"
#include "report/tables/corner_columns.hpp"
#include "report/tables/parts.hpp"

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
    {"extension", Dimension::length, &Motion::extension_m},
    {"line speed", Dimension::speed, &Motion::line_speed_m_per_s},
    {"tension at the unit", Dimension::force, &Motion::unit_tension_N},
    {"load raw", Dimension::ratio, &Motion::load_raw},
    {"load at 5 Hz", Dimension::ratio, &Motion::load_filtered},
    {"load held 0.2 s", Dimension::ratio, &Motion::load_held},
    {"slowed at 5 Hz", Dimension::acceleration, &Motion::deceleration_filtered_m_per_s2},
    {"swing forward", Dimension::angle, &Motion::swing_forward_rad},
    {"swing back", Dimension::angle, &Motion::swing_back_rad},
};

/// In the place of an outcome.
std::string unsolved_words(const CornerResult& corner) {
  return corner.hangs_at_m || !(corner.arrival_speed_m_per_s > 0) ? "stalls before the brake trolley" : "unsolved";
}

void add_motion(const CornerResult& corner, std::vector<Cell>& cells) {
  if (!corner.motion) {
    cells.insert(cells.end(), 2 + std::size(measures), Cell{});
    return;
  }
  const Motion& motion = *corner.motion;
  cells.push_back(cell(motion.stop_travel_m, Dimension::length));
  cells.push_back(cell(motion.stop_time_s, Dimension::time));
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

}  // namespace

Table corners(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Corners of the arrest: predicted, untested", {"corner"}, {}, {}};
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!arrest) return undetermined(std::move(table), rig.arrest.result->error());
  const CornerColumns columns = corner_columns(*rig.main_line.solved(), rig.approach.solved()->corners);
  table.headings.insert(table.headings.end(), columns.headings.begin(), columns.headings.end());
  table.headings.insert(table.headings.end(), {"arrives at", "outcome", "farthest travel", "after"});
  for (const Measure& measure : measures) table.headings.emplace_back(measure.heading);
  table.headings.insert(table.headings.end(), {"rests from chainage", "to chainage", "how"});
  table.notes = {
      "Farthest travel and after: where and when the brake trolley first stands still after contact, or as far as it "
      "was followed. Greatest values of the whole motion, the instant of the impact left out. Load: lanyard force over "
      "the rider's weight, raw, low-passed at 5 Hz and held for 0.2 s. Slowed: the rider trolley. Rests: what "
      "resistance holds him in, in the end.",
      "Of who does not stop, the numbers are those up to where he was followed, not the greatest there may be."};
  for (std::size_t i = 0; i < arrest->corners.size(); ++i) {
    const CornerResult& corner = arrest->corners[i];
    std::vector<Cell> cells{corner_number(static_cast<int>(i))};
    cells.insert(cells.end(), columns.cells[i].begin(), columns.cells[i].end());
    cells.push_back(corner.arrival_speed_m_per_s > 0 ? cell(corner.arrival_speed_m_per_s, Dimension::speed) : Cell{});
    cells.emplace_back(corner.motion ? std::string(arrest::word_for(corner.motion->outcome)) : unsolved_words(corner));
    add_motion(corner, cells);
    add_rest(rig, corner, cells);
    table.rows.push_back(std::move(cells));
    if (!corner.motion && corner.arrival_speed_m_per_s > 0)
      table.notes.push_back(
          fmt::format("Corner {}: {}.", corner_number(static_cast<int>(i)), corner.motion.error().why));
  }
  return table;
}

}  // namespace fairlead::tables
