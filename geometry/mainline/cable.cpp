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

/// The shape after one last step, so small that its effect on the cut's place is linear.
Shape shape(const Cable& k, const Fixed* load, const Cut& now, State at, State step) {
  Shape r;
  const double H = at.H + step.H, V = at.V + step.V;
  r.pieces[0] = {load ? load->s_m : k.unstretched_m, H, V, 0, 0};
  if (!load) return r;
  const Stretch& part = now.parts[0];
  const double x = part.x + part.x_H * step.H + part.x_V * step.V;
  const double z = -(part.drop + part.x_V * step.H + part.drop_V * step.V);
  const double before = V - k.weight_N_per_m * load->s_m, after = before - load->weight_N;
  const double steeper = std::max(std::abs(before), std::abs(after));
  r.pieces[1] = {k.unstretched_m - load->s_m, H, after, x, z};
  r.wheels[0] = {x, z, load->s_m, std::sqrt(H * H + steeper * steeper), 0, load->weight_N, 0};
  r.loads = 1;
  return r;
}

/// Newton's iteration on the complementary energy E*(H, V) = integral of T + T2/2EA over the line - H span + V rise.
/// E* is convex, its gradient is how far the end misses its support and its Hessian the end's compliance, so there is
/// one answer; halving a step that overshoots along its own line finds it from any start.
Solved<Shape> solve(const Cable& k, const Fixed* load, State at) {
  State from = at, step{};
  double miss = 0, downhill = 0, t = 1;
  for (int i = 0; i < most_iterations; ++i) {
    const Cut now = cut(k, load, at);
    miss = std::abs(now.rx) + std::abs(now.rz);
    const bool closed = miss <= closure * k.unstretched_m;
    if (now.rx * step.H + now.rz * step.V > -0.9 * downhill && !closed) {
      t /= 2;
    } else {
      const double per_det = 1 / (now.HH * now.VV - now.HV * now.HV);
      step = {(now.HV * now.rz - now.VV * now.rx) * per_det, (now.HV * now.rx - now.HH * now.rz) * per_det};
      const double tension = now.parts[0].Ta + now.parts[0].Tb;
      if (closed && std::abs(step.H) <= settled * at.H && std::abs(step.V) <= settled * tension)
        return tells_tension(k, at.H) ? Solved<Shape>(shape(k, load, now, at, step)) : too_straight(miss, i);
      downhill = now.rx * step.H + now.rz * step.V;
      from = at;
      t = step.H < -0.9 * at.H ? -0.9 * at.H / step.H : 1;
    }
    at = {from.H + t * step.H, from.V + t * step.V};
  }
  return miss <= closure * k.unstretched_m ? too_straight(miss, most_iterations)
                                           : does_not_close(miss, most_iterations);
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
