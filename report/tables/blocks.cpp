#include <fmt/format.h>

#include <cmath>

#include "report/tables/parts.hpp"
#include "report/words/names.hpp"
#include "report/words/states.hpp"

namespace fairlead::tables {
namespace {

std::string carried_by(const Layout& layout, std::size_t block) {
  for (const SupportLine& line : layout.support_lines)
    if (line.carries == static_cast<BlockId>(block)) return line.id.value;
  return "nothing: it floats";
}

const reeving::BlockPlace& place_of(const ShownPose& shown, std::size_t block, std::size_t blocks) {
  return shown.sweep->blocks[shown.index * blocks + block];
}

/// The legs of a support line at one pose, from its upstream anchor to the other.
struct Hung {
  const reeving::Leg *first{}, *last{};
  /// How far the wheel stands below the straight line between the anchors.
  double below_chord_m() const {
    const Vec3 chord = last->to - first->from, wheel = first->to - first->from;
    const double share = (wheel.x * chord.x + wheel.y * chord.y) / (chord.x * chord.x + chord.y * chord.y);
    return share * chord.z - wheel.z;
  }
};

}  // namespace

Table blocks(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const Layout& layout = rig.layout;
  Table table{"Blocks",
              {"block", "carried by", "chainage at rest", "height at rest", "chainage at full travel",
               "height at full travel", "greatest load", "utilisation"},
              {},
              {}};
  if (layout.blocks.empty()) return table;
  const auto rest = rest_pose(rig), full = full_pose(rig);
  const loads::Loads* loads = rig.loads.solved();
  for (std::size_t b = 0; b < layout.blocks.size(); ++b) {
    std::vector<Cell> row{layout.blocks[b].id.value, carried_by(layout, b)};
    row.resize(table.headings.size());
    const auto place = [&](const std::optional<ShownPose>& shown, std::size_t column) {
      if (!shown) return;
      const Point3 at = place_of(*shown, b, rig.bodies.size()).placement.at;
      row[column] = cell(rig.frame.chainage_m(at), Dimension::length);
      row[column + 1] = cell(at.z, Dimension::length);
    };
    place(rest, 2);
    place(full, 4);
    if (loads) row[6] = cell(loads->blocks.at(b).force_N.value, Dimension::force);
    row[7] = utilisation_of(dossier, {Item::Kind::block, static_cast<int>(b)});
    table.rows.push_back(std::move(row));
  }
  if (rest && full)
    table.notes.push_back(
        fmt::format("Of its own point. At rest: {}. Full travel: {}. Load: the greatest force that "
                    "passes through it.",
                    told(rig, *rest, style), told(rig, *full, style)));
  if (!rig.reeving.solved()) table.notes.push_back("Undetermined: " + rig.reeving.result->error().why);
  return table;
}

Table support_lines(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Support lines",
              {"line", "state", "bare tension", "bare sag", "tension at rest", "block below chord at rest",
               "tension at full travel", "block below chord at full travel"},
              {},
              {}};
  if (rig.layout.support_lines.empty()) return table;
  table.notes = {
      "Bare: without its block; tension horizontal, sag at mid-span. Below chord: of the wheels, below the "
      "straight line between its anchors."};
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving) return undetermined(std::move(table), rig.reeving.result->error());
  const reeving::Inputs& in = *rig.reeving.inputs;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    if (rig.lines.at(l).kind != Item::Kind::support_line) continue;
    for (const auto weather : {mainline::Weather::cold, mainline::Weather::warm}) {
      const auto rest = rest_pose(rig, weather), full = full_pose(rig, weather);
      if (!rest || !full) continue;
      const auto hung = [&](const ShownPose& shown) {
        const reeving::Leg* first = &shown.sweep->legs[shown.index * in.legs() + in.legs_before(l)];
        return Hung{first, first + in.lines[l].sheaves};
      };
      std::vector<Cell> row{words::id_of(rig.layout, rig.lines[l]), std::string(words::word_for(weather)), {}, {}};
      const Hung at_rest = hung(*rest), at_full = hung(*full);
      const auto sweep = static_cast<std::size_t>(rest->sweep - reeving->sweeps.data());
      const Vec3 chord = at_rest.last->to - at_rest.first->from;
      const mainline::Cable cable{.span_m = std::hypot(chord.x, chord.y),
                                  .rise_m = chord.z,
                                  .unstretched_m = in.sweeps.at(sweep).state.unstretched_m.at(l),
                                  .weight_N_per_m = in.lines[l].weight_N_per_m,
                                  .compliance_per_N = in.lines[l].compliance_per_N};
      if (const auto bare = mainline::hang(cable)) {
        row[2] = cell(bare->pieces[0].H_N, Dimension::force);
        row[3] = cell(mainline::mid_span_sag(cable, *bare), Dimension::length);
      }
      for (const Hung* at : {&at_rest, &at_full}) {
        row.push_back(cell(at->first->to_tension_N, Dimension::force));
        row.push_back(cell(at->below_chord_m(), Dimension::length));
      }
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

}  // namespace fairlead::tables
