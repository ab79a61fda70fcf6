#include "geometry/checks/legs.hpp"
#include "geometry/checks/worst.hpp"
#include "report/json/stages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"

namespace fairlead::json {

void write_rest_positions(Writer& out, const Rig& rig) {
  static const std::vector<reeving::RestPosition> none;
  const reeving::Reeving* reeving = rig.reeving.solved();
  out.objects("rest_positions", reeving ? reeving->rest : none, [&](const reeving::RestPosition& position) {
    const auto number = [&](std::string_view key, double reeving::Rest::*member) {
      out.number(key, position.rest ? std::optional((*position.rest).*member) : std::nullopt);
    };
    write_unsolved(out, position.rest);
    out.text("name", rest_position_of(rig, position));
    out.flag("measured", position.measured);
    out.count("sweep", position.sweep);
    number("extension_m", &reeving::Rest::extension_m);
    number("outlet_tension_N", &reeving::Rest::outlet_tension_N);
    number("trolley_tension_N", &reeving::Rest::trolley_tension_N);
    number("shift_m", &reeving::Rest::shift_m);
  });
}

void write_legs(Writer& out, const Rig& rig) {
  static const std::vector<reeving::RestingLeg> none;
  const reeving::Reeving* reeving = rig.reeving.solved();
  const std::vector<LegOf> ends = legs_of(rig);
  std::size_t i = 0;
  out.objects("legs", reeving ? reeving->resting_legs : none, [&](const reeving::RestingLeg& leg) {
    const LegOf& between = ends.at(i++);
    out.text("line", words::id_of(rig.layout, between.line));
    out.text("from", words::id_of(rig.layout, between.from.item));
    out.text("to", words::id_of(rig.layout, between.to.item));
    out.number("length_m", leg.length_m);
    out.number("horizontal_N", leg.horizontal_N);
    out.number("sag_m", leg.sag_m);
    out.number("square_sag_m", leg.square_sag_m);
    out.count("sweep", leg.sweep);
    out.count("pose", leg.pose);
    const bool windy = leg.wind_sweep >= 0;
    out.number("blow_out_m", windy ? std::optional(leg.blow_out_m) : std::nullopt);
    out.count("wind_sweep", leg.wind_sweep);
    out.count("wind_pose", leg.wind_pose);
  });
}

}  // namespace fairlead::json
