#include "geometry/survey/fit.hpp"

#include <Eigen/LU>
#include <Eigen/SVD>
#include <cmath>
#include <numbers>

namespace fairlead {
namespace {

bool known(Point3 p) { return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z); }

/// About the first, so that kilometres from the origin take no digits.
template <class Get>
Point3 centroid(std::span<const FitPair> pairs, const Get& get) {
  Vec3 sum;
  for (const FitPair& pair : pairs) sum += get(pair) - get(pairs[0]);
  return get(pairs[0]) + (1 / static_cast<double>(pairs.size())) * sum;
}

/// Sum of known times measured, row by row, about the centroids.
Eigen::Matrix3d covariance(std::span<const FitPair> pairs, Point3 known_at, Point3 measured_at) {
  Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
  for (const FitPair& pair : pairs) {
    const Vec3 k = pair.known - known_at, m = pair.measured - measured_at;
    sum += Eigen::Vector3d(k.x, k.y, k.z) * Eigen::RowVector3d(m.x, m.y, m.z);
  }
  return sum;
}

std::array<Vec3, 3> levelled_rotation(const Eigen::Matrix3d& S, bool mirror) {
  // In plan: tan = sum (m x k) / sum (m . k); mirrored the measured y is turned first.
  const double way = mirror ? -1 : 1;
  const double turn = std::atan2(S(1, 0) - way * S(0, 1), S(0, 0) + way * S(1, 1));
  const double c = std::cos(turn), s = std::sin(turn);
  return {Vec3{c, -s * way, 0}, Vec3{s, c * way, 0}, Vec3{0, 0, 1}};
}

std::array<Vec3, 3> tilted_rotation(const Eigen::Matrix3d& S, bool mirror) {
  const Eigen::JacobiSVD<Eigen::Matrix3d> svd(S, Eigen::ComputeFullU | Eigen::ComputeFullV);
  Eigen::Matrix3d U = svd.matrixU();
  const bool mirrors = (U * svd.matrixV().transpose()).determinant() < 0;
  if (mirrors != mirror) U.col(2) *= -1;
  const Eigen::Matrix3d R = U * svd.matrixV().transpose();
  std::array<Vec3, 3> rows;
  for (Eigen::Index i = 0; i < 3; ++i) rows[static_cast<std::size_t>(i)] = {R(i, 0), R(i, 1), R(i, 2)};
  return rows;
}

/// Whether the points leave no turn open: the spread of one and the other frame across what they turn about.
bool fixed_by(std::span<const FitPair> pairs, FitKind kind, Point3 known_at, Point3 measured_at) {
  const auto spread_ok = [&](auto offset_of) {
    Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
    double all = 0;
    for (const FitPair& pair : pairs) {
      const Vec3 d = offset_of(pair);
      all += dot(d, d);
      const Eigen::Vector3d v(d.x, d.y, kind == FitKind::levelled ? 0 : d.z);
      sum += v * v.transpose();
    }
    const Eigen::JacobiSVD<Eigen::Matrix3d> svd(sum);
    const auto& squares = svd.singularValues();
    constexpr double nothing = 1e-6;  // of the spread, a length; its square here
    return squares(kind == FitKind::levelled ? 0 : 1) > nothing * nothing * all;
  };
  return spread_ok([&](const FitPair& p) { return p.known - known_at; }) &&
         spread_ok([&](const FitPair& p) { return p.measured - measured_at; });
}

std::vector<Vec3> residuals(std::span<const FitPair> pairs, const RigidMotion& motion) {
  std::vector<Vec3> out;
  for (const FitPair& pair : pairs) out.push_back(pair.known - motion.moved(pair.measured));
  return out;
}

double sum_of_squares(const std::vector<Vec3>& residual) {
  double sum = 0;
  for (const Vec3& e : residual) sum += dot(e, e);
  return sum;
}

/// A chi-squared this unlikely is no chance: the share of good points that data snooping gives up (BAARDA68).
constexpr double unlikely = 0.001;

}  // namespace

