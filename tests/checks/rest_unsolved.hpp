// A rig in which one state has no rest place, whatever gave it none.
#pragma once

#include "tests/demo_layout.hpp"

namespace fairlead {

/// The demo, solved but for the rest place of its second state: cold.
inline Rig without_a_cold_rest_place(Layout layout = demo_layout()) {
  Rig rig = solve(std::move(layout));
  Solved<reeving::Reeving> reeving = *rig.reeving.result;
  reeving->rest.at(1).rest = unsolved("near its mark the trolley stands nowhere", 0.25, 3);
  rig.reeving.result = std::make_shared<const Solved<reeving::Reeving>>(std::move(reeving));
  return rig;
}

}  // namespace fairlead
