#include "geometry/anchorage/elastic.hpp"

#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <algorithm>

namespace fairlead::anchorage {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

constexpr double rounding = 1e-12;  ///< of all forces together: a member this little pushed is not pushed
/// Of the greatest stiffness, which goes with the square of a sine: a direction with less of it, members within 0.002
/// degrees of a plane, is not held at all; nor is a share of the force this small along it.
constexpr double loose = 1e-9;

Vector3d eigen(Vec3 v) { return {v.x, v.y, v.z}; }
Vec3 plain(const Vector3d& v) { return {v.x(), v.y(), v.z()}; }

/// Balance with one set of members taken as taut: N = N0 - k t . u, and K u = F + sum N0 t.
struct Balance {
  std::vector<double> force_N;
  Vector3d moved_m;
};

class Web {
 public:
  explicit Web(const Node& node) : node_(node) {
    const bool known =
        std::all_of(node.members.begin(), node.members.end(), [](const Member& m) { return m.ea_N > 0; });
    for (const Member& member : node.members) {
      const Vec3 whole = member.to - node.at;
      toward_.push_back(eigen(unit(whole)));
      stiffness_.push_back((known ? member.ea_N : 1) / norm(whole));
      before_N_.push_back(member.pretension_N);
    }
    stiffness_known_ = known;
  }

  Solved<Held> hold(Vec3 force_N) const {
    if (!fixes(stiffness_of(all()))) return unsolved("its members lie in one plane and hold nothing across it");
    const auto rest = balance(Vector3d::Zero()), loaded = balance(eigen(force_N));
    if (!rest) return unsolved("the pretensions of its guys cannot hold one another");
    if (!loaded) {
      const Vec3 pull = unit(force_N);
      return unsolved(fmt::format("no set of its members holds a pull of {:.3f} kN along ({:.3f}, {:.3f}, {:.3f})",
                                  norm(force_N) / 1000, pull.x, pull.y, pull.z));
    }
    Held held{loaded->force_N, {}, {}};
    const double little_N = loose * scale_N(eigen(force_N));
    for (std::size_t i = 0; i < held.force_N.size(); ++i)
      if (!node_.members[i].pushes && held.force_N[i] <= little_N && little_N > 0)
        held.slack.push_back(static_cast<int>(i));
    if (stiffness_known_ && fixed(*rest, Vector3d::Zero()) && fixed(*loaded, eigen(force_N)))
      held.moved_m = plain(loaded->moved_m - rest->moved_m);
    return held;
  }

 private:
  unsigned all() const { return (1U << toward_.size()) - 1; }

  double scale_N(const Vector3d& force_N) const {
    double scale_N = force_N.norm();
    for (const double before_N : before_N_) scale_N += std::abs(before_N);
    return scale_N;
  }

  /// Whether what carries in it leaves no direction free. A node that nothing pulls stays where it is drawn.
  bool fixed(const Balance& balance, const Vector3d& force_N) const {
    const double scale = scale_N(force_N);
    unsigned carrying = 0;
    for (std::size_t i = 0; i < toward_.size(); ++i)
      if (node_.members[i].pushes || balance.force_N[i] > loose * scale) carrying |= 1U << i;
    return scale == 0 || fixes(stiffness_of(carrying));
  }

  Matrix3d stiffness_of(unsigned taut) const {
    Matrix3d K = Matrix3d::Zero();
    for (std::size_t i = 0; i < toward_.size(); ++i)
      if (taut >> i & 1U) K += stiffness_[i] * toward_[i] * toward_[i].transpose();
    return K;
  }
  /// Whether it resists in every direction. Least over greatest eigenvalue is at least the determinant over the trace
  /// cubed, which most nodes settle with.
  static bool fixes(const Matrix3d& K) {
    const double trace = K.trace();
    if (K.determinant() > loose * trace * trace * trace) return true;
    const Vector3d of = Eigen::SelfAdjointEigenSolver<Matrix3d>(K, Eigen::EigenvaluesOnly).eigenvalues();
    return of.x() > loose * of.z();
  }

  /// Nothing where these do not fix the node, where one of them would be pushed that can not, or where one left out
  /// would be stretched.
  std::optional<Balance> attempt(unsigned taut, const Vector3d& force_N) const {
    const Matrix3d K = stiffness_of(taut);
    if (!fixes(K)) return std::nullopt;
    Vector3d out_N = force_N;
    for (std::size_t i = 0; i < toward_.size(); ++i)
      if (taut >> i & 1U) out_N += before_N_[i] * toward_[i];
    const Vector3d moved_m = K.ldlt().solve(out_N);
    const double little_N = rounding * scale_N(force_N);
    Balance balance{std::vector<double>(toward_.size()), moved_m};
    for (std::size_t i = 0; i < toward_.size(); ++i) {
      const double stretched_N = before_N_[i] - stiffness_[i] * toward_[i].dot(moved_m);
      const bool is_taut = taut >> i & 1U;
      if (!is_taut && !(stretched_N <= little_N)) return std::nullopt;
      if (!is_taut) continue;
      if (!node_.members[i].pushes && !(stretched_N >= -little_N)) return std::nullopt;
      balance.force_N[i] = node_.members[i].pushes ? stretched_N : std::max(0.0, stretched_N);
    }
    return balance;
  }

  /// The forces in equilibrium of least energy go with a movement; where what they stretch leaves a direction free,
  /// the node can be thought moved along it until another member is just taut. So a set that fixes the node is always
  /// among these, and as the energy is strictly convex in the forces, the first that fits has the forces of all.
  std::optional<Balance> balance(const Vector3d& force_N) const {
    for (unsigned taut = all() + 1; taut-- > 0;)
      if (holds_poles(taut))
        if (auto found = attempt(taut, force_N)) return found;
    return std::nullopt;
  }

  bool holds_poles(unsigned taut) const {
    for (std::size_t i = 0; i < toward_.size(); ++i)
      if (node_.members[i].pushes && !(taut >> i & 1U)) return false;
    return true;
  }

  const Node& node_;
  std::vector<Vector3d> toward_;  // from the node along each member
  std::vector<double> stiffness_, before_N_;
  bool stiffness_known_{};
};

}  // namespace

void brace(Node& node) {
  const auto is_pole = [](const Member& member) { return member.pushes; };
  const auto pole = std::find_if(node.members.begin(), node.members.end(), is_pole);
  if (std::count_if(node.members.begin(), node.members.end(), is_pole) != 1) return;
  Vec3 pull_N;
  for (const Member& member : node.members)
    if (!member.pushes) pull_N += member.pretension_N * unit(member.to - node.at);
  pole->pretension_N = -dot(pull_N, unit(pole->to - node.at));
}

Solved<Held> hold_by_many(const Node& node, Vec3 force_N) { return Web(node).hold(force_N); }

}  // namespace fairlead::anchorage
