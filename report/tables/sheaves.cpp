#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

/// The worst of one sheave over all sweeps, and where it was seen.
struct Worst {
  double value{};
  const reeving::Sweep* sweep{};
  std::size_t pose{};
};

const reeving::Turn& turn_at(const reeving::Sweep& sweep, std::size_t pose, std::size_t sheave) {
  return sweep.turns[pose * (sweep.turns.size() / sweep.poses.size()) + sheave];
}

/// Over the planned travel and the rider's approach alike.
Worst least_wrap(const reeving::Reeving& reeving, std::size_t sheave) {
  Worst least;
  for (const reeving::Sweep& sweep : reeving.sweeps)
    for (std::size_t pose = 0; pose < sweep.poses.size(); ++pose) {
      const double wrap_rad = turn_at(sweep, pose, sheave).wrap_rad;
      if (!least.sweep || !(wrap_rad >= least.value)) least = {wrap_rad, &sweep, pose};
    }
  return least;
}

Worst greatest_fleet(const reeving::Reeving& reeving, std::size_t sheave) {
  Worst worst;
  for (const reeving::Sweep& sweep : reeving.sweeps) {
    const Extreme& fleet = sweep.fleet_rad[sheave];
    if (!worst.sweep || !(fleet.value <= worst.value))
      worst = {fleet.value, &sweep, static_cast<std::size_t>(std::max(fleet.pose, 0))};
  }
  return worst;
}

/// The leg on which the fleet angle is the larger.
std::string side_of(const Worst& worst, std::size_t sheave) {
  const reeving::Turn& turn = turn_at(*worst.sweep, worst.pose, sheave);
  return std::abs(turn.on_fleet_rad) >= std::abs(turn.off_fleet_rad) ? "trolley" : "brake unit";
}

std::string direction_of(Vec3 v) {
  const Vec3 u = unit(v);
  return fmt::format("({:.4f}, {:.4f}, {:.4f})", u.x, u.y, u.z);
}

}  // namespace

Table sheaves(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const Layout& layout = rig.layout;
  Table table{
      "Sheaves",
      {"sheave", "on", "axle toward", "pitch diameter", "turning", "least wrap", "at travel", "worst fleet",
       "at travel"},
      {},
      {fmt::format("Axle toward: direction along {}, {}, {}. Turning: as the line runs from the brake trolley to "
                   "the brake unit, seen with the axle's direction pointing at the viewer.",
                   layout.site.axes[0], layout.site.axes[1], layout.site.axes[2])}};
  const reeving::Reeving* reeving = rig.reeving.solved();
  for (std::size_t i = 0; i < rig.reeved.size(); ++i) {
    const Sheave& sheave = layout.sheaves.at(static_cast<std::size_t>(rig.reeved[i]));
    const auto* anchor = std::get_if<AnchorId>(&sheave.on);
    std::vector<Cell> row{
        sheave.id.value, anchor ? layout.anchors.at(static_cast<std::size_t>(*anchor)).id.value : std::string("block"),
        direction_of(sheave.axle), cell(sheave.pitch_diameter_m, Dimension::length),
        rig.reeving.inputs ? Cell{std::string(words::turning_of(rig.reeving.inputs->sheaves.at(i).sense))} : Cell{}};
    row.resize(table.headings.size());
    if (reeving && !reeving->sweeps.empty()) {
      const Worst wrap = least_wrap(*reeving, i), fleet = greatest_fleet(*reeving, i);
      row[5] = cell(wrap.value, Dimension::angle);
      row[6] = words::travel(wrap.sweep->poses.at(wrap.pose).travel_m, style);
      row[7] = cell(fleet.value, Dimension::angle);
      row[8] = words::travel(fleet.sweep->poses.at(fleet.pose).travel_m, style);
      table.notes.push_back(fmt::format("Worst fleet of {}: on the {} side, {}.", sheave.id.value, side_of(fleet, i),
                                        words::name_of(*rig.main_line.solved(), *fleet.sweep)));
    }
    table.rows.push_back(std::move(row));
  }
  if (!reeving) table.notes.push_back("Undetermined: " + rig.reeving.result->error().why);
  return table;
}

}  // namespace fairlead::tables
