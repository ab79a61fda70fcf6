// A wheel held at its x and free to roll has the same tension T on both sides; the line's shape and the unstretched
// lengths s upstream of each wheel follow. With phi(T) = T + T2/2EA, the complementary energy
//   E* = integral of phi over the line - sum of H_i X_i + V rise
// is stationary in the horizontal tensions H_i, the shear V at the start, and the s_k: dE*/ds_k is the jump of phi at
// wheel k. It is convex in (H_i, V), and at equal tensions its second derivative in s_k is -P (1 + T/EA)(w/T) < 0.
// So every solution is a strict minimum of the potential over the s_k, and a potential that rises toward its borders
// and has strict minima only has exactly one: whatever start converges, converges to the one answer.
#include "geometry/mainline/rolling.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/mainline/piece.hpp"
#include "geometry/mainline/start.hpp"

namespace fairlead::mainline {
namespace {

constexpr int most_iterations = 100;

/// Gaussian elimination of a symmetric system by 2 x 2 pivots, upper triangle given. (jump of H, s) of a wheel is a
/// good pivot where H alone is a poor one: a taut line hardly answers H, but always answers s.
template <int N>
struct Pairs {
  double m[N][N];
  double f[N];

  void solve() {
    for (int p = 0; p < N; p += 2) {
      const double a = m[p][p], b = m[p][p + 1], d = m[p + 1][p + 1], det = a * d - b * b;
      for (int i = p + 2; i < N; ++i) {
        const double u = (d * m[p][i] - b * m[p + 1][i]) / det, v = (a * m[p + 1][i] - b * m[p][i]) / det;
        for (int j = i; j < N; ++j) m[i][j] -= u * m[p][j] + v * m[p + 1][j];
        f[i] -= u * f[p] + v * f[p + 1];
      }
    }
    for (int p = N - 2; p >= 0; p -= 2) {
      for (int i = p + 2; i < N; ++i) {
        f[p] -= m[p][i] * f[i];
        f[p + 1] -= m[p + 1][i] * f[i];
      }
      const double a = m[p][p], b = m[p][p + 1], d = m[p + 1][p + 1], det = a * d - b * b;
      const double u = (d * f[p] - b * f[p + 1]) / det;
      f[p + 1] = (a * f[p + 1] - b * f[p]) / det;
      f[p] = u;
    }
  }
};

template <int N>  // loads
class Rolling {
 public:
  Rolling(const Cable& cable, const Load* loads) : k_(cable), loads_(loads) {
    for (int i = 0; i <= N; ++i) reach_[i] = (i < N ? loads[i].x_m : k_.span_m) - (i > 0 ? loads[i - 1].x_m : 0);
  }

  Solved<Shape> solve(const Shape* near) {
    near && near->loads == N ? start_from(*near) : start();
    double miss = look(at_);
    for (int i = 0; i < most_iterations; ++i) {
      const Unknowns step = newton();
      const bool closed = miss <= closure;
      if (closed && size(step) <= settled) {
        at_ = moved(step, 1);
        return shape();
      }
      double t = std::min(1.0, stride(step));
      for (int halvings = 0;; ++halvings, t /= 2) {
        const Unknowns next = moved(step, t);
        const double there = look(next);
        if (there <= (1 - 0.1 * t) * miss || closed || halvings == 40) {
          at_ = next;
          miss = there;
          break;
        }
      }
    }
    return unsolved("the main line's equilibrium under its rolling loads does not close", miss * k_.span_m,
                    most_iterations);
  }

  Sensitivity sensitivity() {
    look(at_);
    Pairs<2 * N + 2> e = jacobian();
    std::fill(std::begin(e.f), std::end(e.f), 0.0);
    e.f[0] = -1;  // moving the wheel on shortens the reach of the last stretch
    e.solve();
    const double dH = e.f[2 * N], dV = e.f[2 * N + 1], ds = e.f[1];
    const Stretch& up = part_[0];
    const double per_m = up.Vb * (k_.compliance_per_N + 1 / up.Tb);
    return {-(up.x_V * dH + up.drop_V * dV + per_m * ds), e.f[0]};
  }

 private:
  struct Unknowns {
    double H[N + 1], V, s[N];
  };

  double length(const Unknowns& u, int i) const {
    return (i < N ? u.s[i] : k_.unstretched_m) - (i > 0 ? u.s[i - 1] : 0);
  }

