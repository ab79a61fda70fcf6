#include "geometry/reeving/line_step.hpp"

#include <cmath>

#include "geometry/quantity/solved.hpp"

namespace fairlead::reeving {
namespace {

constexpr double margin = 1e-9;  // m, and a share of m and of a slope: for rounding and what the poses are solved to

}  // namespace

template <std::size_t N>
LineStep<N>::LineStep(const mainline::Cable& cable, const mainline::Shape& from, const mainline::Shape& to,
                      const OnTheWay& way)
    : cable_(cable), way_(way), from_(from), to_(to), a_(unknowns(from)), b_(unknowns(to)) {
  const Numbers left_a = missed(a_, from), left_b = missed(b_, to);
  for (std::size_t i = 0; i < all; ++i) left_[i] = greater(std::abs(left_a[i]), std::abs(left_b[i]));
  for (std::size_t k = 0; k < N; ++k) left_[N + 1 + k] += way.off[k];
}

template <std::size_t N>
bool LineStep<N>::proven() {
  Numbers middle;
  for (std::size_t i = 0; i < all; ++i) middle[i] = (a_[i] + b_[i]) / 2;
  if (!invert(matrix(hung(middle)))) return false;
  bend();
  Numbers box;
  for (std::size_t i = 0; i < all; ++i) box[i] = 2 * off_[i] + std::abs(b_[i] - a_[i]) / 32;
  constexpr int tries = 4, closer = 3;
  for (int i = 0; i < tries; ++i) {
    shake(box);
    d_ = followed(box);
    bool within = true;
    for (std::size_t k = 0; k < all; ++k) within = within && d_[k] < box[k];
    if (within) {
      for (int n = 0; n < closer; ++n) d_ = followed(d_);
      // Where d makes much of itself, a box no greater than d makes less.
      if (d_[height] > 1.2 * off_[height]) shake(d_), d_ = followed(d_);
      return true;
    }
    for (std::size_t k = 0; k < all; ++k) box[k] = 1.5 * d_[k];
  }
  return false;
}

template <std::size_t N>
double LineStep<N>::wheel_m(std::size_t wheel) const {
  if (wheel + 1 == N) return d_[height];
  // In off_ and shaky_ the height z + q L answers d with q and L as they are midway.
  double sum = off_[all];
  for (std::size_t k = 0; k < all; ++k) sum += shaky_[all][k] * d_[k];
  const double q = std::abs(b_[slope] - a_[slope]) / 2, L = std::abs(b_[all - 1] - a_[all - 1]) / 2;
  return sum + q * d_[all - 1] + L * d_[slope] + d_[slope] * d_[all - 1];
}

template <std::size_t N>
typename LineStep<N>::Level LineStep<N>::level(std::size_t piece) const {
  const Hung<Band> over = hung_within(d_);
  const PieceEnds<Band>& ends = over.pieces[piece];
  const LevelTension level = level_tension(ends, cable_);
  const double w = cable_.weight_N_per_m, L_m = length_off_m(d_, piece);
  const double from_m = end_off_m(d_, piece), to_m = end_off_m(d_, piece + 1);
  const double M_N = (over.per[piece].high * (d_[0] + w * from_m) + over.per[piece + 1].high * (d_[0] + w * to_m)) / 2;
  const bool between = piece > 0 && piece < N;
  const double steep = between ? d_[slope] : (from_m + to_m + ends.steep.greatest_size() * L_m) / ends.L.low;
  return {level_bend_N_[piece] / 8 + level.H_per.M.greatest_size() * M_N + level.H_per.L.greatest_size() * L_m +
              level.H_per.steep.greatest_size() * steep,
          level.steepest};
}

template <std::size_t N>
double LineStep<N>::sag_between_wheels_m() const {
  const Hung<Band> over = hung_within(d_);
  const PieceEnds<Band>& ends = over.pieces[N - 1];
  // No tension there is below the mean of both ends less the weight.
  const double least_N = ends.M.low - cable_.weight_N_per_m * ends.L.high;
  const double long_m =
      ends.L.high * (1 + cable_.compliance_per_N * (ends.M.high + cable_.weight_N_per_m * ends.L.high));
  return least_N > 0 ? cable_.weight_N_per_m / least_N * long_m * long_m / 8 : HUGE_VAL;
}

template <std::size_t N>
double LineStep<N>::weight_N(const mainline::Shape& shape, std::size_t wheel) const {
  if (shape.loads == N) return shape.wheels[wheel].force_z_N;
  return wheel == 0 ? from_.wheels[0].force_z_N : shape.wheels[0].force_z_N - from_.wheels[0].force_z_N;
}

template <std::size_t N>
typename LineStep<N>::Numbers LineStep<N>::unknowns(const mainline::Shape& shape) const {
  Numbers y{};
  const double w = cable_.weight_N_per_m, c = cable_.compliance_per_N;
  const mainline::Wheel &first = shape.wheels[0], &last = shape.wheels[static_cast<std::size_t>(shape.loads) - 1];
  const double T = first.tension_N;
  y[0] = T + c / 2 * T * T - w * first.z_m;
  y[height] = last.z_m;
  y[length] = shape.pieces[0].unstretched_m;
  if constexpr (N == 2) {
    const double L = shape.pieces[1].unstretched_m;
    if (shape.loads == 2) {
      y[slope] = (first.z_m - last.z_m) / L;
      y[length + 1] = L;
    } else {
      // As the line between two wheels that have met is held by the first one's weight.
      const double V = shape.pieces[0].V_N - w * shape.pieces[0].unstretched_m - weight_N(shape, 0);
      y[slope] = V / T * (1 + c * T);
      y[length + 1] = 0;
    }
  }
  return y;
}

template <std::size_t N>
double LineStep<N>::length_m(const Numbers& y, std::size_t piece) const {
  if (piece < N) return y[length + piece];
  double left = cable_.unstretched_m;
  for (std::size_t k = 0; k < N; ++k) left -= y[length + k];
  return left;
}

template <std::size_t N>
double LineStep<N>::length_off_m(const Numbers& box, std::size_t piece) const {
  double sum = 0;
  for (std::size_t k = 0; k < N; ++k)
    if (k == piece || piece == N) sum += box[length + k];
  return sum;
}

/// Height of a support or a wheel.
template <std::size_t N>
double LineStep<N>::end_m(const Numbers& y, std::size_t end) const {
  if (end == 0) return 0;
  if (end > N) return cable_.rise_m;
  return end == N ? y[height] : y[height] + y[slope] * y[all - 1];
}

/// The same as y goes evenly: of the first of two wheels z + q L.
template <std::size_t N>
BandJet LineStep<N>::end_step(std::size_t end) const {
  if (end == 0) return BandJet(0);
  if (end > N) return BandJet(cable_.rise_m);
  const BandJet last = even(a_[height], b_[height]);
  return end == N ? last : last + even(a_[slope], b_[slope]) * even(a_[all - 1], b_[all - 1]);
}

/// By how much that may be off for so much of the unknowns.
template <std::size_t N>
double LineStep<N>::end_off_m(const Numbers& box, std::size_t end) const {
  if (end == 0 || end > N) return 0;
  if (end == N) return box[height];
  const double q = greater(std::abs(a_[slope]), std::abs(b_[slope])), L = greater(a_[all - 1], b_[all - 1]);
  return box[height] + q * box[all - 1] + (L + box[all - 1]) * box[slope];
}

template <std::size_t N>
typename LineStep<N>::template Hung<double> LineStep<N>::hung(const Numbers& y) const {
  Hung<double> at{y, {}, {}};
  std::array<double, N + 2> T;
  for (std::size_t i = 0; i <= N + 1; ++i) {
    const LineTension<double> tension = line_tension(y[0] + cable_.weight_N_per_m * end_m(y, i), cable_);
    T[i] = tension.T;
    at.per[i] = tension.per;
  }
  for (std::size_t i = 0; i <= N; ++i) {
    const double L = length_m(y, i);
    const bool between = i > 0 && i < N;
    at.pieces[i] = {L, between ? y[slope] : (end_m(y, i) - end_m(y, i + 1)) / L, (T[i] + T[i + 1]) / 2};
  }
  return at;
}

template <std::size_t N>
typename LineStep<N>::template Hung<Band> LineStep<N>::hung_within(const Numbers& box) const {
  Hung<Band> at;
  for (std::size_t i = 0; i < all; ++i) at.y[i] = wider(band_of(a_[i], b_[i]), box[i]);
  std::array<Band, N + 2> T;
  std::array<double, N + 2> bent_m{};  // by how much an end leaves its even change as y goes evenly
  if (N == 2) bent_m[1] = std::abs((b_[slope] - a_[slope]) * (b_[all - 1] - a_[all - 1])) / 4;
  for (std::size_t i = 0; i <= N + 1; ++i) {
    const double w = cable_.weight_N_per_m;
    const Band sum_N = wider(band_of(a_[0] + w * end_m(a_, i), b_[0] + w * end_m(b_, i)),
                             box[0] + w * (end_off_m(box, i) + bent_m[i]));
    const LineTension<Band> tension = line_tension(sum_N, cable_);
    T[i] = tension.T;
    at.per[i] = tension.per;
  }
  for (std::size_t i = 0; i <= N; ++i) {
    const double a = length_m(a_, i), b = length_m(b_, i), off = length_off_m(box, i);
    PieceEnds<Band>& piece = at.pieces[i];
    piece.L = wider(band_of(a, b), off);
    piece.L.low = i > 0 && i < N ? std::max(0., piece.L.low) : piece.L.low;  // the first wheel is behind the last
    piece.M = 0.5 * (T[i] + T[i + 1]);
    if (i > 0 && i < N) {
      piece.steep = at.y[slope];
      continue;
    }
    // D/L goes one way as D and L go evenly.
    const Band even = band_of((end_m(a_, i) - end_m(a_, i + 1)) / a, (end_m(b_, i) - end_m(b_, i + 1)) / b);
    const double D_off = end_off_m(box, i) + end_off_m(box, i + 1) + bent_m[i] + bent_m[i + 1];
    piece.steep = wider(even, (D_off + even.greatest_size() * off) / (std::min(a, b) - off));
  }
  return at;
}

/// F at a pose.
template <std::size_t N>
typename LineStep<N>::Numbers LineStep<N>::missed(const Numbers& y, const mainline::Shape& shape) const {
  Numbers F{};
  const std::size_t carrying = way_.last == OnTheWay::Last::weight ? N : N - 1;  // wheels of known weight
  const Hung<double> at = hung(y);
  double before_m = 0;
  for (std::size_t i = 0; i <= N; ++i) {
    // The last wheel stands in for one that it has met.
    const std::size_t wheel = std::min(i, static_cast<std::size_t>(shape.loads) - 1);
    const double x_m = i < N ? shape.wheels[wheel].x_m : cable_.span_m;
    const LinePiece<double> piece = line_piece(at.pieces[i], cable_);
    const double half_N = cable_.weight_N_per_m / 2 * at.pieces[i].L;
    F[i] = piece.X - (x_m - before_m);
    if (i > 0 && i - 1 < carrying) F[N + i] -= piece.V + half_N;
    if (i < carrying) F[N + 1 + i] += piece.V - half_N - weight_N(shape, i);
    before_m = x_m;
  }
  return F;
}

template <std::size_t N>
template <class Number>
typename LineStep<N>::template Matrix<Number> LineStep<N>::matrix(const Hung<Number>& at) const {
  const double w = cable_.weight_N_per_m;
  const std::size_t carrying = way_.last == OnTheWay::Last::weight ? N : N - 1;  // wheels of known weight
  Matrix<Number> J;
  for (auto& row : J) row.fill(Number(0));
  using Row = std::array<Number, all>;
  const auto add_end = [&](Row& row, std::size_t end, const Number& per) {
    if (end == 0 || end > N) return;
    row[height] = row[height] + per;
    if (end == N) return;
    row[slope] = row[slope] + per * at.y[all - 1];
    row[all - 1] = row[all - 1] + per * at.y[slope];
  };
  for (std::size_t i = 0; i <= N; ++i) {
    const LinePiece<Number> piece = line_piece(at.pieces[i], cable_);
    const bool between = i > 0 && i < N;
    const auto add = [&](Row& row, double sign, const PerEnds<Number>& per) {
      const Number half = (sign / 2) * per.M;
      row[0] = row[0] + half * (at.per[i] + at.per[i + 1]);
      // Between two wheels the slope is an unknown itself; elsewhere it is D/L.
      Number drop(0), long_per = sign * per.L;
      if (between) {
        row[slope] = row[slope] + sign * per.steep;
      } else {
        drop = sign * per.steep / at.pieces[i].L;
        long_per = long_per - drop * at.pieces[i].steep;
      }
      add_end(row, i, w * (half * at.per[i]) + drop);
      add_end(row, i + 1, w * (half * at.per[i + 1]) - drop);
      for (std::size_t k = 0; k < N; ++k) {
        if (i == k) row[length + k] = row[length + k] + long_per;
        if (i == N) row[length + k] = row[length + k] - long_per;
      }
    };
    add(J[i], 1, piece.X_per);
    const PerEnds<Number>& V = piece.V_per;
    if (i > 0 && i - 1 < carrying) add(J[N + i], -1, {V.L + Number(w / 2), V.steep, V.M});
    if (i < carrying) add(J[N + 1 + i], 1, {V.L - Number(w / 2), V.steep, V.M});
  }
  if (carrying < N) J[all - 1][height] = Number(1);
  return J;
}

/// Gauss-Jordan elimination with the greatest pivot of each column, the rows made alike first.
template <std::size_t N>
bool LineStep<N>::invert(Matrix<double> m) {
  for (std::size_t i = 0; i < all; ++i) {
    double most = 0;
    for (const double a : m[i]) most = greater(most, std::abs(a));
    for (std::size_t j = 0; j < all; ++j) {
      m[i][j] /= most;
      inverse_[i][j] = i == j ? 1 / most : 0;
    }
  }
  for (std::size_t c = 0; c < all; ++c) {
    std::size_t p = c;
    for (std::size_t i = c + 1; i < all; ++i)
      if (std::abs(m[i][c]) > std::abs(m[p][c])) p = i;
    if (!(std::abs(m[p][c]) > 0 && std::isfinite(m[p][c]))) return false;
    std::swap(m[p], m[c]);
    std::swap(inverse_[p], inverse_[c]);
    const double per = 1 / m[c][c];
    for (std::size_t j = 0; j < all; ++j) {
      m[c][j] *= per;
      inverse_[c][j] *= per;
    }
    for (std::size_t i = 0; i < all; ++i) {
      const double k = m[i][c];
      if (i == c || k == 0) continue;
      for (std::size_t j = 0; j < all; ++j) {
        m[i][j] -= k * m[c][j];
        inverse_[i][j] -= k * inverse_[c][j];
      }
    }
  }
  return true;
}

/// |C F(y)|, and the margin.
template <std::size_t N>
void LineStep<N>::bend() {
  std::array<Band, all> F;
  F.fill(Band(0));
  const std::size_t carrying = way_.last == OnTheWay::Last::weight ? N : N - 1;  // wheels of known weight
  const BandJet sum_N = even(a_[0], b_[0]);
  std::array<BandJet, N + 2> z, T;
  for (std::size_t i = 0; i <= N + 1; ++i) {
    z[i] = end_step(i);
    T[i] = line_tension(sum_N + cable_.weight_N_per_m * z[i], cable_);
  }
  for (std::size_t i = 0; i <= N; ++i) {
    const std::array<double, 2> L{length_m(a_, i), length_m(b_, i)};
    const BandJet long_m = even(L[0], L[1]), between = even(a_[slope], b_[slope]), drop = z[i] - z[i + 1];
    const bool is_between = i > 0 && i < N;
    const BandJet steep = is_between ? between
                                     : steep_of(L, {end_m(a_, i) - end_m(a_, i + 1), end_m(b_, i) - end_m(b_, i + 1)},
                                                drop.bend.middle());
    const PieceStep piece =
        piece_step(long_m, is_between ? between * long_m : drop, steep, 0.5 * (T[i] + T[i + 1]), cable_);
    level_bend_N_[i] = piece.H.bend.greatest_size();
    F[i] = piece.X.bend;
    if (i > 0 && i - 1 < carrying) F[N + i] = F[N + i] - piece.V.bend;
    if (i < carrying) F[N + 1 + i] += piece.V.bend;
  }
  const auto off = [&](const Numbers& row, Band sum, double scale) {
    double left = margin * scale;
    for (std::size_t k = 0; k < all; ++k) {
      sum += row[k] * F[k];
      left += std::abs(row[k]) * left_[k];
    }
    return sum.greatest_size() / 8 + left;
  };
  for (std::size_t i = 0; i < all; ++i) off_[i] = off(inverse_[i], Band(0), i == 0 ? std::abs(a_[0]) : 1);
  if constexpr (N == 2) off_[all] = off(first_height(), -z[1].bend, 1);
}

/// How the height of the first of two wheels, with slope and length as they are midway, answers F.
template <std::size_t N>
typename LineStep<N>::Numbers LineStep<N>::first_height() const {
  const double q = (a_[slope] + b_[slope]) / 2, L = (a_[all - 1] + b_[all - 1]) / 2;
  Numbers row;
  for (std::size_t k = 0; k < all; ++k)
    row[k] = inverse_[height][k] + L * inverse_[slope][k] + q * inverse_[all - 1][k];
  return row;
}

/// The most that 1 - C J is over the box.
template <std::size_t N>
void LineStep<N>::shake(const Numbers& box) {
  const Matrix<Band> J = matrix(hung_within(box));
  const auto most = [&](const Numbers& row, std::size_t j, double without) {
    Band sum(-without);
    for (std::size_t k = 0; k < all; ++k) sum += row[k] * J[k][j];
    return sum.greatest_size();
  };
  for (std::size_t i = 0; i < all; ++i)
    for (std::size_t j = 0; j < all; ++j) shaky_[i][j] = most(inverse_[i], j, i == j ? 1 : 0);
  if constexpr (N == 2) {
    const Numbers row = first_height();
    const double of[] = {0, 1, (a_[all - 1] + b_[all - 1]) / 2, 0, (a_[slope] + b_[slope]) / 2};
    for (std::size_t j = 0; j < all; ++j) shaky_[all][j] = most(row, j, of[j]);
  }
}

template <std::size_t N>
typename LineStep<N>::Numbers LineStep<N>::followed(const Numbers& d) const {
  Numbers next;
  for (std::size_t i = 0; i < all; ++i) {
    next[i] = off_[i];
    for (std::size_t k = 0; k < all; ++k) next[i] += shaky_[i][k] * d[k];
  }
  return next;
}

template class LineStep<1>;
template class LineStep<2>;

}  // namespace fairlead::reeving
