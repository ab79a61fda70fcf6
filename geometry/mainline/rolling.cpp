// A wheel held at its x and free to roll has the same tension T on both sides; the line's shape and the unstretched
// lengths s_k upstream of the wheels follow. With phi(T) = T + T2/2EA the complementary energy
//   E* = integral of phi over the line - sum of H_i X_i + V rise      (X_i: horizontal reach of stretch i)
// is stationary in the horizontal tensions H_i, the shear V at the start and the s_k; dE*/ds_k is the jump of phi at
// wheel k. E* is convex in (H_i, V). At equal tensions its second derivative in s_k is -w P (1/T + 1/EA) < 0, so every
// solution is a strict minimum of the potential max E* over the s_k. That potential rises toward its borders (a stretch
// pulled straight), and a function with strict minima only has one: whatever start converges, the answer is the same.
#include "geometry/mainline/rolling.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/mainline/pairs.hpp"
#include "geometry/mainline/piece.hpp"
#include "geometry/mainline/start.hpp"

namespace fairlead::mainline {
namespace {

constexpr int most_newton_steps = 100, most_slides = 50, most_settling_steps = 100;

template <int N>  // loads
class Rolling {
 public:
  Rolling(const Cable& cable, const Load* loads) : k_(cable), loads_(loads) {
    for (int i = 0; i <= N; ++i) reach_[i] = (i < N ? loads[i].x_m : k_.span_m) - (i > 0 ? loads[i - 1].x_m : 0);
  }

  Solved<Shape> solve(const Shape* near) {
    if (!near || near->loads != N || !start_from(*near)) start();
    const bool solved = close_in() || (!(miss_ <= closure) && slide());
    if (solved && tells_tension(k_, at_.H[0])) return shape();
    const double miss_m = miss_ * k_.unstretched_m;
    return miss_ <= closure ? too_straight(miss_m, steps_) : does_not_close(miss_m, steps_);
  }

  /// Of the first wheel moved on: the stretch before it reaches farther, the one behind it less far.
  Sensitivity sensitivity() {
    look(at_);
    Equations e = jacobian();
    constexpr int jump = 2 * N - 2, s = jump + 1, H = jump + 2, V = jump + 3;
    for (double& f : e.f) f = 0;
    e.f[jump] = -1;  // the sum over the stretches behind the wheel; over all of them nothing changes
    e.solve();
    const double dforce = e.f[jump], ds = e.f[s], dH = e.f[H], dV = e.f[V];
    const Stretch& up = part_[0];
    return {-(up.x_V * dH + up.drop_V * dV + up.Vb * (k_.compliance_per_N + 1 / up.Tb) * ds), dforce};
  }

 private:
  struct Unknowns {
    double H[N + 1], V, s[N];
  };
  using Equations = Pairs<2 * N + 2>;

  /// False where the neighbour does not fit this line: steps keep the sign of a length, and only positive ones count.
  bool start_from(const Shape& near) {
    double s = 0;
    bool fits = true;
    for (int i = 0; i <= N; ++i) {
      at_.H[i] = near.pieces[i].H_N;
      if (i < N) at_.s[i] = s += near.pieces[i].unstretched_m;
      fits = fits && at_.H[i] > 0 && length(at_, i) > 0;
    }
    at_.V = near.pieces[0].V_N;
    return fits && std::isfinite(at_.V);
  }

  /// The taut string's H, the shear of a simple beam, and the lengths in the proportion of the arcs these make.
  void start() {
    const double H = taut_tension(k_, {loads_, N}), w = k_.weight_N_per_m, S = k_.unstretched_m;
    at_.V = bare_shear(k_, H);
    for (int i = 0; i < N; ++i) at_.V += loads_[i].weight_N * (1 - loads_[i].x_m / k_.span_m);
    const auto arc_per_m = [H](double V) { return std::sqrt(1 + V * V / (H * H)); };
    double V = at_.V, arc = 0, H2 = H * H;
    for (int i = 0; i <= N; ++i) {
      const double fall = w * S * reach_[i] / k_.span_m;
      arc += reach_[i] / 6 * (arc_per_m(V) + 4 * arc_per_m(V - fall / 2) + arc_per_m(V - fall));
      at_.H[i] = std::sqrt(std::max(H2, 0.01 * H * H));
      if (i == N) break;
      at_.s[i] = arc;
      H2 += loads_[i].weight_N * (2 * (V - fall) - loads_[i].weight_N);  // equal tension on both sides
      V -= fall + loads_[i].weight_N;
    }
    for (double& s : at_.s) s *= S / arc;
  }

