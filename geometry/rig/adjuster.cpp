#include "geometry/rig/adjuster.hpp"

#include <algorithm>

namespace fairlead {
namespace {

std::size_t reeved(const Rig& rig, int line) {
  return static_cast<std::size_t>(std::find(rig.lines.begin(), rig.lines.end(), Item{Item::Kind::line, line}) -
                                  rig.lines.begin());
}

}  // namespace

std::vector<double> made_lengths_m(const Rig& rig, int line) {
  std::vector<double> made;
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving || !reeving->needed_m) return made;
  const std::vector<mainline::State>& states = rig.main_line.solved()->states;
  const bool steel = rig.layout.lines[static_cast<std::size_t>(line)].material == LineMaterial::steel;
  for (std::size_t s = 0; s < states.size(); ++s) {
    const double warmer_K = states[s].temperature_K - states.front().temperature_K;
    made.push_back((*reeving->needed_m)[s][reeved(rig, line)] / (1 + (steel ? steel_expansion_per_K * warmer_K : 0)));
  }
  return made;
}

Solved<AdjusterNeed> adjuster_need(const Rig& rig, int line) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving) return tl::unexpected(rig.reeving.result->error());
  if (!reeving->needed_m) return tl::unexpected(reeving->needed_m.error());
  const Line& given = rig.layout.lines[static_cast<std::size_t>(line)];
  const std::size_t l = reeved(rig, line);
  const double unloaded_m = reeving->unloaded_length_m[l];
  AdjusterNeed need;
  for (const double made_m : made_lengths_m(rig, line)) {
    need.shorter_m = greater(need.shorter_m, unloaded_m - made_m);
    need.longer_m = greater(need.longer_m, made_m - unloaded_m);
  }
  need.stretch_m = reeving->finished_length_m[l] - unloaded_m;
  if (given.length_tolerance_m) need.tolerance_m = *given.length_tolerance_m;
  if (!given.ea_N) need.unknown = "its stretch is not known: it has no \"ea\"";
  if (!given.length_tolerance_m) need.unknown = "it has no \"length_tolerance\"";
  return need;
}

}  // namespace fairlead
