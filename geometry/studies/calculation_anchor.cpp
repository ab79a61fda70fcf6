#include <fmt/format.h>

#include <cmath>

#include "geometry/loads/leg_forces.hpp"
#include "geometry/studies/calculation_parts.hpp"

namespace fairlead::calculating {
namespace {

double rounded(double value, double digits) { return std::round(value * digits) / digits + 0.0; }

class Resolved {
 public:
  Resolved(const Rig& rig, int anchor) : rig_(rig) {
    found_.anchor = anchor;
    found_.load_case = rig.loads.solved()->demands[static_cast<std::size_t>(anchor)].force_N.pose;
  }

  std::optional<AnchorCalculation> solve() {
    const loads::Loads& loads = *rig_.loads.solved();
    if (found_.load_case < 0) return std::nullopt;
    const loads::LoadCase& governing = loads.cases[static_cast<std::size_t>(found_.load_case)];
    if (governing.sweep < 0 || governing.pose < 0) return std::nullopt;
    add_sheaves(governing);
    add_ends(governing);
    found_.solver_N = in_frame(governing.on_anchor_N[static_cast<std::size_t>(found_.anchor)]);
    const Vec3 off = found_.sum_N - found_.solver_N;
    const double most = std::max({std::abs(off.x), std::abs(off.y), std::abs(off.z)});
    // More acts on it than was resolved: weights of mounts and blocks, the main line, a support line's cable.
    if (!(most <= found_.tolerance_N)) return std::nullopt;
    return found_;
  }

 private:
  Vec3 in_frame(Vec3 v) const { return {dot(v, rig_.frame.along), dot(v, rig_.frame.across), dot(v, rig_.frame.up)}; }

  void add(std::string what, double tension_N, Vec3 direction) {
    const Vec3 u = in_frame(direction);
    constexpr double digits = 1e4;
    AnchorForce force{std::move(what),
                      figure("T", "tension", "reeving", tension_N, 1, "N"),
                      {rounded(u.x, digits), rounded(u.y, digits), rounded(u.z, digits)},
                      {}};
    const Vec3 product = force.tension.value * force.direction;
    force.force_N = {rounded(product.x, 1), rounded(product.y, 1), rounded(product.z, 1)};
    found_.sum_N = found_.sum_N + force.force_N;
    // Half a digit of the product, of the direction times the tension, and of the tension.
    found_.tolerance_N += 0.5 + 0.5 / digits * tension_N + 0.05;
    found_.forces.push_back(std::move(force));
  }

  std::string line_name(std::size_t line) const {
    const Item& item = rig_.lines[line];
    if (item.kind != Item::Kind::line) return "support line";
    return "line " + rig_.layout.lines[static_cast<std::size_t>(item.index)].id.value;
  }

  void add_sheaves(const loads::LoadCase& at) {
    const reeving::Inputs& in = *rig_.reeving.inputs;
    const reeving::Sweep& sweep = rig_.reeving.solved()->sweeps[static_cast<std::size_t>(at.sweep)];
    for (std::size_t l = 0; l < in.lines.size(); ++l)
      for (int k = 0; k < in.lines[l].sheaves; ++k) {
        const auto s = static_cast<std::size_t>(in.lines[l].first_sheave + k);
        if (rig_.loads.inputs->sheave_anchor[s] != found_.anchor || rig_.reeved[s] < 0) continue;
        const reeving::Turn& turn = sweep.turns[static_cast<std::size_t>(at.pose) * in.sheaves.size() + s];
        const std::string sheave = rig_.layout.sheaves[static_cast<std::size_t>(rig_.reeved[s])].id.value;
        add(fmt::format("{} onto sheave {}", line_name(l), sheave), turn.on_tension_N, turn.on_leg);
        add(fmt::format("{} off sheave {}", line_name(l), sheave), turn.off_tension_N, turn.off_leg);
        found_.tolerance_N += in.lines[l].weight_N_per_m * in.sheaves[s].radius_m * turn.wrap_rad;
      }
  }

  void add_ends(const loads::LoadCase& at) {
    const reeving::Inputs& in = *rig_.reeving.inputs;
    const reeving::Sweep& sweep = rig_.reeving.solved()->sweeps[static_cast<std::size_t>(at.sweep)];
    for (std::size_t l = 0; l < in.lines.size(); ++l) {
      const loads::LineAnchors& anchors = rig_.loads.inputs->line_anchors[l];
      const std::size_t first = static_cast<std::size_t>(at.pose) * in.legs() + in.legs_before(l),
                        last = first + static_cast<std::size_t>(in.lines[l].sheaves);
      const auto end = [&](int anchor, Vec3 force_N) {
        if (anchor == found_.anchor) add("end of " + line_name(l), norm(force_N), (1 / norm(force_N)) * force_N);
      };
      end(anchors.from, loads::forces_of(sweep.legs[first]).on_from_N);
      end(anchors.to, loads::forces_of(sweep.legs[last]).on_to_N);
    }
  }

  const Rig& rig_;
  AnchorCalculation found_;
};

}  // namespace

std::optional<AnchorCalculation> redirect_anchor(const Rig& rig) {
  if (!rig.loads.solved() || !rig.reeving.solved() || !rig.loads.inputs) return std::nullopt;
  for (std::size_t s = 0; s < rig.reeving.inputs->sheaves.size(); ++s)
    if (const int anchor = rig.loads.inputs->sheave_anchor[s]; anchor >= 0) return Resolved(rig, anchor).solve();
  return std::nullopt;
}

}  // namespace fairlead::calculating
