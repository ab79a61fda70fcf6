#include "geometry/reeving/trolley_pull.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace fairlead::reeving {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// The pull at one pose.
struct Pull {
  Vec3 q;          ///< along it, of about the chord's length
  Vec3 direction;  ///< unit
  double tension_N{};
  double drop_m{};     ///< k
  double slope_rad{};  ///< of the track
  double weight_N{};   ///< on the wheel, without the pull
};

/// How the pull can differ between two poses.
struct Gap {
  double turn_rad{};   ///< between the directions at both
  double aside_rad{};  ///< off the arc between them
  double slope_rad{};  ///< what the track's slope changes by
  double tension_N{}, weight_N{};
};

double angle_between(Vec3 a, Vec3 b) { return std::atan2(norm(cross(a, b)), dot(a, b)); }

/// Angle off a plane of a unit vector with this component square to it.
double off_plane_rad(double component) { return std::asin(std::min(component, 1.0)); }

/// Least distance of the straight way from a to b from the origin.
double nearest_m(Vec3 a, Vec3 b) {
  const Vec3 way = b - a;
  const double length2 = dot(way, way);
  if (!(length2 > 0)) return norm(a);
  return norm(a + std::clamp(-dot(a, way) / length2, 0.0, 1.0) * way);
}

class Walk {
 public:
  Walk(const Inputs& in, const SweepInputs& sweep_in, const Sweep& sweep, double wheelbase_m)
      : in_(in),
        sweep_in_(sweep_in),
        sweep_(sweep),
        leg_(in.legs_before(static_cast<std::size_t>(in.pulling))),
        half_base_m_(wheelbase_m / 2),
        lever_(cross(in.across, in.attachment)) {}

  TrolleyPull go();

 private:
  Pull at(std::size_t pose) const;
  Gap between(const Pull& a, const Pull& b, double stray_m) const;
  double slope_change_rad(std::size_t gap) const;
  /// Off a track of that slope, upstream.
  double angle(const Pull& p, double slope_rad) const {
    return angle_between(p.direction, -std::cos(slope_rad) * in_.along - std::sin(slope_rad) * in_.up);
  }
  double pitch(double moment_N_m, double pressing_N) const {
    if (std::isnan(half_base_m_)) return half_base_m_;
    return pressing_N > 0 ? moment_N_m / (pressing_N * half_base_m_) : infinite;
  }
  void count(TrolleyPull&, const Pull&, int pose) const;
  void bound(TrolleyPull&, const Pull&, const Pull&, const Gap&) const;

  const Inputs& in_;
  const SweepInputs& sweep_in_;
  const Sweep& sweep_;
  std::size_t leg_;
  double half_base_m_;
  Vec3 lever_;  ///< the pitching moment of a pull is its product with this
};

Pull Walk::at(std::size_t index) const {
  const Pose& pose = sweep_.poses[index];
  const Leg& leg = sweep_.legs[index * in_.legs() + leg_];
  Pull pull;
  pull.tension_N = norm(pose.pull_on_trolley_N);
  pull.direction = (1 / pull.tension_N) * pose.pull_on_trolley_N;
  const Vec3 chord = leg.to - leg.from;
  const double load_N_per_m = norm(leg.load_N_per_m);
  // A plumb or weightless leg leaves the trolley along its chord.
  if (load_N_per_m > 0 && leg.H_N > 0) {
    const Vec3 up = (-1 / load_N_per_m) * leg.load_N_per_m;
    const double rise_m = dot(chord, up), reach_m = norm(chord - rise_m * up);
    pull.drop_m = rise_m - reach_m * dot(pose.pull_on_trolley_N, up) / leg.H_N;
    pull.q = chord - pull.drop_m * up;
  } else {
    pull.q = chord;
  }
  pull.slope_rad = pose.tau_rad;
  pull.weight_N = sweep_in_.trolley_weight_N + (pose.travel_m >= 0 ? sweep_in_.rider_weight_N : 0);
  return pull;
}

Gap Walk::between(const Pull& a, const Pull& b, double stray_m) const {
  Gap gap;
  gap.turn_rad = angle_between(a.direction, b.direction);
  const double off_m = 2 * stray_m + 2 * std::abs(b.drop_m - a.drop_m), reach_m = nearest_m(a.q, b.q);
  gap.aside_rad = off_m < reach_m ? std::asin(off_m / reach_m) : std::numbers::pi;
  gap.tension_N = greater(a.tension_N, b.tension_N);
  gap.weight_N = std::min(a.weight_N, b.weight_N);
  return gap;
}

