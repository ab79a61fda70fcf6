#include "geometry/trial/hand_pulls.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/arrest/reset.hpp"
#include "geometry/reeving/hand_pull.hpp"

namespace fairlead::trial {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();

void widen(Solved<Span>& span, const Span& by) {
  if (!span) return;
  span->low = std::min(span->low, by.low);
  span->high = greater(span->high, by.high);
}

bool is_empty(const Rig& rig, const reeving::Sweep& sweep) {
  return rig.main_line.solved()->paths.at(static_cast<std::size_t>(sweep.path)).loading == mainline::Loading::empty;
}

/// Line out at a travel, straight between poses.
double extension_at(const reeving::Sweep& sweep, double travel_m) {
  const auto next = std::ranges::lower_bound(sweep.poses, travel_m, {}, &reeving::Pose::travel_m);
  if (next == sweep.poses.end()) return sweep.poses.back().extension_m;
  if (next == sweep.poses.begin()) return next->extension_m;
  const reeving::Pose &a = *(next - 1), &b = *next;
  return a.extension_m + (travel_m - a.travel_m) / (b.travel_m - a.travel_m) * (b.extension_m - a.extension_m);
}

/// The empty sweeps that come back, in still air.
std::vector<const reeving::Sweep*> returning(const Rig& rig) {
  std::vector<const reeving::Sweep*> sweeps;
  for (const reeving::Sweep& sweep : rig.reeving.solved()->sweeps)
    if (is_empty(rig, sweep) && !sweep.in_wind && sweep.friction != reeving::Friction::paying_out)
      sweeps.push_back(&sweep);
  return sweeps;
}

}  // namespace

std::vector<HandPulled> hand_pulled(const Rig& rig) {
  std::vector<HandPulled> all(3);
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving || !rig.arrest.inputs) return all;
  const arrest::Inputs& in = *rig.arrest.inputs;
  const auto pulls = reeving::hand_pulls(*rig.reeving.inputs, *reeving);
  for (std::size_t i = 0; i < all.size(); ++i) {
    HandPulled& one = all[i];
    one.pull_on_N = one.let_back_N = one.extension_m = Span{inf, -inf};
    double travel_m = 0;
    for (const reeving::HandPulls& position : pulls) {
      const reeving::HandPull& at = position.at.at(i);
      travel_m = at.travel_m;
      if (!at.along_N) {
        one.pull_on_N = one.let_back_N = tl::unexpected(at.along_N.error());
        break;
      }
      const double presses_N = std::max(0.0, at.presses_N);
      const Span wheels{in.rolling.low * presses_N + in.static_N, in.rolling.high * presses_N + in.static_N};
      if (position.friction != reeving::Friction::returning)
        widen(one.pull_on_N, {*at.along_N + wheels.low, *at.along_N + wheels.high});
      if (position.friction != reeving::Friction::paying_out)
        widen(one.let_back_N, {*at.along_N - wheels.high, *at.along_N - wheels.low});
    }
    for (const reeving::Sweep& sweep : reeving->sweeps)
      if (is_empty(rig, sweep) && !sweep.in_wind) {
        const double m = extension_at(sweep, travel_m);
        widen(one.extension_m, {m, m});
      }
    for (Solved<Span>* span : {&one.pull_on_N, &one.let_back_N, &one.extension_m})
      if (*span && !((*span)->low <= (*span)->high)) *span = unsolved("the reeving has no such sweep");
  }
  return all;
}

Solved<Span> return_time_s(const Rig& rig, const Span& from_m) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving || !rig.arrest.inputs) return unsolved("the reeving is not solved");
  if (!(from_m.high > 0)) return unsolved("it stands at its mark");
  // From one place there is one way back.
  const int places = from_m.low < from_m.high ? 4 : 0;
  Solved<Span> times = Span{inf, -inf};
  if (!(from_m.low > 0)) times->low = 0;
  for (const reeving::Sweep* whole : returning(rig)) {
    const mainline::Path& path = rig.main_line.solved()->paths.at(static_cast<std::size_t>(whole->path)).path;
    for (int i = 0; i <= places; ++i) {
      const double from = from_m.low + (from_m.high - from_m.low) * i / std::max(1, places);
      if (!(from > 0)) continue;
      reeving::Inputs shorter = *rig.reeving.inputs;
      shorter.travel_m = std::min(from, shorter.travel_m);
      // The slowest way back has the most to overcome, the fastest the least.
      for (const bool slow : {false, true}) {
        arrest::Inputs in = *rig.arrest.inputs;
        if (slow) in.rolling.low = in.rolling.high, in.brake_share.low = in.brake_share.high;
        const auto back = arrest::way_back(in, shorter, *whole, path);
        if (!back) return tl::unexpected(back.error());
        if (!back->returns) return unsolved("it does not come back by itself", from);
        widen(times, {back->time_s, back->time_s});
      }
    }
  }
  if (!(times->low <= times->high)) return unsolved("the reeving has no sweep of the empty trolley's return");
  return times;
}

}  // namespace fairlead::trial
