#include "geometry/anchorage/swing.hpp"

namespace fairlead::anchorage {
namespace {

constexpr double rounding = 1e-12;  ///< of the force: a share this small has no direction of its own

/// Where the node comes to lie that hangs by one member alone.
Vec3 moved_to_line(const Node& node, const Member& member, Vec3 force_N) {
  const double length_m = norm(node.at - member.to);
  return member.to + length_m * unit(force_N) - node.at;
}

}  // namespace

Solved<Held> hold_by_one(const Node& node, Vec3 force_N) {
  return Held{{norm(force_N)}, {}, moved_to_line(node, node.members[0], force_N)};
}

/// With a the way from the first far end A to the foot of the height h, b from there to B: what the members pull per
/// metre of their length, q, balances the force's part s square to the chord, (qA + qB) h = s, and its part c along it,
/// qA a - qB b = c.
Solved<Held> hold_by_two(const Node& node, Vec3 force_N) {
  const Member &A = node.members[0], &B = node.members[1];
  const double chord_m = norm(B.to - A.to), to_A_m = norm(node.at - A.to), to_B_m = norm(node.at - B.to);
  if (!(chord_m > rounding * (to_A_m + to_B_m))) return unsolved("its two members lead to the same point");
  const Vec3 along = unit(B.to - A.to);
  const double a_m = dot(node.at - A.to, along), b_m = chord_m - a_m;
  const Vec3 height = node.at - A.to - a_m * along;
  const double h_m = norm(height);
  // Nearer to one line than this even steel would have to stretch beyond breaking before it held.
  if (!(h_m > 1e-6 * chord_m)) return unsolved("its two members lie in one line and hold nothing across it");

  const double c_N = dot(force_N, along);
  const Vec3 square_N = force_N - c_N * along;
  const double s_N = norm(square_N);
  const double qA = (c_N + b_m * s_N / h_m) / chord_m, qB = (a_m * s_N / h_m - c_N) / chord_m;
  const bool slack_A = qA < 0 && !A.pushes, slack_B = qB < 0 && !B.pushes;
  if (slack_A || slack_B) {
    const Member& taut = slack_A ? B : A;
    Held held{{norm(force_N), 0}, {1}, moved_to_line(node, taut, force_N)};
    if (slack_A) held.force_N = {0, norm(force_N)}, held.slack = {0};
    return held;
  }
  // A force along the chord turns nothing.
  const Vec3 out = s_N > rounding * norm(force_N) ? (h_m / s_N) * square_N : height;
  return Held{{qA * to_A_m, qB * to_B_m}, {}, out - height};
}

}  // namespace fairlead::anchorage
