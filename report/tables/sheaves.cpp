#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/studies/lie.hpp"
#include "report/tables/parts.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

/// The worst fleet angle of one sheave over all sweeps in the wind or out of it, and where it was seen.
struct Worst {
  double value{};
  int sweep = -1;
  std::size_t pose{};
};

const reeving::Turn& turn_at(const reeving::Sweep& sweep, std::size_t pose, std::size_t sheave) {
  return sweep.turns[pose * (sweep.turns.size() / sweep.poses.size()) + sheave];
}

Worst greatest_fleet(const reeving::Reeving& reeving, std::size_t sheave, bool in_wind) {
  Worst worst;
  for (std::size_t s = 0; s < reeving.sweeps.size(); ++s) {
    const Extreme& fleet = reeving.sweeps[s].fleet_rad[sheave];
    if (reeving.sweeps[s].in_wind == in_wind && (worst.sweep < 0 || !(fleet.value <= worst.value)))
      worst = {fleet.value, static_cast<int>(s), static_cast<std::size_t>(std::max(fleet.pose, 0))};
  }
  return worst;
}

/// Least over the planned travel and the rider's approach alike.
double least_wrap_rad(const reeving::Reeving& reeving, std::size_t sheave) {
  double least_rad = std::numeric_limits<double>::infinity();
  for (const reeving::Sweep& sweep : reeving.sweeps)
    for (std::size_t pose = 0; pose < sweep.poses.size(); ++pose)
      least_rad = -greater(-least_rad, -turn_at(sweep, pose, sheave).wrap_rad);
  return least_rad;
}

/// Calls use(index in the reeving, the layout's sheave) for all but wheels on support lines.
template <class Use>
void for_sheaves(const Rig& rig, Use use) {
  for (std::size_t i = 0; i < rig.reeved.size(); ++i)
    if (rig.reeved[i] >= 0) use(i, rig.layout.sheaves.at(static_cast<std::size_t>(rig.reeved[i])));
}

std::size_t line_over(const reeving::Inputs& in, std::size_t sheave) {
  const auto over = std::find_if(in.lines.begin(), in.lines.end(), [&](const reeving::Line& line) {
    const auto first = static_cast<std::size_t>(line.first_sheave);
    return first <= sheave && sheave < first + static_cast<std::size_t>(line.sheaves);
  });
  return static_cast<std::size_t>(over - in.lines.begin());
}

/// A column between others; as many cells as the table has rows.
void insert_column(Table& table, std::size_t before, std::string heading, const std::vector<Cell>& cells) {
  const auto at = static_cast<std::ptrdiff_t>(before);
  table.headings.insert(table.headings.begin() + at, std::move(heading));
  for (std::size_t r = 0; r < table.rows.size(); ++r) table.rows[r].insert(table.rows[r].begin() + at, cells[r]);
}

/// Empty where none is given.
Cell friction_of(const reeving::Inputs& in, std::size_t sheave) {
  const reeving::Sheave& given = in.sheaves.at(sheave);
  if (!(given.friction > 1)) return {};
  std::string text = print_quantity({given.friction, Dimension::none});
  if (given.friction_wrap_rad > 0) text += " over " + print_quantity({given.friction_wrap_rad, Dimension::angle});
  return text;
}

/// How the sheaves are mounted and what friction they have, in layouts that say so.
void add_mounts(const Rig& rig, const Style& style, Table& table) {
  std::vector<Cell> mounts, frictions;
  bool rubs = false;
  for_sheaves(rig, [&](std::size_t i, const Sheave& sheave) {
    mounts.emplace_back(mount_of(rig.layout, sheave, style));
    frictions.push_back(rig.reeving.inputs ? friction_of(*rig.reeving.inputs, i) : Cell{});
    rubs = rubs || std::holds_alternative<std::string>(frictions.back());
  });
  if (rubs) {
    insert_column(table, 3, "K", frictions);
    table.notes.emplace_back(
        "K: tension of the trailing side of the line over that of the leading one as the sheave turns.");
  }
  if (any_mounted(rig.layout)) insert_column(table, 2, "mount", mounts);
}

}  // namespace

