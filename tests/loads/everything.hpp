// The demo layout with all that may load its anchors beside the passages.
#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "geometry/rig/rig.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead::loads {

/// Back anchors behind both supports, and a parallel line from the main line's start to an anchor of its own.
inline constexpr const char* more_anchors =
    "[[anchor]]\nid = \"K1\"\nposition = [1184, 788, 331]\nwll = \"60 kN\"\n\n"
    "[[anchor]]\nid = \"K2\"\nposition = [1388, 942, 321]\nwll = \"60 kN\"\n\n"
    "[[anchor]]\nid = \"Q2\"\nposition = [1374, 935, 330.5]\nwll = \"60 kN\"\n\n";
inline constexpr const char* line_beside =
    "[[parallel_line]]\nid = \"M2\"\nfrom = \"P1\"\nto = \"Q2\"\ndiameter = \"14 mm\"\nmass = \"0.8 kg/m\"\n"
    "ea = \"9 MN\"\nmbs = \"140 kN\"\ntension = \"14 kN\"\nat_temperature = \"12 C\"\n\n";

/// The demo with sections added at its end and keys set.
inline Layout demo_with(const std::string& sections, const std::vector<Override>& keys) {
  std::ifstream in(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml", std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  auto layout = read_layout_text(text + "\n" + sections, "heron_gully.toml", keys);
  if (layout) return std::move(*layout);
  std::string message;
  for (const Diagnostic& diagnostic : layout.error()) message += print(diagnostic);
  throw std::runtime_error(message);
}

inline std::vector<Override> every_key() {
  return {{"site.ice_thickness", "'12 mm'"},
          {"site.ice_temperature", "'-5 C'"},
          {"site.ice_wind", "'15 m/s'"},
          {"site.storm_wind", "'35 m/s'"},
          {"riders.rescuer_mass", "'100 kg'"},
          {"backup_brake.on", "'P2'"},
          {"backup_brake.force", "'6 kN'"},
          {"main_line.from_back_anchor", "'K1'"},
          {"main_line.to_back_anchor", "'K2'"},
          {"main_line.saddle_friction", "1.2"},
          {"parallel_line.M2.rider_mass", "'122.5 kg'"}};
}

inline Layout everything() { return demo_with(std::string(more_anchors) + line_beside, every_key()); }

inline const Loads& loads_of(const Rig& rig) {
  if (!rig.loads.solved()) throw std::runtime_error(rig.loads.result->error().why);
  return *rig.loads.solved();
}

inline Loads loads_of(const Rig& rig, const Inputs& in) {
  auto loads = solve(in, *rig.main_line.solved(), *rig.reeving.inputs, *rig.reeving.solved());
  if (!loads) throw std::runtime_error(loads.error().why);
  return std::move(*loads);
}

/// The same without the arrests, which else govern the main line.
inline Loads still_loads_of(const Rig& rig) {
  Inputs in = *rig.loads.inputs;
  in.arrested = {};
  return loads_of(rig, in);
}

inline std::size_t anchor_of(const Rig& rig, const std::string& id) {
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i)
    if (rig.layout.anchors[i].id.value == id) return i;
  throw std::runtime_error("no anchor " + id);
}

inline const LoadCase& named(const Rig& rig, const std::string& name) {
  for (const LoadCase& load_case : loads_of(rig).cases)
    if (load_case.name == name) return load_case;
  throw std::runtime_error("no case " + name);
}

}  // namespace fairlead::loads
