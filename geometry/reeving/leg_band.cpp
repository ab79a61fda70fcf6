#include "geometry/reeving/leg_band.hpp"

#include <limits>

#include "geometry/reeving/leg.hpp"

namespace fairlead::reeving {
namespace {

// p, q and tanh h of a leg's h.
double of_p(const Catenary& leg) { return 1 - leg.h * leg.h / (leg.S * leg.A); }
double of_q(const Catenary& leg) { return leg.S / leg.A; }
double tanh_of(const Catenary& leg) { return leg.h / (leg.S * leg.A); }

}  // namespace

LegBand leg_between(const Band3& span, Band mid_N, double w) {
  LegBand leg;
  const Band d = length_of(span.x, span.y), height = size_of(span.z);
  if (!(mid_N.low > 0)) return leg;
  const auto slackest = hang_leg({d.high, 0, height.high}, mid_N.low, w);
  const auto tautest = hang_leg({d.low, 0, height.low}, mid_N.high, w);
  if (!slackest || !tautest) return leg;
  const Band A{tautest->A, slackest->A}, S{slackest->S, tautest->S}, tanh_h{tanh_of(*tautest), tanh_of(*slackest)};
  const Band x = S * span.z, Q = length_of(d, x);
  const Band cx = share(span.x, length_of(span.y, x)), cy = share(span.y, length_of(span.x, x)), s = share(x, d);
  const Band C2 = squared(share(d, x)), s2 = squared(s), cx2 = squared(cx), cy2 = squared(cy);

  const Band p{of_p(*slackest), of_p(*tautest)}, q{of_q(*slackest), of_q(*tautest)};
  const Band fold{C2.high * p.low + (1 - C2.high) * q.low, C2.low * p.high + (1 - C2.low) * q.high};
  const Band k{C2.low * (1 - p.high / q.high), C2.high * (1 - p.low / q.low)};
  if (!(fold.low > 0 && k.high < 1)) return leg;
  const Band per_fold = Band(1) / fold, per_A = Band(1) / A;

  leg.length_m = length_of(height, d / S);
  leg.from_way = {cx * per_A, cy * per_A, s - tanh_h};
  leg.to_way = {-leg.from_way.x, -leg.from_way.y, -(s + tanh_h)};
  leg.per_span = {leg.from_way.x * per_fold, leg.from_way.y * per_fold, s / Band{1 - k.high, 1 - k.low}};
  leg.per_mid_m_per_N = -(leg.length_m / mid_N * Band{k.low / (1 - k.low), k.high / (1 - k.high)});

  // 1 - cx^2/fold loses less as 1 - 1/fold + (cy^2 + s^2)/fold where cx is near 1.
  const Band per_m = mid_N * per_A / Q, bulge = Band(1) - per_fold, steep = S * per_m * per_fold * s;
  const auto along = [&](Band own2, Band other2) {
    return per_m * both(Band(1) - per_fold * own2, bulge + per_fold * (other2 + s2));
  };
  leg.stiffness_N_per_m = {along(cx2, cy2), -(per_m * per_fold * (cx * cy)),           -(steep * cx), along(cy2, cx2),
                           -(steep * cy),   mid_N / leg.length_m * (C2 * p * per_fold)};
  leg.mid_N = mid_N;
  leg.rise_m = span.z;
  leg.h = {tautest->h, slackest->h};
  leg.S = S;
  leg.AS = {tautest->A * tautest->S, slackest->A * slackest->S};
  leg.fold = fold;
  leg.Q_m = Q;
  leg.lean = {cx, cy, s};
  leg.hangs = true;
  return leg;
}

double least_tension_N(const LegBand& leg, double at_ends_N) {
  // With its lowest point between them a leg pulls both its ends down.
  if (!(leg.from_way.z.low < 0 && leg.to_way.z.low < 0)) return at_ends_N;
  return std::min(at_ends_N, leg.mid_N.low * length_of(leg.from_way.x, leg.from_way.y).low);
}

SagRate sag_rate(const LegBand& leg, const Band3& span_rate, Band mid_rate, double reach) {
  const Band plan = leg.lean.x * span_rate.x + leg.lean.y * span_rate.y, rise = leg.S * (leg.lean.z * span_rate.z);
  const Band h_share = ((plan + rise) / leg.Q_m - mid_rate / leg.mid_N) / leg.fold;
  const Band h_rate = leg.h * h_share;
  const Band Q_rate = plan + rise + squared(leg.lean.z) * leg.Q_m * h_share * (Band(1) - leg.AS);

  constexpr double unknown = std::numeric_limits<double>::infinity();
  const double h = leg.h.high, q = h * h, z = leg.rise_m.greatest_size(), Q = leg.Q_m.high;
  if (!(h < 2)) return {unknown, unknown};
  // b and its slopes at v = 0 by the first terms of their series, the last one doubled for the rest.
  const double b = h / 4 * (1 + q / 12 * (1 + q / 15)), b_h = 0.25 * (1 + q / 4 * (1 + q / 9)),
               b_hh = h / 8 * (1 + q / 4.5);
  const double a = q / 31, a_h = h / 15, a_hh = 1.0 / 15;
  const double h_fast = h_rate.greatest_size(), z_fast = span_rate.z.greatest_size(), Q_fast = Q_rate.greatest_size();
  const double of_z = span_rate.z.width() * a + z_fast * a_h * h_fast * reach,
               of_Q = Q_rate.width() * b + Q_fast * b_h * h_fast * reach,
               of_h = h_rate.width() * (z * a_h + Q * b_h) +
                      h_fast * (z_fast * a_h + z * a_hh * h_fast + Q_fast * b_h + Q * b_hh * h_fast) * reach;
  return {of_z + of_Q + of_h, z_fast * a + Q_fast * b + h_fast * (z * a_h + Q * b_h)};
}

}  // namespace fairlead::reeving
