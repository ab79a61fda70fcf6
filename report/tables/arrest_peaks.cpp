#include "geometry/arrest/names.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::tables {

Table arrest_peaks(const Rig& rig, int corner, const Style&) {
  Table table{"Greatest values", {"of", "value", "after contact", "at travel"}, {}, {}};
  const arrest::CornerResult& result = rig.arrest.solved()->corners[static_cast<std::size_t>(corner)];
  if (!result.motion) {
    table.notes.push_back(result.motion.error().why);
    return table;
  }
  const arrest::Motion& m = *result.motion;
  const auto row = [&](const char* of, const arrest::Peak& peak, Dimension dimension) {
    table.rows.push_back({std::string(of), cell(peak.value, dimension), cell(peak.at_s, Dimension::time),
                          cell(peak.travel_m, Dimension::length)});
  };
  const bool stops = m.outcome == arrest::Outcome::stops;
  row(stops ? "stopping travel" : "travel, as far as it came",
      {m.stop_travel_m, stops ? m.stop_time_s : m.end_s, m.stop_travel_m}, Dimension::length);
  row("speed of the trolleys", m.trolley_speed_m_per_s, Dimension::speed);
  row("line speed at the unit", m.line_speed_m_per_s, Dimension::speed);
  row("line paid out", m.extension_m, Dimension::length);
  row("line tension at the unit", m.unit_tension_N, Dimension::force);
  row("force of the line on the trolley", m.line_force_N, Dimension::force);
  row("lanyard force over weight, raw", m.load_raw, Dimension::ratio);
  row("lanyard force over weight, 5 Hz", m.load_filtered, Dimension::ratio);
  row("lanyard force over weight, held 0.2 s", m.load_held, Dimension::ratio);
  row("its rise at 5 Hz, per second", m.load_onset_per_s, Dimension::ratio);
  row("deceleration of the trolleys, 5 Hz", m.deceleration_filtered_m_per_s2, Dimension::acceleration);
  row("lean forward", m.swing_forward_rad, Dimension::angle);
  row("lean back", m.swing_back_rad, Dimension::angle);
  table.notes.push_back("This rider " + std::string(arrest::word_for(m.outcome)) + ".");
  table.notes.push_back("5 Hz: 2nd-order Butterworth low-pass, run both ways. Held: never below it for 0.2 s.");
  return table;
}

}  // namespace fairlead::tables