  /// Newton's iteration on all unknowns at once, as long as its steps bring the equations closer. Leaves at_ as it was
  /// when it fails.
  bool close_in() {
    const Unknowns before = at_;
    miss_ = look(at_);
    for (int i = 0; i < most_newton_steps; ++i) {
      ++steps_;
      const Unknowns step = newton(jacobian()), from = at_;
      const bool closed = miss_ <= closure;
      if (closed && size(step) <= settled) {
        at_ = moved(from, step, 1);
        return true;
      }
      const double last = miss_;
      double t = stride(step);
      while (!((miss_ = look(at_ = moved(from, step, t))) <= (1 - t / 20) * last) && t > 0.05) t /= 2;
      if (!(miss_ < last || closed)) break;
    }
    at_ = before;
    return false;
  }

  /// The sure way, some hundred times slower: the wheels slide along the line down the potential. At every s the line
  /// settles first, and from each resting place Newton's iteration has another try.
  bool slide() {
    start();
    for (int i = 0; i < N; ++i) at_.s[i] = k_.unstretched_m * loads_[i].x_m / k_.span_m;  // every stretch reaches
    if (!settle()) return false;
    double height = potential();
    for (int i = 0; i < most_slides; ++i) {
      if (close_in()) return true;
      look(at_);
      const Unknowns from = at_, step = newton(downhill_jacobian());
      double gain = 0;
      for (int j = 0; j < N; ++j) gain += jump_[j] * step.s[j];
      double t = stride(step);
      for (int halvings = 0;; ++halvings, t /= 2) {
        at_ = from;
        for (int j = 0; j < N; ++j) at_.s[j] += t * step.s[j];
        if (settle() && potential() <= height - 1e-4 * t * gain) break;
        if (halvings == 40) return false;
      }
      height = potential();
    }
    return false;
  }

  /// The line in equilibrium with the wheels fixed to it where they are. Convex, so a step is halved only where it
  /// overshoots along itself.
  bool settle() {
    look(at_);
    for (int i = 0; i < most_settling_steps; ++i) {
      if (gap() <= 1e-9 * k_.unstretched_m) return true;
      const Unknowns step = settling_step(), from = at_;
      const double slope = slope_along(step);
      double t = stride(step);
      for (int halvings = 0;; ++halvings, t /= 2) {
        look(at_ = moved(from, step, t));
        if (slope_along(step) <= -0.9 * slope) break;
        if (halvings == 40) return false;
      }
    }
    return false;
  }

  double gap() const {
    double sum = std::abs(drop_);
    for (double r : short_) sum += std::abs(r);
    return sum;
  }

  double slope_along(const Unknowns& step) const {
    double sum = drop_ * step.V;
    for (int i = 0; i <= N; ++i) sum += short_[i] * step.H[i];
    return sum;
  }

  Unknowns settling_step() const {
    Unknowns step{};
    double VV = 0, f = -drop_;
    for (int i = 0; i <= N; ++i) {
      const double lean = part_[i].x_V / part_[i].x_H;
      VV += part_[i].drop_V - lean * part_[i].x_V;
      f += lean * short_[i];
    }
    step.V = f / VV;
    for (int i = 0; i <= N; ++i) step.H[i] = -(short_[i] + part_[i].x_V * step.V) / part_[i].x_H;
    return step;
  }

