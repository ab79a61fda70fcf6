#include "geometry/checks/sheaves.hpp"

namespace fairlead {

std::vector<SheaveUnder> sheaves_under_lines(const Rig& rig) {
  std::vector<SheaveUnder> all;
  if (!rig.reeving.inputs) return all;
  const reeving::Inputs& in = *rig.reeving.inputs;
  for (std::size_t l = 0; l < in.lines.size(); ++l)
    for (int k = 0; k < in.lines[l].sheaves; ++k) {
      const auto s = static_cast<std::size_t>(in.lines[l].first_sheave + k);
      if (rig.reeved[s] < 0) continue;
      all.push_back({s, rig.reeved[s], &rig.layout.sheaves[static_cast<std::size_t>(rig.reeved[s])],
                     &rig.layout.lines[static_cast<std::size_t>(rig.lines[l].index)]});
    }
  return all;
}

}  // namespace fairlead
