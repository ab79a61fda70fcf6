#include "geometry/reeving/line_piece.hpp"

#include <cmath>

namespace fairlead::reeving {
namespace {

/// e = (atanh(u)/u - 1)/u2, and d(u e)/du. Both are series of positive terms, so they rise with u.
template <class Number>
struct Arc {
  Number e, ue_u;
};
Arc<double> arc_of(double u) {
  const double q = u * u;
  if (q < 1e-2) {  // what is left out of the series is below 1e-17 of it
    Arc<double> sum{0, 0};
    for (int k = 8; k >= 0; --k) sum = {sum.e * q + 1. / (2 * k + 3), sum.ue_u * q + (2 * k + 1.) / (2 * k + 3)};
    return sum;
  }
  const double g = std::atanh(u) / u;
  return {(g - 1) / q, (1 / (1 - q) - 2 * g + 1) / q};
}
Arc<Band> arc_of(Band u) {
  const Arc<double> low = arc_of(u.low), high = arc_of(u.high);
  return {{low.e, high.e}, {low.ue_u, high.ue_u}};
}

/// What the formulas share: P = 1/(1 + M/EA), r = sqrt(1 - u2).
template <class Number>
struct Terms {
  Number P, u, u2, r, sine, cosine;
  Terms(const PieceEnds<Number>& at, const mainline::Cable& cable) {
    const Number one(1);
    P = one / (one + cable.compliance_per_N * at.M);
    u = (cable.weight_N_per_m / 2) * (at.L / at.M);
    u2 = squared(u);
    r = root(one - u2);
    sine = P * at.steep;
    cosine = root(one - squared(sine));
  }
};

template <class Number>
LinePiece<Number> piece(const PieceEnds<Number>& at, const mainline::Cable& cable) {
  const auto& [L, steep, M] = at;
  const double c = cable.compliance_per_N;
  const Terms<Number> t(at, cable);
  const Number cM = c * M, e = arc_of(t.u).e;
  const Number k = (cM + Number(1) + t.u2 * e) * t.r, k_u_u = -(t.u2 / t.r * (cM + e));  // u times dk/du at fixed M
  const Number tip = k / t.cosine * t.sine * t.P;
  return {.X = k * L * t.cosine,
          .V = M * t.sine,
          .X_per = {.L = (k + k_u_u) * t.cosine,
                    .steep = -(L * tip),
                    .M = L * ((c * t.r - k_u_u / M) * t.cosine + c * (tip * t.sine))},
          .V_per = {.L = Number(0), .steep = M * t.P, .M = squared(t.P) * steep}};
}

/// As it is, or without numbers where some of it cannot hang.
PieceEnds<Band> hanging(const PieceEnds<Band>& at, const mainline::Cable& cable) {
  const bool hangs = at.L.low >= 0 && at.M.low > 0 && cable.weight_N_per_m * at.L.high < 2 * at.M.low &&
                     at.steep.greatest_size() < 1 + cable.compliance_per_N * at.M.low;
  return hangs ? at : PieceEnds<Band>{Band(std::nan("")), Band(std::nan("")), Band(std::nan(""))};
}

}  // namespace

LineTension<double> line_tension(double sum_N, const mainline::Cable& cable) {
  const double grows = std::sqrt(1 + 2 * cable.compliance_per_N * sum_N);  // 1 + T/EA
  return {2 * sum_N / (1 + grows), 1 / grows};
}

LineTension<Band> line_tension(Band sum_N, const mainline::Cable& cable) {
  const auto low = line_tension(sum_N.low, cable), high = line_tension(sum_N.high, cable);
  return {{low.T, high.T}, {high.per, low.per}};
}

BandJet line_tension(const BandJet& sum_N, const mainline::Cable& cable) {
  const LineTension<Band> at = line_tension(sum_N.at, cable);
  return chain(sum_N, at.T, at.per, -(cable.compliance_per_N * (at.per * at.per * at.per)));
}

LinePiece<double> line_piece(const PieceEnds<double>& at, const mainline::Cable& cable) { return piece(at, cable); }

LinePiece<Band> line_piece(const PieceEnds<Band>& at, const mainline::Cable& cable) {
  return piece(hanging(at, cable), cable);
}

LevelTension level_tension(const PieceEnds<Band>& given, const mainline::Cable& cable) {
  const PieceEnds<Band> at = hanging(given, cable);
  const Terms<Band> t(at, cable);
  const Band bend = t.cosine / t.r, tip = t.r / t.cosine * t.sine;
  const Band end = size_of(t.sine) + t.u;
  return {.H_per = {.L = -(cable.weight_N_per_m / 2 * (t.u * bend)),
                    .steep = -(at.M * t.P * tip),
                    .M = t.r * t.cosine + t.u2 * bend + cable.compliance_per_N * (at.M * t.P * tip * t.sine)},
          .steepest = (end / (t.r * t.cosine)).high};
}

BandJet steep_of(const std::array<double, 2>& L, const std::array<double, 2>& D, double D_bend) {
  const BandJet length = even(L[0], L[1]);
  const Band per_L = Band(1) / length.at;
  // D goes evenly but for D'' t(1 - t)/2, and L D' - D L' changes by L D'' alone.
  const double longer = L[1] - L[0], first_rate = D[1] - D[0] - D_bend / 2;
  const Band turns = L[0] * first_rate - D[0] * longer + D_bend * length.at.high * Band(0, 1);
  return {wider(band_of(D[0] / L[0], D[1] / L[1]), std::abs(D_bend) / 8 * per_L.high), turns * squared(per_L),
          D_bend * per_L - 2 * longer * (turns * (per_L * squared(per_L)))};
}

PieceStep piece_step(const BandJet& L, const BandJet& D, const BandJet& steep, const BandJet& M,
                     const mainline::Cable& cable) {
  const double c = cable.compliance_per_N;
  const BandJet P = inverse(BandJet(1) + c * M);
  const BandJet u = (cable.weight_N_per_m / 2) * (L * inverse(M)), r = root(BandJet(1) - squared(u));
  // Of f = atanh(u)/u sqrt(1 - u2): f' = -u e/r, f'' = -d(u e)/du / r - u2 e/r3.
  const Arc<Band> arc = arc_of(u.at);
  const Band u2 = squared(u.at), per_r = Band(1) / r.at;
  const BandJet f = chain(u, (Band(1) + u2 * arc.e) * r.at, -(u.at * arc.e * per_r),
                          -(per_r * (arc.ue_u + u2 * arc.e * squared(per_r))));
  const BandJet sine = P * steep, Mr = M * r, cosine = root(BandJet(1) - squared(sine));
  // Of L cos b = sqrt(L2 - B2), B = P D: -((L2 sin' b)2/(L cos b)2 + B B'')/(L cos b). What nearly cancels in its
  // products is gone.
  const BandJet B = P * D;
  const Band per = Band(1) / cosine.at, tangent = sine.at * per;
  const BandJet flat{L.at * cosine.at, L.rate * cosine.at + L.at * cosine.rate,
                     -(L.at * squared(sine.rate) * (per * squared(per)) + tangent * B.bend)};
  return {.X = (c * Mr + f) * flat, .V = M * sine, .H = Mr * cosine};
}

}  // namespace fairlead::reeving
