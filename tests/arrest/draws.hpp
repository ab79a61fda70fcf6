// Rigs and riders from a seed, also such as no one would build.
#pragma once

#include "tests/arrest/riding.hpp"
#include "tests/laws/generator.hpp"

namespace fairlead::arrest {

struct Drawn {
  Bodies bodies;
  Unit unit;
  Contact contact;
};

/// Riders of 15 to 150 kg, in one of three on a lanyard that gives, in half held back by a device.
inline Drawn drawn(laws::Draw& draw) {
  Drawn c;
  c.bodies = {.rider_kg = draw.between(15, 150),
              .rider_trolley_kg = draw.between(1, 5),
              .brake_trolley_kg = draw.between(2, 8),
              .hanging_m = draw.between(0.8, 1.8),
              .lanyard_N_per_m = 0,
              .lanyard_damping = 0,
              .rolling = draw.once_in(4) ? 0 : draw.between(0.001, 0.03),
              .drag_kg_per_m = draw.once_in(4) ? 0 : draw.between(0, 0.5),
              .wind_m_per_s = draw.between(-8, 8),
              .held_back = draw.once_in(2)};
  if (draw.once_in(3)) {
    c.bodies.lanyard_N_per_m = c.bodies.rider_kg * draw.between(300, 3000);
    c.bodies.lanyard_damping = draw.between(0, 0.6);
  }
  c.unit =
      unit(draw.between(0, 150), draw.between(0, 60), reeving::EddyLaw{draw.between(200, 2500), draw.between(3, 30)});
  c.unit.share = draw.between(0.7, 1.2);
  c.unit.return_share = draw.once_in(2) ? 0 : draw.between(0, 1);
  c.unit.extension_limit_m = draw.once_in(4) ? draw.between(2, 12) : 30;
  c.contact = {.speed_m_per_s = draw.between(1, 12), .acceleration_m_per_s2 = draw.between(-0.6, 0.6)};
  return c;
}

}  // namespace fairlead::arrest
