#include "geometry/mainline/cable.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/mainline/piece.hpp"
#include "geometry/mainline/start.hpp"

namespace fairlead::mainline {
namespace {

constexpr int most_iterations = 100;

struct Fixed {
  double s_m{}, weight_N{};
};

struct State {
  double H{}, V{};
};

/// The line cut at the clamped load, if there is one, for one pair (H, V) at the start.
struct Cut {
  std::array<Stretch, 2> parts;
  double rx{}, rz{};        // how far the end falls short of its support, m
  double HH{}, HV{}, VV{};  // compliance of the end, m/N
};

Cut cut(const Cable& k, const Fixed* load, State at) {
  Cut r;
  const auto add = [&](const Stretch& part) {
    r.rx += part.x;
    r.rz += part.drop;
    r.HH += part.x_H;
    r.HV += part.x_V;
    r.VV += part.drop_V;
  };
  r.rx = -k.span_m;
  r.rz = k.rise_m;
  const double s = load ? load->s_m : k.unstretched_m;
  add(r.parts[0] = stretch(s, at.H, at.V, k.weight_N_per_m, k.compliance_per_N));
  if (load)
    add(r.parts[1] = stretch(k.unstretched_m - s, at.H, at.V - k.weight_N_per_m * s - load->weight_N, k.weight_N_per_m,
                             k.compliance_per_N));
  return r;
}

Shape shape(const Cable& k, const Fixed* load, State at) {
  Shape r;
  r.pieces[0] = {load ? load->s_m : k.unstretched_m, at.H, at.V, 0, 0};
  if (!load) return r;
  const Stretch part = stretch(load->s_m, at.H, at.V, k.weight_N_per_m, k.compliance_per_N);
  const double V = part.Vb - load->weight_N;
  r.pieces[1] = {k.unstretched_m - load->s_m, at.H, V, part.x, -part.drop};
  r.wheels[0] = {part.x, -part.drop, load->s_m, std::max(part.Tb, std::hypot(at.H, V)), 0, load->weight_N, 0};
  r.loads = 1;
  return r;
}

/// Newton's iteration on the complementary energy E*(H, V) = integral of T + T2/2EA over the line - H span + V rise.
/// E* is convex, its gradient is how far the end misses its support and its Hessian the end's compliance, so there is
/// one answer; halving a step that overshoots along its own line finds it from any start.
Solved<Shape> solve(const Cable& k, const Fixed* load, State at) {
  Cut now = cut(k, load, at);
  double miss = 0;
  for (int i = 0; i < most_iterations; ++i) {
    const double det = now.HH * now.VV - now.HV * now.HV;
    const double dH = (now.HV * now.rz - now.VV * now.rx) / det;
    const double dV = (now.HV * now.rx - now.HH * now.rz) / det;
    const double tension = std::max(now.parts[0].Ta, now.parts[0].Tb);
    miss = std::abs(now.rx) + std::abs(now.rz);
    const bool closed = miss <= closure * k.span_m;
    if (closed && std::abs(dH) <= settled * at.H && std::abs(dV) <= settled * tension)
      return shape(k, load, {at.H + dH, at.V + dV});
    if (!(det > 0)) break;
    double t = dH < -0.9 * at.H ? -0.9 * at.H / dH : 1;
    const double downhill = now.rx * dH + now.rz * dV;
    for (int halvings = 0;; ++halvings, t /= 2) {
      const State next{at.H + t * dH, at.V + t * dV};
      const Cut there = cut(k, load, next);
      if (there.rx * dH + there.rz * dV <= -0.9 * downhill || closed || halvings == 40) {
        at = next;
        now = there;
        break;
      }
    }
  }
  return unsolved("the main line's equilibrium does not close", miss, most_iterations);
}

}  // namespace

Solved<Shape> hang(const Cable& k) {
  if (auto bad = refuse(k)) return tl::unexpected(*bad);
  const double H = taut_tension(k, {});
  return solve(k, nullptr, {H, bare_shear(k, H)});
}

Solved<Shape> hang_clamped(const Cable& k, double s_m, double weight_N, const Shape* near) {
  if (auto bad = refuse(k)) return tl::unexpected(*bad);
  if (!(s_m > 0 && s_m < k.unstretched_m)) return unsolved("a load is clamped beyond the ends of the main line", s_m);
  if (!std::isfinite(weight_N)) return unsolved("a load on the main line is not a finite weight", weight_N);
  const Fixed load{s_m, weight_N};
  if (near && near->loads == 1) return solve(k, &load, {near->pieces[0].H_N, near->pieces[0].V_N});
  const double share = s_m / k.unstretched_m;
  const Load at{share * k.span_m, weight_N};
  const double H = taut_tension(k, {&at, 1});
  return solve(k, &load, {H, bare_shear(k, H) + weight_N * (1 - share)});
}

}  // namespace fairlead::mainline