  /// Evaluates the stretches at u. Returns by how much the equations miss, as a share of length and tension; the sum
  /// of all, so that a NaN shows.
  double look(const Unknowns& u) {
    const double w = k_.weight_N_per_m, c = k_.compliance_per_N;
    double V = u.V, jumps = 0;
    drop_ = k_.rise_m;
    for (int i = 0; i <= N; ++i) {
      part_[i] = stretch(length(u, i), u.H[i], V, w, c);
      short_[i] = part_[i].x - reach_[i];
      drop_ += part_[i].drop;
      if (i > 0) {
        const double a = part_[i - 1].Tb, b = part_[i].Ta;
        jump_[i - 1] = (a - b) * (1 + c / 2 * (a + b));
        jumps += std::abs(a - b) / (a + b);
      }
      if (i < N) V = part_[i].Vb - loads_[i].weight_N;
    }
    return gap() / k_.unstretched_m + jumps;
  }

  /// Second derivatives of E* and minus its gradient, in (jump of H, s) of the last wheel .. of the first, (H, V at
  /// the start). The pair of a wheel is a good pivot where H alone is none: a taut line hardly answers H, always s.
  Equations jacobian() const {
    Equations e{};
    constexpr int H = 2 * N, V = H + 1;
    const double c = k_.compliance_per_N;
    double x_H = 0, x_V = 0, drop_V = 0, r = 0;
    for (int i = N;; --i) {
      x_H += part_[i].x_H;
      x_V += part_[i].x_V;
      drop_V += part_[i].drop_V;
      r += short_[i];
      if (i == 0) break;
      const int jump = 2 * (N - i), s = jump + 1;
      const Stretch &up = part_[i - 1], &down = part_[i];
      const double up_per_N = c + 1 / up.Tb, down_per_N = c + 1 / down.Ta, down_Va = up.Vb - loads_[i - 1].weight_N;
      const double down_x = at_.H[i] * down_per_N, both_x = at_.H[i - 1] * up_per_N - down_x;
      const double bend = up.Vb * up_per_N - down_Va * down_per_N;
      e.m[jump][jump] = e.m[jump][H] = x_H;
      e.m[jump][V] = x_V;
      e.m[jump][s] = -down_x;
      e.m[s][s] = -k_.weight_N_per_m * bend;
      e.m[s][H] = both_x;
      e.m[s][V] = bend;
      for (int upstream = jump + 2; upstream < H; upstream += 2) {  // its jump of H acts on all that follows
        e.m[jump][upstream] = x_H;
        e.m[s][upstream] = both_x;
      }
      e.f[jump] = -r;
      e.f[s] = -jump_[i - 1];
    }
    e.m[H][H] = x_H;
    e.m[H][V] = x_V;
    e.m[V][V] = drop_V;
    e.f[H] = -r;
    e.f[V] = -drop_;
    return e;
  }

  /// Far from equal tensions a wheel can stand on a hump of E*; there a tenth of what its bend would be at equal
  /// tensions keeps the step downhill.
  Equations downhill_jacobian() const {
    Equations e = jacobian();
    for (int i = 0; i < N; ++i) {
      double& bend = e.m[2 * (N - i) - 1][2 * (N - i) - 1];
      const double least = k_.weight_N_per_m * loads_[i].weight_N * (k_.compliance_per_N + 1 / part_[i].Tb) / 10;
      bend = std::min(bend, -least);
    }
    return e;
  }

  static Unknowns newton(Equations e) {
    e.solve();
    Unknowns step;
    step.H[0] = e.f[2 * N];
    step.V = e.f[2 * N + 1];
    for (int i = 0; i < N; ++i) {
      step.H[i + 1] = step.H[i] + e.f[2 * (N - 1 - i)];
      step.s[i] = e.f[2 * (N - 1 - i) + 1];
    }
    return step;
  }

  double length(const Unknowns& u, int i) const {
    return (i < N ? u.s[i] : k_.unstretched_m) - (i > 0 ? u.s[i - 1] : 0);
  }

  /// The part of a step that leaves every H and length at least a tenth of itself.
  double stride(const Unknowns& step) const {
    double most = 0.9;
    for (int i = 0; i <= N; ++i) {
      const double shorter = (i > 0 ? step.s[i - 1] : 0) - (i < N ? step.s[i] : 0);
      most = std::max({most, -step.H[i] / at_.H[i], shorter / length(at_, i)});
    }
    return 0.9 / most;
  }