Solved<Fit> best_fit(std::span<const FitPair> pairs, FitKind kind) {
  const std::size_t needed = kind == FitKind::levelled ? 2 : 3;
  if (pairs.size() < needed)
    return unsolved(kind == FitKind::levelled ? "a fit needs two control points"
                                              : "a tilted fit needs three control points");
  for (const FitPair& pair : pairs)
    if (!known(pair.measured) || !known(pair.known)) return unsolved("the place of a control point is not known");
  const Point3 known_at = centroid(pairs, [](const FitPair& p) { return p.known; });
  const Point3 measured_at = centroid(pairs, [](const FitPair& p) { return p.measured; });
  if (!fixed_by(pairs, kind, known_at, measured_at))
    return unsolved(kind == FitKind::levelled ? "the control points stand plumb over one another"
                                              : "the control points stand in one line");
  const Eigen::Matrix3d S = covariance(pairs, known_at, measured_at);
  const auto rotation = [&](bool mirror) {
    return kind == FitKind::levelled ? levelled_rotation(S, mirror) : tilted_rotation(S, mirror);
  };
  const auto n = static_cast<double>(pairs.size());
  Fit fit;
  fit.motion = {rotation(false), measured_at, known_at};
  fit.residual_m = residuals(pairs, fit.motion);
  fit.rms_m = std::sqrt(sum_of_squares(fit.residual_m) / n);
  fit.mirrored_rms_m = std::sqrt(sum_of_squares(residuals(pairs, {rotation(true), measured_at, known_at})) / n);
  double along = 0, square = 0;
  for (const FitPair& pair : pairs) {
    const Vec3 m = fit.motion.turned(pair.measured - measured_at);
    along += dot(pair.known - known_at, m);
    square += dot(m, m);
  }
  fit.scale = along / square;
  return fit;
}

Solved<FitTest> test_fit(std::span<const FitPair> pairs, FitKind kind, double standard_uncertainty_m) {
  const auto fit = best_fit(pairs, kind);
  if (!fit) return tl::unexpected(fit.error());
  const double square_m2 = standard_uncertainty_m * standard_uncertainty_m;
  if (!(square_m2 > 0)) return unsolved("the uncertainty of the points is not known");
  const int unknowns = kind == FitKind::levelled ? 4 : 6;
  FitTest test;
  test.chi_squared = sum_of_squares(fit->residual_m) / square_m2;
  test.redundancy = 3 * static_cast<int>(pairs.size()) - unknowns;
  test.probability = chi_squared_tail(test.chi_squared, test.redundancy);
  test.agrees = test.probability >= unlikely;
  const double mirrored = static_cast<double>(pairs.size()) * fit->mirrored_rms_m * fit->mirrored_rms_m / square_m2;
  test.tells_mirror = chi_squared_tail(mirrored, test.redundancy) < unlikely;
  if (test.agrees) return test;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    std::vector<FitPair> others(pairs.begin(), pairs.end());
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    // What agrees with nothing but itself tells of nobody else.
    const int redundancy = 3 * static_cast<int>(others.size()) - unknowns;
    const auto without = best_fit(others, kind);
    if (!without || redundancy <= 0) continue;
    if (chi_squared_tail(sum_of_squares(without->residual_m) / square_m2, redundancy) < unlikely) continue;
    test.outliers.push_back(static_cast<int>(i));
    test.off_m.push_back(pairs[i].known - without->motion.moved(pairs[i].measured));
  }
  return test;
}

double chi_squared_tail(double x, int degrees) {
  if (degrees <= 0) return 1;
  if (!(x > 0)) return std::isnan(x) ? x : 1;
  // Q of k + 2 is Q of k and one term more: (x/2)^(k/2) e^(-x/2) / Gamma(k/2 + 1); Q of 2 and of 1 are closed.
  const double half = x / 2;
  const bool even = degrees % 2 == 0;
  double k = even ? 2 : 1;
  double tail = even ? std::exp(-half) : std::erfc(std::sqrt(half));
  double term = even ? half * std::exp(-half) : 2 * std::sqrt(half / std::numbers::pi) * std::exp(-half);
  for (; k < degrees; k += 2) {
    tail += term;
    term *= half / (k / 2 + 1);
  }
  return tail;
}

}  // namespace fairlead
