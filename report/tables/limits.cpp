#include "report/tables/tables.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {
namespace {

class Limits {
 public:
  explicit Limits(const Layout& layout) : layout_(layout) {}

  void add(const std::string& what, const std::optional<Limit>& limit, Dimension dimension) {
    if (limit)
      row(what, cell(limit->at.value, dimension), limit->basis, words::place_of(layout_, limit->at.place));
    else
      row(what, {}, "no limit given: not judged", "");
  }
  /// A limit that is a property of the gear, not somebody's choice.
  void of_gear(const std::string& what, const Real& at, Dimension dimension) {
    row(what, cell(at.value, dimension), "the brake unit's own", words::place_of(layout_, at.place));
  }

  Table take() { return std::move(table_); }

 private:
  void row(const std::string& what, Cell at, const std::string& basis, const std::string& place) {
    table_.rows.push_back({what, std::move(at), basis, place});
  }

  const Layout& layout_;
  Table table_{"Limits", {"limit", "value", "basis", "place"}, {}, {}};
};

}  // namespace

Table limits(const Dossier& dossier) {
  const Layout& layout = dossier.judged.rig.layout;
  fairlead::tables::Limits out(layout);
  const fairlead::Limits& common = layout.limits;
  out.add("fleet angle at sheaves", common.fleet_angle_rad, Dimension::angle);
  for (const Sheave& sheave : layout.sheaves)
    if (sheave.fleet_angle) out.add("fleet angle at sheave " + sheave.id.value, sheave.fleet_angle, Dimension::angle);
  if (common.sheave_ratio) out.add("sheave over line diameter, at least", common.sheave_ratio, Dimension::ratio);
  for (const Sheave& sheave : layout.sheaves)
    if (sheave.sheave_ratio)
      out.add("sheave " + sheave.id.value + " over line diameter, at least", sheave.sheave_ratio, Dimension::ratio);
  if (common.groove_ratio) out.add("groove over line diameter", common.groove_ratio, Dimension::ratio);
  if (common.wrap_rad) out.add("wrap on a sheave, at least", common.wrap_rad, Dimension::angle);
  if (common.slack_tension_N) out.add("a leg is slack below", common.slack_tension_N, Dimension::force);
  out.add("lead angle at the brake unit", layout.brake_unit.lead_angle, Dimension::angle);
  out.add("pull angle at the brake trolley", layout.brake_trolley.pull_angle, Dimension::angle);
  out.add("side pull at the brake trolley", layout.brake_trolley.side_pull, Dimension::angle);
  out.add("lift of the brake trolley over its weight", common.lift_share, Dimension::ratio);
  if (common.efficiency) out.add("efficiency of the reduction, at least", common.efficiency, Dimension::ratio);
  out.add("plane thickness of the lines", common.plane_thickness_m, Dimension::length);
  out.add("offset across from the main line's plane", common.across_offset_m, Dimension::length);
  out.add("anchor utilisation", common.anchor_utilisation, Dimension::ratio);
  out.add("design factor on breaking strengths", common.design_factor, Dimension::none);
  if (common.main_line_factor)
    out.add("factor on breaking strengths of main and support lines", common.main_line_factor, Dimension::none);
  out.add("line to structure, at least", common.line_clearance_m, Dimension::length);
  out.add("line to line, at least", common.line_to_line_m, Dimension::length);
  out.add("line to main line, at least", common.line_to_main_line_m, Dimension::length);
  out.add("block to everything, at least", common.block_clearance_m, Dimension::length);
  out.add("rider to structure and ground, at least", common.rider_clearance_m, Dimension::length);
  out.add("rider and hands to lines, block and redirect, at least", common.rider_line_clearance_m, Dimension::length);
  out.add("run left between block and sheaves, at least", common.block_run_m, Dimension::length);
  if (common.rest_shift_m) out.add("rest place either way of its mark", common.rest_shift_m, Dimension::length);
  out.add("left before the backup brake, at least", common.stop_reserve_m, Dimension::length);
  out.add("swing either way", common.swing_rad, Dimension::angle);
  const bool load_limited = common.rider_load_raw || common.rider_load_held;
  if (common.rider_load_raw) out.add("rider load, raw", common.rider_load_raw, Dimension::ratio);
  if (common.rider_load_filtered || !load_limited)
    out.add("rider load at 5 Hz", common.rider_load_filtered, Dimension::ratio);
  if (common.rider_load_held) out.add("rider load held 0.2 s", common.rider_load_held, Dimension::ratio);
  out.add("deceleration of the trolley at 5 Hz", common.trolley_deceleration_m_per_s2, Dimension::acceleration);
  out.add("reserve of the trolley's way back, at least", common.reset_reserve_N, Dimension::force);
  out.add("trolley back at its mark", common.return_speed_m_per_s, Dimension::speed);
  out.add("least reserve of extension", common.extension_reserve_m, Dimension::length);
  out.of_gear("extension", layout.brake_unit.extension_limit_m, Dimension::length);
  if (layout.brake_unit.line_speed_limit_m_per_s)
    out.of_gear("line speed", *layout.brake_unit.line_speed_limit_m_per_s, Dimension::speed);
  return out.take();
}

}  // namespace fairlead::tables
