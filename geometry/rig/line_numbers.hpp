// The lengths and tensions of the rig's lines, by what the layout calls them.
#pragma once

#include "geometry/rig/rig.hpp"

namespace fairlead {

/// Every [[line]], then every [[support_line]].
std::vector<Item> all_lines(const Layout&);
/// Its index among the lines of the reeving.
std::optional<std::size_t> reeved_line(const Rig&, Item line);
/// Bearing to bearing, as it hangs at rest and unloaded; and to cut it at: unloaded, with the tails of both
/// terminations. Nothing where it is not known.
std::optional<double> finished_length_m(const Rig&, Item line);
std::optional<double> unloaded_length_m(const Rig&, Item line);
std::optional<double> cut_length_m(const Rig&, Item line);
/// At its end farther from the trolley, as measured.
std::optional<double> rest_tension_N(const Rig&, Item line);
/// Anywhere along it; pose: index into the load cases.
std::optional<Extreme> greatest_tension_N(const Rig&, Item line);

}  // namespace fairlead
