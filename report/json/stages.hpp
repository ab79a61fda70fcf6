// The parts of the record, a file each. Every one writes its own member into an open object.
#pragma once

#include "report/dossier.hpp"
#include "report/json/writer.hpp"

namespace fairlead::json {

/// Which layout it was, down to the byte.
void write_identity(Writer&, const Layout&);
/// Counts by outcome, and the headline.
void write_verdict(Writer&, const Dossier&);
void write_findings(Writer&, const Judged&);
/// What was taken for granted, what was not looked at, and the cautions.
void write_reservations(Writer&, const Dossier&);
void write_main_line(Writer&, const Rig&);
/// Riders on their way to the brake trolley; how they stop, and the way back.
void write_approach(Writer&, const Rig&);
void write_arrest_inputs(Writer&, const Solved<arrest::Inputs>&);
void write_motion(Writer&, const Solved<arrest::Motion>&);
void write_rest(Writer&, const std::optional<arrest::FinalRest>&);
void write_reeving(Writer&, const Rig&);
void write_arrest(Writer&, const Rig&);
void write_sweeps(Writer&, const Rig&);
void write_loads(Writer&, const Rig&);
void write_clearance(Writer&, const Rig&);
void write_schedules(Writer&, const Rig&);
/// Of every line and cable: how it ends, over what it bends, and what that leaves of its strength.
void write_strength_left(Writer&, const Layout&);
void write_rest_positions(Writer&, const Rig&);
void write_legs(Writer&, const Rig&);
/// Null where the dossier has none.
void write_placement(Writer&, const Dossier&);
void write_setting_out(Writer&, const Dossier&);

/// "YYYY-MM-DD" or null.
void write_date(Writer&, std::string_view key, const std::optional<Given<Date>>&);

/// A number as given.
std::optional<double> plain(const std::optional<Real>&);

void write_cable(Writer&, std::string_view key, const mainline::Cable&);

void write_state(Writer&, std::string_view key, const reeving::State&);

/// [low, high]
void write_span(Writer&, std::string_view key, const mainline::Span&);

/// Its points as two columns.
void write_curve(Writer&, std::string_view key, std::string_view x_key, std::string_view y_key, const Curve&);

/// {"value", "bound", "pose"}: the unit is in the key.
void write_members(Writer&, const Extreme&);
void write_extreme(Writer&, std::string_view key, const Extreme&);

/// {"value", "bound", "case"}: the worst of one part and the case it was seen in.
void write_demand(Writer&, std::string_view key, const Extreme&);

/// "unsolved": null, or why there is no result.
template <class Out>
void write_unsolved(Writer& out, const Solved<Out>& result) {
  if (result) return out.null("unsolved");
  out.object("unsolved", [&] {
    out.text("why", result.error().why);
    out.number("residual", result.error().residual, residual_digits);
    out.count("iterations", result.error().iterations);
  });
}

}  // namespace fairlead::json
