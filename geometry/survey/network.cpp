#include "geometry/survey/network.hpp"

#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/QR>
#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/survey/fit.hpp"
#include "geometry/survey/mirrored.hpp"

namespace fairlead {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A chi-squared this unlikely is no chance (BAARDA68), and so much more of it one good reading adds as rarely.
constexpr double unlikely = 0.001, unlikely_more = rejected_beyond * rejected_beyond;

bool finite(Point3 p) { return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z); }

double coordinate(Vec3 v, Index axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

class Equations {
 public:
  explicit Equations(const Network& network) : network_(network), columns_(3 * count(network.points)) {
    for (std::size_t p = 0; p < network.points.size(); ++p) {
      first_row_.push_back(network.points[p].uncertainty_m ? rows_ : -1);
      if (network.points[p].uncertainty_m) rows_ += 3;
    }
    first_reading_ = rows_;
    rows_ += count(network.readings);
  }

  Index rows() const { return rows_; }
  Index columns() const { return columns_; }
  Index row_of_shot(std::size_t point) const { return first_row_[point]; }  ///< -1: it was not shot
  Index row_of_reading(std::size_t reading) const { return first_reading_ + static_cast<Index>(reading); }

  /// What is left over at these places, each over its uncertainty.
  VectorXd left(const std::vector<Point3>& at) const {
    VectorXd v(rows_);
    for (std::size_t p = 0; p < at.size(); ++p)
      if (const auto& u = network_.points[p].uncertainty_m) {
        const Vec3 off = at[p] - network_.points[p].at;
        for (Index a = 0; a < 3; ++a) v(first_row_[p] + a) = coordinate(off, a) / *u;
      }
    for (std::size_t r = 0; r < network_.readings.size(); ++r) {
      const NetworkReading& one = network_.readings[r];
      const Vec3 way = between(at, one);
      const double is_m = one.kind == NetworkReading::Kind::distance ? norm(way) : way.z;
      v(row_of_reading(r)) = (is_m - one.value_m) / one.uncertainty_m;
    }
    return v;
  }

  MatrixXd slopes(const std::vector<Point3>& at) const {
    MatrixXd J = slopes_of_all(at);
    for (std::size_t p = 0; p < at.size(); ++p)
      if (network_.points[p].held) J.middleCols<3>(3 * static_cast<Index>(p)).setZero();
    return J;
  }

  /// As if nothing were held.
  MatrixXd slopes_of_all(const std::vector<Point3>& at) const {
    MatrixXd J = MatrixXd::Zero(rows_, columns_);
    for (std::size_t p = 0; p < at.size(); ++p)
      if (const auto& u = network_.points[p].uncertainty_m)
        for (Index a = 0; a < 3; ++a) J(first_row_[p] + a, 3 * static_cast<Index>(p) + a) = 1 / *u;
    for (std::size_t r = 0; r < network_.readings.size(); ++r) {
      const NetworkReading& one = network_.readings[r];
      const Vec3 way = between(at, one);
      // Two marks in one place have no direction: the reading moves neither.
      const double length_m = norm(way);
      const Vec3 d = one.kind == NetworkReading::Kind::rise ? Vec3{0, 0, 1}
                     : length_m > 0                         ? (1 / length_m) * way
                                                            : Vec3{};
      for (Index a = 0; a < 3; ++a) {
        J(row_of_reading(r), 3 * Index{one.to} + a) = coordinate(d, a) / one.uncertainty_m;
        J(row_of_reading(r), 3 * Index{one.from} + a) = -coordinate(d, a) / one.uncertainty_m;
      }
    }
    return J;
  }

 private:
  template <class T>
  static Index count(const std::vector<T>& all) {
    return static_cast<Index>(all.size());
  }
  static Vec3 between(const std::vector<Point3>& at, const NetworkReading& one) {
    return at[static_cast<std::size_t>(one.to)] - at[static_cast<std::size_t>(one.from)];
  }

  const Network& network_;
  Index columns_, rows_ = 0, first_reading_ = 0;
  std::vector<Index> first_row_;
};

std::vector<Point3> stepped(std::vector<Point3> at, const VectorXd& by) {
  for (std::size_t p = 0; p < at.size(); ++p) {
    const Index c = 3 * static_cast<Index>(p);
    at[p] = at[p] + Vec3{by(c), by(c + 1), by(c + 2)};
  }
  return at;
}

struct Settled {
  std::vector<Point3> at;
  double chi_squared{};
  int iterations{};
};

/// Gauss and Newton, each step halved until the sum falls. A millionth of a millionth on the diagonal holds still what
/// no equation moves and turns no step by more than that.
Solved<Settled> settle(const Equations& equations, std::vector<Point3> at) {
  constexpr int most_iterations = 200;
  constexpr double still_m = 1e-9;
  VectorXd v = equations.left(at);
  double sum = v.squaredNorm(), moved_m = 0;
  for (int i = 1; i <= most_iterations; ++i) {
    const MatrixXd J = equations.slopes(at);
    MatrixXd N = J.transpose() * J;
    N.diagonal().array() += 1e-12 * N.diagonal().maxCoeff();
    VectorXd step = N.ldlt().solve(-(J.transpose() * v));
    if (!step.allFinite()) return unsolved("the equations of the tapes have no finite solution", 0, i);
    moved_m = step.lpNorm<Eigen::Infinity>();
    if (moved_m <= still_m) return Settled{std::move(at), sum, i};
    double share = 1;
    for (constexpr int halvings = 30; share > std::ldexp(1.0, -halvings); share /= 2) {
      const VectorXd there = equations.left(stepped(at, share * step));
      if (!(there.squaredNorm() < sum)) continue;
      at = stepped(std::move(at), share * step);
      v = there;
      sum = v.squaredNorm();
      break;
    }
    // No step helps: it stands at the least sum that rounding tells.
    if (share <= std::ldexp(1.0, -30)) return Settled{std::move(at), sum, i};
  }
  return unsolved("the adjustment of the tapes does not settle", moved_m, most_iterations);
}

class Adjuster {
 public:
  explicit Adjuster(const Network& network) : network_(network), equations_(network) {}

  Solved<Adjustment> adjust() {
    std::vector<Point3> start;
    for (const NetworkPoint& point : network_.points) start.push_back(point.at);
    auto settled = settle(equations_, std::move(start));
    if (!settled) return tl::unexpected(settled.error());
    out_.at = std::move(settled->at);
    out_.chi_squared = settled->chi_squared;
    out_.iterations = settled->iterations;
    out_.open.resize(out_.at.size());
    invert();
    look_for_bends();
    test();
    test_held();
    look_for_mirrors();
    factor();
    return std::move(out_);
  }

 private:
  void leave_open(std::size_t point, const std::string& why) {
    if (out_.open[point].empty() && !network_.points[point].held) out_.open[point] = why;
  }

  /// The covariance of what the equations fix, and the points that they leave free to move.
  void invert() {
    const MatrixXd J = equations_.slopes(out_.at);
    const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(J.transpose() * J);
    const VectorXd& squares = eigen.eigenvalues();  // one over the variance of each direction, m^-2
    constexpr double nothing = 1e-10, lost_m = 1;   // of the largest; known no better than that is not known
    covariance_ = MatrixXd::Zero(equations_.columns(), equations_.columns());
    rank_ = 0;
    for (Index k = 0; k < squares.size(); ++k) {
      const auto direction = eigen.eigenvectors().col(k);
      if (squares(k) > nothing * squares.maxCoeff() && squares(k) * lost_m * lost_m > 1) {
        ++rank_;
        covariance_ += (1 / squares(k)) * direction * direction.transpose();
        continue;
      }
      for (std::size_t p = 0; p < out_.at.size(); ++p)
        if (direction.segment<3>(3 * static_cast<Index>(p)).norm() > 1e-4)
          leave_open(p, "its readings leave it free to move: there are too few of them, or they lie too flat");
    }
    const VectorXd v = equations_.left(out_.at);
    const auto leftover = [&](Index row, double uncertainty_m) {
      Leftover one{.residual_m = v(row) * uncertainty_m};
      one.redundancy = std::clamp(1 - (J.row(row) * covariance_ * J.row(row).transpose()).value(), 0.0, 1.0);
      constexpr double unchecked = 1e-6;
      if (one.redundancy > unchecked)
        one.standardised = v(row) / std::sqrt(one.redundancy);
      else
        one.redundancy = 0;
      return one;
    };
    for (std::size_t r = 0; r < network_.readings.size(); ++r)
      out_.readings.push_back(leftover(equations_.row_of_reading(r), network_.readings[r].uncertainty_m));
    for (std::size_t p = 0; p < out_.at.size(); ++p) {
      std::array<Leftover, 3> shot;
      if (const auto& u = network_.points[p].uncertainty_m)
        for (Index a = 0; a < 3; ++a) shot[static_cast<std::size_t>(a)] = leftover(equations_.row_of_shot(p) + a, *u);
      out_.shots.push_back(shot);
    }
  }

  Eigen::Matrix3d covariance(Index a, Index b) const { return covariance_.block<3, 3>(3 * a, 3 * b); }

  /// Across a tape its mark may be off by so much that the tape would notice: then the covariance, which takes tapes
  /// for straight edges, does not tell how far the mark may be.
  void look_for_bends() {
    for (const NetworkReading& one : network_.readings) {
      if (one.kind != NetworkReading::Kind::distance) continue;
      const Vec3 way = out_.at[static_cast<std::size_t>(one.to)] - out_.at[static_cast<std::size_t>(one.from)];
      const double length_m = norm(way);
      const Vec3 d = unit(way);
      const Eigen::Vector3d along(d.x, d.y, d.z);
      for (const int end : {one.from, one.to}) {
        const Eigen::Matrix3d C = covariance(end, end);
        const double across_m2 = C.trace() - along.dot(C * along);
        if (!(across_m2 / (2 * length_m) <= one.uncertainty_m))
          leave_open(static_cast<std::size_t>(end),
                     fmt::format("its readings lie too flat: it may be off by {:.2f} m, one standard uncertainty",
                                 std::sqrt(across_m2)));
      }
    }
  }

  void test() {
    out_.redundancy = static_cast<int>(equations_.rows()) - rank_;
    out_.probability = chi_squared_tail(out_.chi_squared, out_.redundancy);
    out_.agrees = out_.probability >= unlikely;
    const auto size = [](const Leftover& one) { return std::isnan(one.standardised) ? 0 : std::abs(one.standardised); };
    for (const Leftover& one : out_.readings) out_.worst = std::max(out_.worst, size(one));
    for (const auto& shot : out_.shots)
      for (const Leftover& one : shot) out_.worst = std::max(out_.worst, size(one));
    constexpr double alike = 1 - 1e-6;
    const auto is_worst = [&](const Leftover& one) { return size(one) > 0 && size(one) >= alike * out_.worst; };
    const auto reading = std::ranges::find_if(out_.readings, is_worst);
    if (reading != out_.readings.end()) out_.worst_reading = static_cast<int>(reading - out_.readings.begin());
    const auto shot =
        std::ranges::find_if(out_.shots, [&](const auto& of) { return std::ranges::any_of(of, is_worst); });
    if (shot != out_.shots.end()) out_.worst_shot = static_cast<int>(shot - out_.shots.begin());
    // One gross error may hide in the sum of many good readings, and shows by itself.
    if (out_.worst > rejected_beyond) out_.agrees = false;
  }

  /// Three unknowns more for each held point: what of their slopes the others can not take up is what shows it.
  void test_held() {
    constexpr double found_in_most = 4.13;  // BAARDA68, its noncentrality of 17.075
    const MatrixXd J = equations_.slopes(out_.at), all = equations_.slopes_of_all(out_.at);
    const VectorXd v = equations_.left(out_.at);
    const Eigen::ColPivHouseholderQR<MatrixXd> solver(J);
    for (std::size_t p = 0; p < out_.at.size(); ++p) {
      if (!network_.points[p].held) continue;
      HeldPoint one{.point = static_cast<int>(p)};
      const MatrixXd its = all.middleCols<3>(3 * static_cast<Index>(p));
      // Where all are held no unknown takes anything up, and the decomposition of nothing has no solution.
      const MatrixXd shown = J.isZero(0) ? its : its - J * solver.solve(its);
      const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(Eigen::Matrix3d(shown.transpose() * shown));
      const Eigen::Vector3d& squares = eigen.eigenvalues();
      constexpr double nothing = 1e-6, lost_m = 1;  // of what its own readings would show; as for what is open
      const double most = its.squaredNorm();
      for (Index k = 0; k < 3; ++k) {
        if (!(squares(k) > nothing * most && squares(k) * lost_m * lost_m > 1)) continue;
        ++one.redundancy_less;
        const double by = eigen.eigenvectors().col(k).dot(shown.transpose() * v);
        one.chi_squared_less += by * by / squares(k);
      }
      one.explains =
          !out_.agrees && chi_squared_tail(one.chi_squared_less, one.redundancy_less) < unlikely &&
          chi_squared_tail(out_.chi_squared - one.chi_squared_less, out_.redundancy - one.redundancy_less) >= unlikely;
      if (one.redundancy_less == 3) one.shows_from_m = found_in_most / std::sqrt(squares(0));
      out_.held.push_back(one);
    }
  }

  /// Every set of marks that were not shot and hang together is turned over its neighbours' plane; where the readings
  /// then settle as well as they did, both places explain them.
  void look_for_mirrors() {
    for (const std::vector<int>& together : hanging_together(network_)) {
      if (together.size() > most_hanging_together) {
        for (const int p : together)
          leave_open(static_cast<std::size_t>(p),
                     fmt::format("{} marks hang together by tapes alone, and of more than {} it is not looked through "
                                 "which may stand mirrored: shoot one of them",
                                 together.size(), most_hanging_together));
        continue;
      }
      for (const std::vector<Point3>& start : mirrored_starts(network_, together, out_.at)) {
        const auto other = settle(equations_, start);
        // What did not settle settles nothing.
        const bool as_good = !other || other->chi_squared <= out_.chi_squared + unlikely_more ||
                             chi_squared_tail(other->chi_squared, out_.redundancy) >= unlikely;
        if (!as_good) continue;
        for (const int p : together) {
          const auto i = static_cast<std::size_t>(p);
          if (!other) {
            leave_open(i, "whether another place explains its readings as well is not known");
            continue;
          }
          const double apart_m = norm(other->at[i] - out_.at[i]);
          constexpr double same_m = 1e-6;
          if (apart_m > same_m)
            leave_open(i, fmt::format("two places {:.2f} m apart explain its readings: read it from a mark off the "
                                      "plane of the others",
                                      apart_m));
        }
      }
    }
  }

  void factor() {
    std::vector<Index> kept;
    for (std::size_t p = 0; p < out_.at.size(); ++p)
      for (Index a = 0; a < 3; ++a)
        if (out_.open[p].empty()) kept.push_back(3 * static_cast<Index>(p) + a);
    const auto n = static_cast<Index>(kept.size());
    MatrixXd C(n, n);
    for (Index i = 0; i < n; ++i)
      for (Index k = 0; k < n; ++k)
        C(i, k) = covariance_(kept[static_cast<std::size_t>(i)], kept[static_cast<std::size_t>(k)]);
    const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(C);
    const MatrixXd F = eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(0).cwiseSqrt().asDiagonal();
    for (Index i = 0; i < n; ++i)
      for (Index k = 0; k < n; ++k) out_.factor_m.push_back(F(i, k));
  }

  const Network& network_;
  Equations equations_;
  Adjustment out_;
  MatrixXd covariance_;
  int rank_ = 0;
};

std::optional<Unsolved> flaw(const Network& network) {
  const auto positive = [](double v) { return std::isfinite(v) && v > 0; };
  if (network.points.size() > most_network_points)
    return Unsolved{.why = fmt::format("{} points are read to one another, and no more than {} are adjusted",
                                       network.points.size(), most_network_points)};
  for (const NetworkPoint& point : network.points) {
    if (!finite(point.at)) return Unsolved{.why = "a point's place is not known"};
    if (point.uncertainty_m && !positive(*point.uncertainty_m))
      return Unsolved{.why = "the uncertainty of the points is not known"};
    if (point.uncertainty_m && point.held) return Unsolved{.why = "a point is both shot and held"};
  }
  const auto points = static_cast<int>(network.points.size());
  for (const NetworkReading& one : network.readings) {
    if (!(one.from >= 0 && one.from < points && one.to >= 0 && one.to < points && one.from != one.to))
      return Unsolved{.why = "a reading needs two points"};
    if (!std::isfinite(one.value_m) || !positive(one.uncertainty_m))
      return Unsolved{.why = "a reading or its uncertainty is not known"};
  }
  return std::nullopt;
}

}  // namespace

Solved<Adjustment> adjust(const Network& network) {
  if (auto wrong = flaw(network)) return tl::unexpected(std::move(*wrong));
  return Adjuster(network).adjust();
}

}  // namespace fairlead