  static Unknowns moved(const Unknowns& from, const Unknowns& step, double t) {
    Unknowns u = from;
    u.V += t * step.V;
    for (int i = 0; i <= N; ++i) u.H[i] += t * step.H[i];
    for (int i = 0; i < N; ++i) u.s[i] += t * step.s[i];
    return u;
  }

  double size(const Unknowns& step) const {
    double sum = std::abs(step.V) / (part_[0].Ta + part_[0].Tb);
    for (int i = 0; i <= N; ++i) sum += std::abs(step.H[i]) / at_.H[i];
    for (int i = 0; i < N; ++i) sum += std::abs(step.s[i]) / k_.unstretched_m;
    return sum;
  }

  /// The potential of line and loads for the settled line, heights from the start support, J.
  double potential() const {
    double V = at_.V, sum = -k_.rise_m * part_[N].Vb;
    for (int i = 0; i <= N; ++i) {
      const double H = at_.H[i];
      sum += H * reach_[i] - conjugate_energy(part_[i], length(at_, i), H, V, k_.compliance_per_N);
      if (i < N) V = part_[i].Vb - loads_[i].weight_N;
    }
    return sum;
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
      const double Vb = V - w * L, Tb = std::sqrt(H * H + Vb * Vb);
      z -= L * (V + Vb) * (c / 2 + 1 / (std::sqrt(H * H + V * V) + Tb));
      V = Vb - loads_[i].weight_N;
      const double force_x = at_.H[i + 1] - H, force_z = loads_[i].weight_N;
      r.wheels[i] = {loads_[i].x_m, z, at_.s[i], Tb, force_x, force_z, std::atan(-force_x / force_z)};
    }
    return r;
  }

  const Cable& k_;
  const Load* loads_;
  double reach_[N + 1];
  Unknowns at_;
  // What look() found:
  Stretch part_[N + 1];
  double short_[N + 1];  // by how much each stretch reaches too far, m
  double jump_[N];       // of phi over each wheel, N
  double drop_{};        // by how much the end hangs below its support, m
  double miss_{};
  int steps_{};
};

std::optional<Unsolved> refuse(const Cable& k, std::span<const Load> loads) {
  if (auto bad = mainline::refuse(k)) return bad;
  double x = 0;
  for (const Load& load : loads) {
    if (!(load.x_m > x && load.x_m < k.span_m))
      return Unsolved{"the loads on the main line do not stand in rising x inside its span", load.x_m, 0};
    if (!(std::isfinite(load.weight_N) && load.weight_N > 0))
      return Unsolved{"a load on wheels does not press on the main line", load.weight_N, 0};
    x = load.x_m;
  }
  return std::nullopt;
}

template <int N>
Solved<Shape> roll(const Cable& k, const Load* loads, const Shape* near, Sensitivity* out) {
  Rolling<N> rolling(k, loads);
  auto solved = rolling.solve(near);
  if (solved && out) *out = rolling.sensitivity();
  return solved;
}

Solved<Shape> roll(const Cable& k, std::span<const Load> loads, const Shape* near, Sensitivity* out) {
  if (auto bad = refuse(k, loads)) return tl::unexpected(*bad);
  if (loads.size() == 1) return roll<1>(k, loads.data(), near, out);
  if (loads.size() == 2) return roll<2>(k, loads.data(), near, out);
  return unsolved("more than two loads on the main line", static_cast<double>(loads.size()));
}

}  // namespace

Solved<Shape> hang_rolling(const Cable& k, std::span<const Load> loads, const Shape* near) {
  return loads.empty() ? hang(k) : roll(k, loads, near, nullptr);
}

Solved<Shape> hang_rolling(const Cable& k, std::span<const Load> loads, const Shape* near, Sensitivity& first) {
  return roll(k, loads, near, &first);
}

}  // namespace fairlead::mainline
