#include "tests/laws/numbers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fairlead::laws {
namespace {

class Teller {
 public:
  Teller(const Rig& rig, const Telling& telling)
      : rig_(rig),
        in_(*rig.reeving.inputs),
        reeving_(*rig.reeving.solved()),
        mirrored_(telling.mirrored),
        riders_in_side_wind_(telling.riders_in_side_wind) {
    order_.resize(reeving_.sweeps.size());
    std::iota(order_.begin(), order_.end(), 0);
    // A wind from the left is one from the right in the mirror: the two stand side by side in the list of sweeps.
    if (mirrored_)
      for (std::size_t i = 0; i + 1 < order_.size(); ++i)
        if (reeving_.sweeps[i].in_wind && reeving_.sweeps[i + 1].in_wind) std::swap(order_[i], order_[i + 1]), ++i;
  }

  std::vector<Number> tell() {
    main_line();
    reeving();
    loads();
    clearances();
    return std::move(told_);
  }

 private:
  void add(std::string what, double value, Kind kind) { told_.push_back({std::move(what), value, value, kind}); }
  void add(const std::string& what, Vec3 v, Kind kind) {
    // A couple is turned over by a mirror along and up, anything else across.
    const double across = mirrored_ ? -1 : 1, sense = kind == Kind::couple ? across : 1;
    add(what + " along", sense * dot(v, in_.along), kind);
    add(what + " across", sense * across * dot(v, in_.across), kind);
    add(what + " up", sense * dot(v, in_.up), kind);
  }
  void add(const std::string& what, Point3 p) { add(what, p - in_.origin, Kind::length); }
  void add(const std::string& what, const Extreme& e, Kind kind) {
    add(what, e.value, kind);
    add(what + " bound", e.bound, kind);
  }

  /// A worst place of a rider is found to a millimetre. In still air its force has a hump there; what a side wind of a
  /// hundredth of his weight adds to it changes along the line by less than a newton a metre.
  void add_at_worst_place(const std::string& what, const Extreme& e) {
    const double open_N = rig_.layout.site.wind_across_m_per_s ? 1e-3 : 0;
    told_.push_back({what, e.value, e.value - open_N, Kind::force});
    told_.push_back({what + " bound", e.bound, e.bound - open_N, Kind::force});
  }

  /// A support line written from its landing end is told from its upstream end all the same.
  bool backward(std::size_t line) const {
    return rig_.lines[line].kind == Item::Kind::support_line &&
           dot(in_.lines[line].to.at - in_.lines[line].from.at, in_.along) < 0;
  }

  void main_line() {
    for (const mainline::State& state : rig_.main_line.solved()->states) {
      add("sag", state.sag_m, Kind::length);
      add("tension at the start", state.start_tension_N, Kind::force);
    }
    for (const mainline::StatePath& path : rig_.main_line.solved()->paths)
      for (const double rest_m : path.rest_points_m) add("rest point", rest_m, Kind::length);
  }

  void reeving() {
    add("peak tension", reeving_.peak_tension_N, Kind::force);
    for (std::size_t l = 0; l < in_.lines.size(); ++l) {
      add("finished length", reeving_.finished_length_m[l], Kind::length);
      if (rig_.lines[l].kind == Item::Kind::line) add("rest tension", reeving_.rest_tension_N[l], Kind::force);
    }
    at_rest();
    for (const std::size_t s : order_) {
      const reeving::Sweep& sweep = reeving_.sweeps[s];
      add("poses", static_cast<double>(sweep.poses.size()), Kind::count);
      for (const double ratio : sweep.tension_ratio) add("tension over a sheave", ratio, Kind::ratio);
      if (!sweep.tension_ratio.empty()) add("least efficiency", sweep.least_efficiency, Kind::ratio);
      for (const Extreme& fleet : sweep.fleet_rad) add("fleet angle", fleet, Kind::angle);
      add("lead angle", sweep.lead_rad, Kind::angle);
      add("thickness", sweep.thickness_m, Kind::length);
      add("across", sweep.across_m, Kind::length);
      add("least pay-out", sweep.least_pay_out, Kind::ratio);
      add("greatest extension", sweep.greatest_extension_m, Kind::length);
      for (std::size_t p = 0; p < sweep.poses.size(); ++p) pose(sweep, p);
    }
  }

  void at_rest() {
    for (const reeving::RestPosition& position : reeving_.rest) {
      if (!position.rest) continue;
      add("line out at the mark", position.rest->extension_m, Kind::length);
      add("tension at the mark", position.rest->trolley_tension_N, Kind::force);
      add("rest place", position.rest->shift_m, Kind::length);
    }
    for (std::size_t l = 0; l < in_.lines.size(); ++l) {
      add("stretch at rest", reeving_.stretch[l].at_rest_m, Kind::length);
      add("greatest stretch", reeving_.stretch[l].greatest_m, Kind::length);
      for (int k = 0; k <= in_.lines[l].sheaves; ++k) {
        const int at = backward(l) ? in_.lines[l].sheaves - k : k;
        const reeving::RestingLeg& leg = reeving_.resting_legs[in_.legs_before(l) + static_cast<std::size_t>(at)];
        add("sag of a resting leg", leg.sag_m, Kind::length);
        add("sag square to its chord", leg.square_sag_m, Kind::length);
        add("blow-out", leg.blow_out_m, Kind::length);
      }
    }
  }

