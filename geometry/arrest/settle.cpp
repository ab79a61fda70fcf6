#include "geometry/arrest/settle.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::arrest {
namespace {

/// What pushes a trolley that is about to move, along x: both senses of friction.
class Standstill {
 public:
  Standstill(const Track& track, const Bodies& bodies, const Unit& unit)
      : track_(track), bodies_(bodies), unit_(unit) {}

  /// Above 0: it moves on toward the landing.
  double onward_N(double x_m) const {
    const TrackPoint at = track_.at(x_m);
    const double T = tension_N(at);
    return at.drive_N + wind_N() - at.pull * T - rolling_N(at, T);
  }
  /// Below 0: it moves back.
  double backward_N(double x_m) const {
    const TrackPoint at = track_.at(x_m);
    const double T = tension_N(at);
    return at.drive_N + wind_N() - at.pull_back * T + rolling_N(at, T);
  }
  /// The same, had the unit no retraction.
  double backward_alone_N(double x_m) const {
    const TrackPoint at = track_.at(x_m);
    return at.drive_N + wind_N() + rolling_N(at, 0);
  }
  double extension_m(double x_m) const {
    const TrackPoint at = track_.at(x_m);
    return at.extension_m + at.give_m_per_N * tension_N(at);
  }
  /// The rider by himself, who is not tied to the brake trolley: sense 1 as of onward_N, -1 of backward_N.
  double rider_N(double x_m, int sense) const {
    const TrackPoint at = track_.at(x_m);
    const double all_kg = bodies_.rider_kg + bodies_.rider_trolley_kg + bodies_.brake_trolley_kg;
    return (at.drive_N - sense * rolling_N(at, 0)) * (1 - bodies_.brake_trolley_kg / all_kg) + wind_N();
  }

 private:
  double tension_N(const TrackPoint& at) const {
    const double first = unit_.law.retraction_N(at.extension_m);
    return unit_.law.retraction_N(at.extension_m + at.give_m_per_N * first);
  }
  double wind_N() const { return bodies_.drag_kg_per_m * std::abs(bodies_.wind_m_per_s) * bodies_.wind_m_per_s; }
  double rolling_N(const TrackPoint& at, double T) const {
    const double hanging_kg = bodies_.rider_kg + bodies_.rider_trolley_kg + bodies_.brake_trolley_kg;
    return bodies_.rolling * pressing_N(at, hanging_kg, 0, T) * std::sqrt(1 + at.slope * at.slope);
  }

  const Track& track_;
  const Bodies& bodies_;
  const Unit& unit_;
};

/// From `from_m` toward `to_m` the first place where `moving` no longer holds, to a hair; to_m where it always does.
template <class Moving>
double first_still(double from_m, double to_m, const Moving& moving) {
  constexpr int strides = 200;
  double before = from_m;
  for (int i = 1; i <= strides; ++i) {
    double after = from_m + (to_m - from_m) * i / strides;
    if (moving(after)) {
      before = after;
      continue;
    }
    for (int halvings = 0; halvings < 40; ++halvings) {
      const double middle = before + (after - before) / 2;
      (moving(middle) ? before : after) = middle;
    }
    return after;
  }
  return to_m;
}

}  // namespace

FinalRest settle(const Track& track, const Bodies& bodies, const Unit& unit, double stopped_m) {
  using How = FinalRest::How;
  const Standstill at(track, bodies, unit);
  const auto onward = [&](double x) { return at.onward_N(x) > 0; };
  const auto backward = [&](double x) { return at.backward_N(x) < 0; };
  const auto rests = [&](How how, double earliest_m, double latest_m) {
    return FinalRest{how, earliest_m, latest_m, at.extension_m(latest_m)};
  };
  if (onward(stopped_m)) {
    const double near_m = first_still(stopped_m, track.to_m(), onward);
    if (!(near_m < track.to_m())) return rests(How::runs_on, track.to_m(), track.to_m());
    // Where something holds him back he stays as soon as he stands; else anywhere up to where he would roll back.
    const double far_m =
        bodies.held_back ? track.to_m() : first_still(near_m, track.to_m(), [&](double x) { return !backward(x); });
    return rests(How::crept_on, near_m, far_m);
  }
  if (!backward(stopped_m)) return rests(How::holds, stopped_m, stopped_m);
  if (bodies.held_back) {
    const auto rolls = [&](double x) { return at.rider_N(x, -1) < 0; };
    if (bodies.coupled || !rolls(stopped_m)) return rests(How::held_back, stopped_m, stopped_m);
    const double near_m = first_still(stopped_m, 0, rolls);
    return rests(How::rolled_back, first_still(near_m, 0, [&](double x) { return !(at.rider_N(x, 1) > 0); }), near_m);
  }
  const double near_m = first_still(stopped_m, 0, backward);
  const double far_m = first_still(near_m, 0, [&](double x) { return !onward(x); });
  const How how = at.backward_alone_N(stopped_m) < 0 ? How::rolled_back : How::pushed_back;
  return rests(how, far_m, near_m);
}

}  // namespace fairlead::arrest
