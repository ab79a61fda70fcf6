#include "geometry/arrest/reset.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

// Before the stepper, whose header forgets it.
#include <boost/numeric/odeint/util/bind.hpp>
#include <boost/numeric/odeint/util/unwrap_reference.hpp>

#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

namespace odeint = boost::numeric::odeint;
using Numbers = std::array<double, 2>;  // travel, speed
constexpr double accurate = 1e-8, longest_return_s = 120;
/// At a hundred metres a second no farther than the track goes on beyond the mark.
constexpr double longest_step_s = Track::margin_m / 100;

/// Along x, toward the mark positive: what draws the empty trolley back less what hinders it.
double net_N(const TrackPoint& at, double tension_N, double mass_kg, double rolling, double static_N) {
  const double presses_N = pressing_N(at, mass_kg, 0, tension_N);
  return at.pull_back * tension_N - at.drive_N - (rolling * presses_N + static_N) * std::sqrt(1 + at.slope * at.slope);
}

/// Its reserve along the track, at a place more.
void look(Reset& reset, double travel_m, double reserve_N) {
  reset.travel_m.push_back(travel_m);
  reset.reserve_N.push_back(reserve_N);
  if (!(reserve_N >= reset.least_reserve_N)) reset.least_reserve_N = reserve_N, reset.at_travel_m = travel_m;
}

/// At even places of the travel.
Reset reserves(const Track& track, const Inputs& in) {
  constexpr int strides = 200;
  Reset reset{.least_reserve_N = std::numeric_limits<double>::infinity()};
  for (int i = 0; i <= strides; ++i) {
    const double x_m = track.to_m() * i / strides;
    const TrackPoint at = track.at(x_m);
    const double net =
        net_N(at, in.unit.retraction_N(at.extension_m), in.brake_trolley_kg, in.rolling.high, in.static_N);
    look(reset, x_m, net / std::sqrt(1 + at.slope * at.slope));
  }
  return reset;
}

/// Smallest n of n:1 at which it no longer comes back; infinite beyond n = 20, 1 where it does not even then.
double stopping_ratio(const Track& track, double ratio, double rest_extension_m, const Inputs& in) {
  const auto resets = [&](double n) {
    return reserves(track.with_ratio(ratio, n, rest_extension_m), in).least_reserve_N > 0;
  };
  double low = 1, high = 20;
  if (!resets(low)) return low;
  if (resets(high)) return std::numeric_limits<double>::infinity();
  for (int halvings = 0; halvings < 30; ++halvings) {
    const double middle = (low + high) / 2;
    (resets(middle) ? low : high) = middle;
  }
  return high;
}

void run_back(const Track& track, const Inputs& in, Reset& reset) {
  const auto rates = [&](const Numbers& s, Numbers& rate, double) {
    const TrackPoint at = track.at(s[0]);
    const double line_speed = -s[1] * at.pay_out;
    const double drag_N = in.return_share * in.brake_share.low * in.unit.magnetic(std::max(0.0, line_speed));
    const double tension_N = std::max(0.0, in.unit.retraction_N(at.extension_m) - drag_N);
    const double q = 1 + at.slope * at.slope;
    const double bend = in.brake_trolley_kg * at.slope * at.curvature + at.inertia_slope / 2;
    const double back_N = net_N(at, tension_N, in.brake_trolley_kg, in.rolling.low, in.static_N);
    rate = {s[1], (-back_N - bend * s[1] * s[1]) / (in.brake_trolley_kg * q + at.inertia_kg)};
  };
  auto stepper = odeint::make_dense_output(accurate, accurate, longest_step_s, odeint::runge_kutta_dopri5<Numbers>());
  stepper.initialize(Numbers{track.to_m(), 0}, 0.0, 1e-3);
  for (;;) {
    const auto [from_s, to_s] = stepper.do_step(rates);
    const Numbers& s = stepper.current_state();
    if (!(s[1] <= 0) || to_s > longest_return_s) return;
    if (s[0] > 0) continue;
    double low_s = from_s, high_s = to_s;
    Numbers there;
    for (int halvings = 0; halvings < 50; ++halvings) {
      const double middle = low_s + (high_s - low_s) / 2;
      stepper.calc_state(middle, there);
      (there[0] > 0 ? low_s : high_s) = middle;
    }
    reset.returns = true;
    reset.time_s = high_s;
    reset.speed_at_mark_m_per_s = -there[1];
    return;
  }
}

/// The track of the empty trolley is wanted for the ratio too, so it is made once.
Reset way_back_on(const Track& track, const Inputs& in, const reeving::Inputs& reeving,
                  const reeving::Sweep& returning) {
  Reset reset{.path = returning.path, .least_reserve_N = std::numeric_limits<double>::infinity()};
  for (const reeving::Pose& pose : returning.poses) {
    const double cos_track = std::cos(pose.tau_rad), sin_track = std::sin(pose.tau_rad);
    const double normal_N =
        (in.brake_trolley_kg * standard_gravity - dot(pose.pull_on_trolley_N, reeving.up)) * cos_track +
        dot(pose.pull_on_trolley_N, reeving.along) * sin_track;
    const double reserve_N = dot(pose.hold_N, reeving.along) * cos_track - in.rolling.high * normal_N - in.static_N;
    look(reset, pose.travel_m, reserve_N);
  }
  if (reset.least_reserve_N > 0) run_back(track, in, reset);
  return reset;
}

}  // namespace

Solved<Reset> way_back(const Inputs& in, const reeving::Inputs& reeving, const reeving::Sweep& returning,
                       const mainline::Path& empty) {
  const auto track = Track::empty(reeving, returning, empty, in.moving_mass_kg);
  if (!track) return tl::unexpected(track.error());
  Reset reset = way_back_on(*track, in, reeving, returning);
  reset.ratio_at_which_it_stops = std::numeric_limits<double>::quiet_NaN();
  return reset;
}

Solved<Reset> reset(const Inputs& in, const reeving::Inputs& reeving, const reeving::Sweep& returning,
                    const mainline::Path& empty) {
  const auto track = Track::empty(reeving, returning, empty, in.moving_mass_kg);
  if (!track) return tl::unexpected(track.error());
  Reset reset = way_back_on(*track, in, reeving, returning);
  reset.ratio_at_which_it_stops = stopping_ratio(*track, reeving.nominal_ratio, reeving.rest_extension_m, in);
  return reset;
}

double least_reserve_N(const Inputs& in, const Track& empty) { return reserves(empty, in).least_reserve_N; }

Reset reset_plain(const Inputs& in, const Track& empty, double ratio, double rest_extension_m) {
  Reset reset = reserves(empty, in);
  if (reset.least_reserve_N > 0) run_back(empty, in, reset);
  reset.ratio_at_which_it_stops = stopping_ratio(empty, ratio, rest_extension_m, in);
  return reset;
}

}  // namespace fairlead::arrest