Table sheaves(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Sheaves",
              {"sheave", "on", "pitch diameter", "wrap at rest", "wrap at full travel", "least wrap", "worst fleet",
               "at travel", "greatest load", "utilisation"},
              {},
              {}};
  const reeving::Reeving* reeving = rig.reeving.solved();
  const loads::Loads* loads = rig.loads.solved();
  const auto rest = rest_pose(rig), full = full_pose(rig);
  for_sheaves(rig, [&](std::size_t i, const Sheave& sheave) {
    std::vector<Cell> row{sheave.id.value, carrier_of(rig.layout, sheave),
                          cell(sheave.pitch_diameter_m, Dimension::length)};
    row.resize(table.headings.size());
    if (rest) row[3] = cell(turn_at(*rest->sweep, rest->index, i).wrap_rad, Dimension::angle);
    if (full) row[4] = cell(turn_at(*full->sweep, full->index, i).wrap_rad, Dimension::angle);
    if (reeving && !reeving->sweeps.empty()) {
      const Worst fleet = greatest_fleet(*reeving, i, false), blown = greatest_fleet(*reeving, i, true);
      const auto& sweep = reeving->sweeps.at(static_cast<std::size_t>(fleet.sweep));
      const reeving::Turn& turn = turn_at(sweep, fleet.pose, i);
      row[5] = cell(least_wrap_rad(*reeving, i), Dimension::angle);
      row[6] = cell(fleet.value, Dimension::angle);
      row[7] = cell(sweep.poses.at(fleet.pose).travel_m, Dimension::length);
      std::string note =
          fmt::format("Worst fleet of {}, in still air: on the side of the {} end of its line, {}.", sheave.id.value,
                      std::abs(turn.on_fleet_rad) >= std::abs(turn.off_fleet_rad) ? "trolley's" : "other",
                      passage(rig, fleet.sweep));
      if (blown.sweep >= 0)
        note += fmt::format(" In the side wind up to {}.", words::shown(blown.value, Dimension::angle, style));
      table.notes.push_back(std::move(note));
    }
    if (loads) row[8] = cell(loads->sheaves.at(i).force_N.value, Dimension::force);
    row[9] = utilisation_of(dossier, {Item::Kind::sheave, rig.reeved[i]});
    table.rows.push_back(std::move(row));
  });
  if (rest && full)
    table.notes.push_back(
        fmt::format("At rest: {}. Full travel: {}.", told(rig, *rest, style), told(rig, *full, style)));
  if (!reeving) table.notes.push_back("Undetermined: " + rig.reeving.result->error().why);
  add_mounts(rig, style, table);
  return table;
}

Table sheave_axles(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  const auto& axes = rig.layout.site.axes;
  Table table{
      "Sheave axles",
      {"sheave", "line over it", "axle toward", "turning", "left end bears", "left end tilts"},
      {},
      {fmt::format("Axle toward: direction along {}, {}, {}. Turning: as the line runs from its end nearer the brake "
                   "trolley, seen with the axle's direction pointing at the viewer.",
                   axes[0], axes[1], axes[2]),
       fmt::format("Left end: the axle's to the left looking toward the landing. Bears: in plan, clockwise from {}. "
                   "Tilts: above level. Of a sheave that hangs free neither is set out.",
                   axes[1])}};
  for_sheaves(rig, [&](std::size_t i, const Sheave& sheave) {
    const bool known = rig.reeving.inputs.has_value();
    table.rows.push_back(
        {sheave.id.value,
         known ? Cell{words::id_of(rig.layout, rig.lines.at(line_over(*rig.reeving.inputs, i)))} : Cell{},
         direction_of(sheave.axle),
         known ? Cell{std::string(words::turning_of(rig.reeving.inputs->sheaves.at(i).sense))} : Cell{}});
    if (sheave.mount == Mount::free) {
      table.rows.back().resize(table.headings.size());
      return;
    }
    const Lie lie = lie_of(rig.frame, left_end(rig.frame, sheave.axle));
    table.rows.back().push_back(cell(lie.bearing_rad, Dimension::angle));
    table.rows.back().push_back(cell(lie.tilt_rad, Dimension::angle));
  });
  return table;
}

}  // namespace fairlead::tables