  void start_from(const Shape& near) {
    double s = 0;
    for (int i = 0; i <= N; ++i) {
      at_.H[i] = near.pieces[i].H_N;
      if (i < N) at_.s[i] = s += near.pieces[i].unstretched_m;
    }
    at_.V = near.pieces[0].V_N;
  }

  /// The taut string's H, the shear of a simple beam, the lengths in the proportion of the arcs these make.
  void start() {
    const double H = taut_tension(k_, {loads_, N}), w = k_.weight_N_per_m, S = k_.unstretched_m;
    at_.V = bare_shear(k_, H);
    for (int i = 0; i < N; ++i) at_.V += loads_[i].weight_N * (1 - loads_[i].x_m / k_.span_m);
    double V = at_.V, total = 0, H2 = H * H, least = 0;
    double arc[N + 1], square[N + 1];
    const auto slope = [H](double shear) { return std::sqrt(1 + shear * shear / (H * H)); };
    for (int i = 0; i <= N; ++i) {
      const double fall = w * S * reach_[i] / k_.span_m;
      arc[i] = total += reach_[i] / 6 * (slope(V) + 4 * slope(V - fall / 2) + slope(V - fall));
      square[i] = H2;
      V -= fall;
      if (i == N) break;
      H2 += loads_[i].weight_N * (2 * V - loads_[i].weight_N);
      V -= loads_[i].weight_N;
      least = std::min(least, H2 - H * H);
    }
    for (int i = 0; i <= N; ++i) {
      if (i < N) at_.s[i] = S * arc[i] / total;
      at_.H[i] = std::sqrt(std::max(square[i], 0.01 * H * H));
    }
  }

  /// Evaluates the stretches at u; returns how far the equations are from closing, as a share of span and tension.
  double look(const Unknowns& u) {
    const double w = k_.weight_N_per_m, c = k_.compliance_per_N;
    double V = u.V, sum = 0;
    drop_ = k_.rise_m;
    for (int i = 0; i <= N; ++i) {
      part_[i] = stretch(length(u, i), u.H[i], V, w, c);
      if (i > 0) {
        const double a = part_[i - 1].Tb, b = part_[i].Ta, m = (a - b) * (1 + c / 2 * (a + b));
        jump_[i - 1] = m;
        sum = std::max(sum, std::abs(m) / std::max(a, b));
      }
      if (i < N) V = part_[i].Vb - loads_[i].weight_N;
      short_[i] = part_[i].x - reach_[i];
      sum = std::max(sum, std::abs(short_[i]) / k_.span_m);
      drop_ += part_[i].drop;
    }
    return std::max(sum, std::abs(drop_) / k_.span_m);
  }

  /// Second derivatives of E* and minus its gradient, in the order (jump of H, s) of the last wheel .. first, (H, V).
  Pairs<2 * N + 2> jacobian() const {
    Pairs<2 * N + 2> e{};
    constexpr int H = 2 * N, V = H + 1;
    const double w = k_.weight_N_per_m, c = k_.compliance_per_N;
    double xH = 0, xV = 0, dropV = 0, r = 0;
    for (int i = N; i >= 0; --i) {
      xH += part_[i].x_H;
      xV += part_[i].x_V;
      dropV += part_[i].drop_V;
      r += short_[i];
      if (i == 0) break;
      const int d = 2 * (N - i), s = d + 1;  // wheel i - 1
      const Stretch &up = part_[i - 1], &down = part_[i];
      const double fu = c + 1 / up.Tb, fd = c + 1 / down.Ta;
      const double before = at_.H[i - 1] * fu, after = at_.H[i] * fd;
      const double Vb = up.Vb, Va = Vb - loads_[i - 1].weight_N, bend = Vb * fu - Va * fd;
      e.m[d][d] = e.m[d][H] = xH;
      for (int j = d + 2; j < H; j += 2) e.m[d][j] = xH;  // the jumps upstream carry this one's stretches too
      e.m[d][s] = -after;
      e.m[d][V] = xV;
      e.m[s][s] = -w * bend;
      for (int j = d + 2; j < H; j += 2) e.m[s][j] = before - after;
      e.m[s][H] = before - after;
      e.m[s][V] = bend;
      e.f[d] = -r;
      e.f[s] = -jump_[i - 1];
    }
    e.m[H][H] = xH;
    e.m[H][V] = xV;
    e.m[V][V] = dropV;
    e.f[H] = -r;
    e.f[V] = -drop_;
    return e;
  }

