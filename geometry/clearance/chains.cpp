// The legs as chords.
#include <algorithm>
#include <cmath>

#include "geometry/clearance/movers.hpp"

namespace fairlead::clearance {
namespace {

/// A hanging leg in its own plane: where it is at a share of its chord.
struct Hanging {
  Point3 from;
  Vec3 span, up;        ///< up: against the load
  double run_m{};       ///< of the chord, square to the load
  double h{}, start{};  ///< half its run and where it starts, in units of the catenary's parameter
  double fall_m{};      ///< of its end slope over the leg: per share of the chord, what its direction varies by
  double bulge_m{};     ///< no chord over a share s of it leaves the curve by more than s^2 of this

  explicit Hanging(const reeving::Leg& leg) : from(leg.from), span(leg.to - leg.from) {
    const double load = norm(leg.load_N_per_m);
    if (!(load > 0 && leg.H_N > 0)) return;
    up = (-1 / load) * leg.load_N_per_m;
    const double rise = dot(span, up);
    run_m = norm(span - rise * up);
    if (!(run_m > 0)) return;
    h = load * run_m / (2 * leg.H_N);
    start = std::asinh(rise / run_m * h / std::sinh(h)) - h;
    fall_m = load * leg.length_m / leg.H_N * run_m;
    const double steepest = std::max(leg.from_tension_N, leg.to_tension_N) / leg.H_N;
    bulge_m = load / leg.H_N * steepest * run_m * run_m / 8;
  }

  /// Even shares from `first` to `last`, n + 1 of them. The two hyperbolic sines of the height over the chord's first
  /// end step by the theorem of addition.
  void points(double first, double last, int n, std::vector<Point3>& out) const {
    const double step = (last - first) / n;
    if (!(h > 0)) {
      for (int i = 0; i <= n; ++i) out.push_back(from + (first + i * step) * span);
      return;
    }
    const Vec3 flat = span - dot(span, up) * up;
    const double s = std::sinh(h * step), c = std::cosh(h * step), size = run_m / h;
    double s1 = std::sinh(h * first), c1 = std::cosh(h * first), s2 = std::sinh(start + h * first),
           c2 = std::cosh(start + h * first);
    for (int i = 0; i <= n; ++i) {
      out.push_back(from + (first + i * step) * flat + size * s1 * s2 * up);
      const double next1 = s1 * c + c1 * s, next2 = s2 * c + c2 * s;
      c1 = c1 * c + s1 * s;
      c2 = c2 * c + s2 * s;
      s1 = next1;
      s2 = next2;
    }
  }
};

struct Shares {
  double first, last;
};
Shares shares_of(const Stretch& stretch, double chord_m) {
  if (stretch.keep_m > 0) return {0, std::min(1., stretch.keep_m / chord_m)};
  const double skipped_m = stretch.skip_from_m + stretch.skip_to_m;
  if (skipped_m == 0) return {0, 1};
  if (!(skipped_m < chord_m)) return {stretch.skip_from_m / skipped_m, stretch.skip_from_m / skipped_m};
  return {stretch.skip_from_m / chord_m, 1 - stretch.skip_to_m / chord_m};
}

}  // namespace

int chords_for(double bulge_m, const Inputs& inputs) {
  const double chords = std::ceil(std::sqrt(bulge_m / (chord_share * inputs.resolution_m)));
  return chords <= most_chords ? std::max(1, static_cast<int>(chords)) : most_chords;
}

// A point of the stretch keeps no constant share s of its chord from one pose to the next. Interpolated as if it did,
// it is off by t (1 - t) ds (P1' - P0') <= ds/4 |P1' - P0'|, P' the curve's change with s: the span, give or take
// fall_m.
Chain hanging_chain(const Stretch& stretch, const Passage& passage) {
  std::vector<Hanging> legs;
  std::vector<Shares> shares;
  double bulge_m = 0;
  for (int i = 0; i < passage.poses; ++i) {
    legs.emplace_back(passage.leg(i, stretch.leg));
    shares.push_back(shares_of(stretch, norm(legs.back().span)));
    const double share = shares.back().last - shares.back().first;
    bulge_m = std::max(bulge_m, share * share * legs.back().bulge_m);
  }
  const int chords = chords_for(bulge_m, passage.inputs);
  std::vector<Point3> at;
  at.reserve(static_cast<std::size_t>((chords + 1) * passage.poses));
  for (std::size_t i = 0; i < legs.size(); ++i) legs[i].points(shares[i].first, shares[i].last, chords, at);
  Chain chain(chords + 1, std::move(at));
  chain.slack_m = bulge_m / (chords * chords);
  for (std::size_t i = 0; i + 1 < legs.size(); ++i) {
    const double shift =
        std::max(std::abs(shares[i + 1].first - shares[i].first), std::abs(shares[i + 1].last - shares[i].last));
    const double turn_m = norm(legs[i + 1].span - legs[i].span) + legs[i].fall_m + legs[i + 1].fall_m;
    chain.stray_m.push_back(passage.stray(static_cast<int>(i)).legs_m[static_cast<std::size_t>(stretch.leg)] +
                            shift / 4 * turn_m);
  }
  const reeving::Inputs& rig = passage.rig;
  for (std::size_t l = 0; l < rig.lines.size(); ++l)
    if (rig.legs_before(l) <= static_cast<std::size_t>(stretch.leg)) chain.radius_m = rig.lines[l].diameter_m / 2;
  return chain;
}

}  // namespace fairlead::clearance