  void pose(const reeving::Sweep& sweep, std::size_t p) {
    const reeving::Pose& pose = sweep.poses[p];
    add("travel", pose.travel_m, Kind::length);
    add("trolley", pose.trolley);
    add("rider", pose.rider);
    add("extension", pose.extension_m, Kind::length);
    if (pose.travel_m >= 0) add("pay-out", pose.pay_out, Kind::ratio);
    if (pose.travel_m >= 0 && !sweep.tension_ratio.empty()) add("efficiency", pose.efficiency, Kind::ratio);
    add("lead angle here", pose.lead_rad, Kind::angle);
    add("pull on the trolley", pose.pull_on_trolley_N, Kind::force);
    add("pull on the unit", pose.pull_on_unit_N, Kind::force);
    add("start support", pose.start_support_N, Kind::force);
    for (std::size_t l = 0; l < in_.lines.size(); ++l) {
      const Kind kind = Kind::force;
      add("line tension", sweep.tension_N[p * in_.lines.size() + l], kind);
      const int sheaves = in_.lines[l].sheaves;
      for (int k = 0; k <= sheaves; ++k) {
        const int at = backward(l) ? sheaves - k : k;
        reeving::Leg leg = sweep.legs[p * in_.legs() + in_.legs_before(l) + static_cast<std::size_t>(at)];
        if (backward(l)) std::swap(leg.from, leg.to), std::swap(leg.from_tension_N, leg.to_tension_N);
        add("leg from", leg.from);
        add("leg to", leg.to);
        add("leg length", leg.length_m, Kind::length);
        add("leg sag", leg.sag_m, Kind::length);
        add("leg from tension", leg.from_tension_N, kind);
        add("leg to tension", leg.to_tension_N, kind);
      }
    }
    for (std::size_t i = 0; i < in_.sheaves.size(); ++i) {
      const reeving::Turn& turn = sweep.turns[p * in_.sheaves.size() + i];
      add("wrap", turn.wrap_rad, Kind::angle);
      add("fleet angle on", turn.on_fleet_rad, Kind::angle);
      add("fleet angle off", turn.off_fleet_rad, Kind::angle);
      add("force on the sheave", turn.force_N, Kind::force);
      add("couple of friction", std::abs(turn.couple_N_m), Kind::couple);
    }
    for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
      const reeving::BlockPlace& block = sweep.blocks[p * in_.blocks.size() + b];
      add("block", block.placement.at);
      add("centre of mass", block.centre_of_mass);
      add("held", block.held_N, Kind::force);
      add("held couple", block.held_couple_N_m, Kind::couple);
    }
  }

  void loads() {
    if (riders_in_side_wind_) return tell(*rig_.loads.solved());
    loads::Inputs in = *rig_.loads.inputs;
    for (loads::RiddenWind& wind : in.ridden_wind) wind.rider_N = 0;
    const auto loads = loads::solve(in, *rig_.main_line.solved(), in_, reeving_);
    if (loads) tell(*loads);
  }

  void tell(const loads::Loads& loads) {
    const auto all = [&](const char* what, const std::vector<fairlead::loads::Demand>& demands) {
      for (const auto& demand : demands) add(what, demand.force_N, Kind::force);
    };
    for (const auto& demand : loads.demands) add_at_worst_place("anchor", demand.force_N);
    all("sheave", loads.sheaves);
    for (std::size_t l = 0; l < loads.lines.size(); ++l) {
      Extreme from = loads.lines[l].from_N, to = loads.lines[l].to_N;
      if (backward(l)) std::swap(from, to);
      add("line", loads.lines[l].tension_N, Kind::force);
      add("line at its first end", from, Kind::force);
      add("line at its second end", to, Kind::force);
    }
    for (const auto& block : loads.blocks) {
      add("through the block", block.force_N, Kind::force);
      add("lean of the block", block.lean_N_m.value, Kind::force);
    }
    add_at_worst_place("main line", loads.main_line.force_N);
  }

  void clearances() {
    const clearance::Clearances& clear = *rig_.clearance.solved();
    for (const clearance::Gap& gap : clear.gaps) {
      if (!riders_in_side_wind_ && rig_.layout.site.wind_across_m_per_s &&
          gap.a.kind == clearance::Thing::Kind::rider && gap.b.kind == clearance::Thing::Kind::structure)
        continue;
      told_.push_back({fmt::format("gap of {}.{} and {}.{}", static_cast<int>(gap.a.kind), gap.a.index,
                                   static_cast<int>(gap.b.kind), gap.b.index),
                       gap.least_m.value, gap.least_m.bound, Kind::length});
    }
    if (clear.hands) add("hands inside", clear.hands->inside_m, Kind::length);
    for (const std::size_t s : order_)
      for (const clearance::Passing& passing : clear.passings) {
        if (passing.sweep != static_cast<int>(s)) continue;
        add("passing", static_cast<double>(passing.met), Kind::count);
        if (passing.met != clearance::Passing::Met::at_travel) continue;
        add("passing at travel", passing.travel_m, Kind::length);
        for (const clearance::Gap& gap : passing.gaps) add("passing gap", gap.least_m.value, Kind::length);
      }
    add("exclusions", static_cast<double>(clear.excluded.size()), Kind::count);
  }

  const Rig& rig_;
  const reeving::Inputs& in_;
  const reeving::Reeving& reeving_;
  bool mirrored_, riders_in_side_wind_;
  std::vector<std::size_t> order_;
  std::vector<Number> told_;
};

}  // namespace

std::vector<Number> numbers_of(const Rig& rig, const Telling& telling) {
  if (!rig.main_line.solved() || !rig.reeving.solved() || !rig.loads.solved() || !rig.clearance.solved()) return {};
  return Teller(rig, telling).tell();
}

}  // namespace fairlead::laws