  Unknowns newton() const {
    Pairs<2 * N + 2> e = jacobian();
    e.solve();
    Unknowns step;
    step.V = e.f[2 * N + 1];
    step.H[0] = e.f[2 * N];
    for (int i = 0; i < N; ++i) {
      const int d = 2 * (N - 1 - i);
      step.H[i + 1] = step.H[i] + e.f[d];
      step.s[i] = e.f[d + 1];
    }
    return step;
  }

  /// The part of a step that leaves every H and length at least a tenth of itself.
  double stride(const Unknowns& step) const {
    double most = 0;
    for (int i = 0; i <= N; ++i) {
      const double dL = (i < N ? step.s[i] : 0) - (i > 0 ? step.s[i - 1] : 0);
      most = std::max({most, -step.H[i] / at_.H[i], -dL / length(at_, i)});
    }
    return most > 0.9 ? 0.9 / most : 1;
  }

  Unknowns moved(const Unknowns& step, double t) const {
    Unknowns u = at_;
    u.V += t * step.V;
    for (int i = 0; i <= N; ++i) u.H[i] += t * step.H[i];
    for (int i = 0; i < N; ++i) u.s[i] += t * step.s[i];
    return u;
  }

  double size(const Unknowns& step) const {
    double most = std::abs(step.V) / std::max(part_[0].Ta, part_[0].Tb);
    for (int i = 0; i <= N; ++i) most = std::max(most, std::abs(step.H[i]) / at_.H[i]);
    for (int i = 0; i < N; ++i) most = std::max(most, std::abs(step.s[i]) / k_.unstretched_m);
    return most;
  }

  Shape shape() const {
    const double w = k_.weight_N_per_m, c = k_.compliance_per_N;
    Shape r;
    r.loads = N;
    double V = at_.V, z = 0;
    for (int i = 0; i <= N; ++i) {
      const double L = length(at_, i), H = at_.H[i];
      r.pieces[i] = {L, H, V, i > 0 ? loads_[i - 1].x_m : 0, z};
      if (i == N) break;
      const double Vb = V - w * L, Tb = std::hypot(H, Vb);
      z -= L * (V + Vb) * (c / 2 + 1 / (std::hypot(H, V) + Tb));
      V = Vb - loads_[i].weight_N;
      const double force_x = at_.H[i + 1] - H;
      r.wheels[i] = {
          loads_[i].x_m, z, at_.s[i], Tb, force_x, loads_[i].weight_N, std::atan(-force_x / loads_[i].weight_N)};
    }
    return r;
  }

  const Cable& k_;
  const Load* loads_;
  double reach_[N + 1];  // horizontal, of each stretch
  Unknowns at_;
  Stretch part_[N + 1];
  double short_[N + 1], jump_[N], drop_{};
};

std::optional<Unsolved> refuse(const Cable& k, std::span<const Load> loads) {
  if (auto bad = mainline::refuse(k)) return bad;
  double x = 0;
  for (const Load& load : loads) {
    if (!(load.x_m > x && load.x_m < k.span_m))
      return Unsolved{"the rolling loads do not stand in rising x inside the span", load.x_m, 0};
    if (!(std::isfinite(load.weight_N) && load.weight_N > 0))
      return Unsolved{"a rolling load does not press on the main line", load.weight_N, 0};
    x = load.x_m;
  }
  return std::nullopt;
}

}  // namespace

Solved<Shape> hang_rolling(const Cable& k, std::span<const Load> loads, const Shape* near) {
  if (auto bad = refuse(k, loads)) return tl::unexpected(*bad);
  switch (loads.size()) {
    case 0:
      return hang(k);
    case 1:
      return Rolling<1>(k, loads.data()).solve(near);
    case 2:
      return Rolling<2>(k, loads.data()).solve(near);
    default:
      return unsolved("more than two loads on the main line", static_cast<double>(loads.size()));
  }
}

Solved<Shape> hang_rolling_with_slope(const Cable& k, const Load& load, const Shape* near, Sensitivity& out) {
  if (auto bad = refuse(k, {&load, 1})) return tl::unexpected(*bad);
  Rolling<1> rolling(k, &load);
  auto solved = rolling.solve(near);
  if (solved) out = rolling.sensitivity();
  return solved;
}

}  // namespace fairlead::mainline
