#include "geometry/reeving/line_between.hpp"

#include <cmath>
#include <limits>

#include "geometry/quantity/solved.hpp"
#include "geometry/reeving/line_step.hpp"

namespace fairlead::reeving {
namespace {

constexpr double unknown = std::numeric_limits<double>::infinity();
constexpr LineBetween nothing_known{unknown, unknown, unknown, 0};

/// A piece at a pose.
struct Arc {
  double X, H, from_slope, to_slope;
  Band slopes() const { return band_of(from_slope, to_slope); }
};
Arc arc_of(const mainline::Cable& cable, const mainline::Shape& shape, std::size_t i) {
  const mainline::Piece& piece = shape.pieces[i];
  const double end_m = i < static_cast<std::size_t>(shape.loads) ? shape.wheels[i].x_m : cable.span_m;
  return {end_m - piece.x_m, piece.H_N, -piece.V_N / piece.H_N,
          (cable.weight_N_per_m * piece.unstretched_m - piece.V_N) / piece.H_N};
}

Band bend_of(const mainline::Cable& cable, const Arc& arc) {
  const Band g = length_of(1, arc.slopes());
  const double w = cable.weight_N_per_m, cH = cable.compliance_per_N * arc.H;
  const auto at = [&](double grows) { return w * grows / (arc.H * (1 + cH * grows)); };
  return {at(g.low), at(g.high)};
}

/// Horizontal tension of the piece between two wheels at the place where they have met. Its slope lies between those of
/// the pieces beside it, so it is not the least of all.
double met_level_N(const mainline::Cable& cable, const mainline::Shape& from, const mainline::Shape& met) {
  const mainline::Piece& before = met.pieces[0];
  const double T = met.wheels[0].tension_N,
               V = before.V_N - cable.weight_N_per_m * before.unstretched_m - from.wheels[0].force_z_N;
  return std::sqrt(T * T - V * V);
}

/// How far the points of a piece stray but for what its ends do. left_out_m: beside one of its ends, which stands.
struct Piece {
  double stray_m, bulge_per_m2;
};
Piece between_ends(const mainline::Cable& cable, const Arc& a, const Arc& b, double H_off_N, double steepest,
                   const std::array<double, 2>& left_out_m) {
  const double w = cable.weight_N_per_m, c = cable.compliance_per_N;
  const Band slopes = hull(a.slopes(), b.slopes()), g = length_of(1, slopes);
  const Band K_a = bend_of(cable, a), K_b = bend_of(cable, b);
  const double longer = b.X - a.X;
  const BandJet X = even(a.X, b.X), H = even(a.H, b.H);
  // How the slope at a share changes: known at its ends; between them it changes along the share by `apart`, for the
  // same slope, and by no more than `steeper` of itself.
  const Band stiff = H.at * (Band(1) + c * (H.at * g));
  const Band apart = w * g * (longer - X.at * H.rate * (Band(1) + 2 * c * (H.at * g)) / stiff) / stiff;
  const double steeper = w * X.at.high / H.at.low;
  const Band ends = band_of(b.from_slope - a.from_slope, b.to_slope - a.to_slope);
  const double most = (ends.greatest_size() + apart.greatest_size() / 2) * std::exp(steeper / 2);
  const Band turn = wider(ends, apart.width() / 4 + steeper * most / 2);
  const Band rises = a.X * turn + longer * b.slopes();  // h~_s
  const Band per_arc = Band(1) / (X.at * g);
  const BandJet arc{X.at * g, (longer + slopes * rises) / g, squared(a.X * b.X * turn) * per_arc * squared(per_arc)};
  const BandJet bent = w * (X * arc * inverse(H + c * (squared(H) * arc * inverse(X))));

  const double least_N = H.at.low - H_off_N;
  if (!(least_N > 0)) return {unknown, unknown};
  const double lower = H.at.low / least_N;
  const double r =
      bent.bend.greatest_size() / 8 + bent.at.high * lower * lower * (1 + c * H.at.high * g.high) * H_off_N / least_N;
  const double moved_m = std::abs(left_out_m[0] * b.X - left_out_m[1] * a.X) / X.at.low;
  const double along_m = moved_m / 4 * turn.greatest_size() + moved_m * moved_m / 8 * hull(K_a, K_b).high;
  return {std::exp(w * X.at.high / least_N / 2) / 8 * r + along_m, w * std::hypot(1, steepest) / least_N / 8};
}

template <std::size_t N>
LineBetween line_of(const mainline::Cable& cable, const mainline::Shape& from, const mainline::Shape& to,
                    const OnTheWay& wheels, const LeftOut& left_out) {
  LineStep<N> step(cable, from, to, wheels);
  if (!step.proven()) return nothing_known;
  const bool meet = to.loads < from.loads;
  LineBetween all{};
  for (std::size_t i = 0; i <= N; ++i) {
    double ends_m = 0;
    if (i > 0) ends_m = greater(ends_m, step.wheel_m(i - 1));
    if (i < N) ends_m = greater(ends_m, step.wheel_m(i));
    Piece piece{};
    const auto level = step.level(i);
    double level_off_N = level.off_N;
    if (meet && i + 1 == N) {
      level_off_N += greater(met_level_N(cable, from, to) - greater(to.pieces[0].H_N, to.pieces[1].H_N), 0);
      const Arc first = arc_of(cable, from, i);
      piece.stray_m = step.sag_between_wheels_m() + bend_of(cable, first).high * first.X * first.X / 8;
    } else {
      const std::size_t b = meet && i == N ? N - 1 : i;
      constexpr std::array<double, 2> none{};
      piece = between_ends(cable, arc_of(cable, from, i), arc_of(cable, to, b), level.off_N, level.steepest,
                           i == 0   ? left_out.at_start_m
                           : i == N ? left_out.at_end_m
                                    : none);
    }
    all.stray_m = greater(all.stray_m, ends_m + piece.stray_m);
    all.bulge_per_m2 = greater(all.bulge_per_m2, piece.bulge_per_m2);
    all.level_off_N = greater(all.level_off_N, level_off_N);
    all.steepest = greater(all.steepest, level.steepest);
  }
  return all;
}

}  // namespace

LineBetween line_between(const mainline::Cable& cable, const mainline::Shape& from, const mainline::Shape& to,
                         const OnTheWay& wheels, const LeftOut& left_out) {
  if (from.loads == 2 && (to.loads == 2 || to.loads == 1)) return line_of<2>(cable, from, to, wheels, left_out);
  if (from.loads == 1 && to.loads == 1) return line_of<1>(cable, from, to, wheels, left_out);
  return nothing_known;
}

}  // namespace fairlead::reeving
