#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

using mainline::Loading;
using reeving::Sweep;

const Sweep* find(const Rig& rig, Loading loading, reeving::Running running, std::optional<mainline::Weather> weather) {
  const mainline::MainLine& main_line = *rig.main_line.solved();
  const auto& sweeps = rig.reeving.solved()->sweeps;
  for (std::size_t s = 0; s < sweeps.size(); ++s) {
    const mainline::StatePath& path = main_line.paths.at(static_cast<std::size_t>(sweeps[s].path));
    const mainline::State& state = main_line.states.at(static_cast<std::size_t>(path.state));
    const bool calm = rig.reeving.inputs->sweeps.at(s).wind_Pa == Vec3{};
    if (calm && sweeps[s].running == running && path.loading == loading && (!weather || state.weather == *weather))
      return &sweeps[s];
  }
  return nullptr;
}

const reeving::Pose* pose_at(const Sweep& sweep, double travel_m) {
  for (const reeving::Pose& pose : sweep.poses)
    if (pose.travel_m == travel_m) return &pose;
  return nullptr;
}

/// Travels at which every sweep has a pose: those nearest to the wanted shares of the whole.
std::vector<double> common_travels(const std::vector<const Sweep*>& sweeps) {
  std::vector<double> common;
  for (const reeving::Pose& pose : sweeps.front()->poses)
    if (pose.travel_m >= 0 &&
        std::all_of(sweeps.begin(), sweeps.end(), [&](const Sweep* s) { return pose_at(*s, pose.travel_m); }))
      common.push_back(pose.travel_m);
  std::vector<double> travels;
  for (const double share : {0.0, 0.07, 0.15, 0.25, 0.5, 0.75, 1.0}) {
    const double wanted_m = share * common.back();
    const double nearest_m = *std::min_element(common.begin(), common.end(), [&](double a, double b) {
      return std::abs(a - wanted_m) < std::abs(b - wanted_m);
    });
    if (travels.empty() || nearest_m > travels.back()) travels.push_back(nearest_m);
  }
  return travels;
}

}  // namespace

std::optional<ShownPose> rest_pose(const Rig& rig, std::optional<mainline::Weather> weather) {
  if (!rig.reeving.solved()) return std::nullopt;
  const Sweep* sweep = find(rig, Loading::empty, reeving::Running::at_rest, weather);
  if (!sweep) return std::nullopt;
  return ShownPose{sweep, static_cast<std::size_t>(sweep->rest_pose)};
}

std::optional<ShownPose> full_pose(const Rig& rig, std::optional<mainline::Weather> weather) {
  if (!rig.reeving.solved()) return std::nullopt;
  const Sweep* sweep = find(rig, Loading::heaviest, reeving::Running::paying_out, weather);
  if (!sweep) return std::nullopt;
  return ShownPose{sweep, sweep->poses.size() - 1};
}

std::string told(const Rig& rig, const ShownPose& shown, const Style& style) {
  const auto sweep = static_cast<int>(shown.sweep - rig.reeving.solved()->sweeps.data());
  return fmt::format("{}, travel {}", passage(rig, sweep), words::travel(shown.pose().travel_m, style));
}

Table reduction(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Reduction", {"travel"}, {}, {}};
  if (!rig.reeving.solved()) return undetermined(std::move(table), rig.reeving.result->error());
  std::vector<const Sweep*> sweeps;
  std::vector<std::string> efficiency;
  for (const Loading loading : {Loading::empty, Loading::heaviest})
    for (const mainline::Weather weather : {mainline::Weather::cold, mainline::Weather::warm})
      if (const Sweep* sweep = find(rig, loading, reeving::Running::at_rest, weather)) sweeps.push_back(sweep);
  if (sweeps.empty()) return table;
  const std::size_t ratios = sweeps.size();
  const auto rubs = [&](Loading loading, reeving::Running running, const char* heading) {
    const Sweep* sweep = find(rig, loading, running, mainline::Weather::cold);
    if (!sweep || sweep->tension_ratio.empty()) return;
    sweeps.push_back(sweep);
    efficiency.push_back(heading);
  };
  rubs(Loading::heaviest, reeving::Running::paying_out, "efficiency out");
  rubs(Loading::empty, reeving::Running::at_rest, "efficiency back");
  table.notes.push_back(fmt::format(
      "Nominal ratio {:.4g}:1. Ratio: metres of travel a metre of extension, at that travel. Lines at rest, the brake "
      "unit pulling its retraction.",
      rig.nominal_ratio.value_or(rig.reeving.inputs->nominal_ratio)));
  const mainline::MainLine& main_line = *rig.main_line.solved();
  for (std::size_t i = 0; i < ratios; ++i) {
    const char letter = static_cast<char>('A' + i);
    table.headings.insert(table.headings.end(), {fmt::format("extension {}", letter), fmt::format("ratio {}", letter)});
    table.notes.push_back(fmt::format(
        "{}: {}.", letter, words::name_of(main_line, main_line.paths.at(static_cast<std::size_t>(sweeps[i]->path)))));
  }
  table.headings.insert(table.headings.end(), efficiency.begin(), efficiency.end());
  if (!efficiency.empty())
    table.notes.push_back(
        "Efficiency: what the sheaves' friction leaves of the work, 1 without friction; out: heaviest rider at peak "
        "line "
        "tension, cold; back: empty trolley, cold.");
  for (const double travel_m : common_travels(sweeps)) {
    std::vector<Cell> row{words::travel(travel_m, style)};
    for (std::size_t i = 0; i < sweeps.size(); ++i) {
      const reeving::Pose& pose = *pose_at(*sweeps[i], travel_m);
      if (i >= ratios) {
        row.push_back(cell(pose.efficiency, Dimension::ratio));
        continue;
      }
      row.push_back(cell(pose.extension_m, Dimension::length));
      row.push_back(cell(pose.ratio, Dimension::ratio));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace fairlead::tables
