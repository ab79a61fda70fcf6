#include "geometry/reeving/leg_band.hpp"

namespace fairlead::reeving {
namespace {

// p, q and sinh h of a leg's h.
double of_p(const Catenary& leg) { return 1 - leg.h * leg.h / (leg.S * leg.A); }
double of_q(const Catenary& leg) { return leg.S / leg.A; }
double sinh_of(const Catenary& leg) { return leg.h / leg.S; }

/// A x + sign Q sinh h: rises with x, moves away from A x as h and d grow.
double end_rise(double x, const Catenary& leg, double d, int sign) {
  return leg.A * x + sign * sinh_of(leg) * std::sqrt(d * d + x * x);
}

}  // namespace

LegBand leg_between(Band along, Band across, Band rise, Band mid_N, double w) {
  LegBand leg;
  leg.along = along;
  leg.across = across;
  leg.rise = rise;
  const Band d = length_of(along, across), height = size_of(rise);
  if (!(mid_N.low > 0)) return leg;
  const auto slackest = hang_leg({d.high, 0, height.high}, mid_N.low, w);
  const auto tautest = hang_leg({d.low, 0, height.low}, mid_N.high, w);
  if (!slackest || !tautest) return leg;
  const Band h{tautest->h, slackest->h}, A{tautest->A, slackest->A}, S{slackest->S, tautest->S};
  const Band x = S * rise, Q = length_of(d, x);

  leg.from_rise = {end_rise(x.low, *slackest, d.high, -1), end_rise(x.high, *tautest, d.low, -1)};
  leg.to_rise = {end_rise(x.low, *tautest, d.low, 1), end_rise(x.high, *slackest, d.high, 1)};

  const Band p{of_p(*slackest), of_p(*tautest)}, q{of_q(*slackest), of_q(*tautest)};
  const Band C = share(d, x), C2 = C * C;
  const Band fold{C2.high * p.low + (1 - C2.high) * q.low, C2.low * p.high + (1 - C2.low) * q.high};
  const Band k{C2.low * (1 - p.high / q.high), C2.high * (1 - p.low / q.low)};
  if (!(fold.low > 0 && k.high < 1)) return leg;
  const Band length = length_of(height, d / S), per = Band(1) / (A * fold);
  leg.per_along = share(along, length_of(across, x)) * per;
  leg.per_across = share(across, length_of(along, x)) * per;
  leg.per_rise = S * share(x, d) * per;
  leg.per_mid_m_per_N = -(length / mid_N * Band{k.low / (1 - k.low), k.high / (1 - k.high)});

  // V = Tm rise / L - w L / 2 at the first end. Moving that end up by one shortens the rise by one and raises the mean
  // tension by w/2.
  leg.from_V_N = mid_N * leg.from_rise / (A * Q);
  const Band per_length = mid_N * rise / (length * length) + w / 2;  // -dV/dL
  leg.V_per_along = per_length * leg.per_along;
  leg.V_per_up = (rise * (w / 2) - mid_N) / length - per_length * (leg.per_mid_m_per_N * (w / 2) - leg.per_rise);
  leg.V_per_N = rise / length - per_length * leg.per_mid_m_per_N;
  const double longer_per_m = length_of(leg.per_along, leg.per_across).high + leg.per_rise.greatest_size() +
                              leg.per_mid_m_per_N.greatest_size() * w / 2;
  leg.V_per_to_N_per_m =
      ((rise * (w / 2)).greatest_size() + mid_N.high) / length.low + per_length.greatest_size() * longer_per_m;

  // The direction (along, across, R) of an end turns by at most its change over its size. A unit move changes the plan
  // part and rise by at most 1 together, hence R by (A + sinh h) S of the rise, by sinh h of the plan part, and through
  // h: |dh| <= (h/fold)(|move|/Q + |dTm|/Tm), |dS/dh| <= h/3.
  const double sinh_h = sinh_of(*slackest), thinner = height.high * h.high / 3;
  const double through_h = (A.high + sinh_h) * thinner + sinh_h * x.greatest_size() + A.high * Q.high;
  const double h_per_share = h.high / fold.low;
  const double size = std::min(length_of(d, leg.from_rise).low, length_of(d, leg.to_rise).low);
  const double least_N = mid_N.low - w * height.high / 2;
  if (!(size > 0 && least_N > 0)) return leg;
  leg.swing_rad_per_m = (std::max(1.0, (A.high + sinh_h) * S.high) + sinh_h +
                         through_h * h_per_share * (1 / Q.low + w / (2 * mid_N.low))) /
                        size;
  leg.swing_rad_per_N = through_h * h_per_share / mid_N.low / size;
  leg.curving_rad_per_m = w / least_N;  // w H / T^2
  leg.greatest_tension_N = mid_N.high + w * height.high / 2;
  leg.hangs = true;
  return leg;
}

}  // namespace fairlead::reeving