/// How much the track's slope changes over a gap. At contact the wheel takes the rider on and its slope jumps: up to
/// there it changes on at the rate of the gap before.
double Walk::slope_change_rad(std::size_t gap) const {
  const std::vector<Pose>& poses = sweep_.poses;
  const auto change = [&](std::size_t g) { return std::abs(poses[g + 1].tau_rad - poses[g].tau_rad); };
  if (!(poses[gap].travel_m < 0 && poses[gap + 1].travel_m >= 0 && gap > 0)) return change(gap);
  return change(gap - 1) * (poses[gap + 1].travel_m - poses[gap].travel_m) /
         (poses[gap].travel_m - poses[gap - 1].travel_m);
}

void Walk::count(TrolleyPull& worst, const Pull& pull, int pose) const {
  const auto worse = [pose](Extreme& e, double value) {
    if (!(value <= e.value) && !std::isnan(e.value)) e = {value, greater(value, e.bound), pose};
  };
  const double up_N = pull.tension_N * dot(pull.direction, in_.up);
  worse(worst.angle_rad, angle(pull, pull.slope_rad));
  worse(worst.side_rad, off_plane_rad(std::abs(dot(pull.direction, in_.across))));
  worse(worst.lift_share, up_N / pull.weight_N);
  worse(worst.pitch_share, pitch(pull.tension_N * std::abs(dot(pull.direction, lever_)), pull.weight_N - up_N));
}

void Walk::bound(TrolleyPull& worst, const Pull& a, const Pull& b, const Gap& gap) const {
  const auto raise = [](Extreme& e, double bound) { e.bound = greater(e.bound, bound); };
  // Along the arc of angle g a component is (sin (1 - t) g, sin t g) / sin g of its values at both ends: together at
  // most 1 / cos (g / 2) of the greater one. Off the arc it grows by no more than the sine of the angle off it.
  const double bulge = gap.turn_rad < std::numbers::pi ? 1 / std::cos(gap.turn_rad / 2) : infinite,
               off = gap.aside_rad < std::numbers::pi / 2 ? std::sin(gap.aside_rad) : 1;
  const auto component = [&](Vec3 v, double at_a, double at_b) {
    return std::min(greater(greater(at_a, at_b), 0) * bulge + norm(v) * off, norm(v));
  };
  const auto either_way = [&](Vec3 v) {
    return component(v, std::abs(dot(a.direction, v)), std::abs(dot(b.direction, v)));
  };
  // From one pose's track. Caps of less than a right angle are convex: an arc between two directions in one stays in.
  const double cap = greater(angle(a, a.slope_rad), angle(b, a.slope_rad)),
               angle_rad = cap < std::numbers::pi / 2 ? cap : cap + gap.turn_rad;
  raise(worst.angle_rad, std::min(angle_rad + gap.aside_rad + 2 * gap.slope_rad, std::numbers::pi));
  raise(worst.side_rad, off_plane_rad(either_way(in_.across)));
  const double up_N = gap.tension_N * component(in_.up, dot(a.direction, in_.up), dot(b.direction, in_.up));
  raise(worst.lift_share, up_N / gap.weight_N);
  raise(worst.pitch_share, pitch(gap.tension_N * either_way(lever_), gap.weight_N - up_N));
}

TrolleyPull Walk::go() {
  const Extreme none{-infinite, -infinite, -1};
  TrolleyPull worst{none, none, none, none};
  Pull before = at(0);
  count(worst, before, 0);
  for (std::size_t p = 1; p < sweep_.poses.size(); ++p) {
    const Pull pull = at(p);
    count(worst, pull, static_cast<int>(p));
    Gap gap = between(before, pull, sweep_.strays[p - 1].legs_m[leg_]);
    gap.slope_rad = slope_change_rad(p - 1);
    bound(worst, before, pull, gap);
    before = pull;
  }
  return worst;
}

}  // namespace

TrolleyPull trolley_pull(const Inputs& in, const SweepInputs& sweep_in, const Sweep& sweep, double wheelbase_m) {
  return Walk(in, sweep_in, sweep, wheelbase_m).go();
}

}  // namespace fairlead::reeving
