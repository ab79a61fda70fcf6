#include "geometry/reeving/start.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fairlead::reeving {
namespace {

/// Tension of a line at a length, and its stiffness.
struct Pull {
  double N{}, N_per_m{};
};

class Points {
 public:
  Points(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, Point3 attachment, double force_N)
      : in_(in),
        sweep_(sweep),
        outlet_(outlet),
        attachment_(attachment),
        force_N_(force_N),
        rest_pull_N_(in.lines.size()) {
    start_.shift.resize(in.blocks.size());
    std::fill(rest_pull_N_.begin(), rest_pull_N_.end(), force_N / std::max(1.0, in.nominal_ratio));
  }

  PointStart solve() {
    constexpr double stiffest_per_m = 1e3;
    for (stiffness_per_m_ = 1; stiffness_per_m_ <= stiffest_per_m; stiffness_per_m_ *= 10) minimise();
    // A line that closes on a block's rest pulls as hard as it takes to hold the block there.
    constexpr int rounds = 5;
    for (int i = 0; i < rounds && outlet_.unstretched_m.empty(); ++i) {
      for (std::size_t l = 0; l < in_.lines.size(); ++l) hold_at_rest(static_cast<int>(l));
      minimise();
    }
    for (std::size_t l = 0; l < in_.lines.size(); ++l) {
      const double length = length_of(static_cast<int>(l));
      start_.tension_N.push_back(pull(static_cast<int>(l), length).N);
      start_.spare_m.push_back(closes_on_length(static_cast<int>(l)) ? own_length(static_cast<int>(l)) - length : 0);
    }
    return start_;
  }

 private:
  bool resting() const { return outlet_.unstretched_m.empty(); }
  bool closes_on_length(int l) const {
    return l != in_.braking && !(resting() && in_.lines[l].closing == Closing::block_at_rest);
  }
  double own_length(int l) const {
    return in_.lines[l].closing == Closing::length ? sweep_.state.unstretched_m[l] : outlet_.unstretched_m[l];
  }

  Pull pull(int l, double length_m) const {
    if (l == in_.braking) {
      if (outlet_.held_tension_N) return {*outlet_.held_tension_N, 0};
      const Curve& retraction = in_.unit.retraction_N;
      const double E = in_.rest_extension_m + (resting() ? 0 : length_m - own_length(l)), T = retraction(E);
      const double least = 1e-3 * force_N_;
      return T > least ? Pull{T, resting() ? 0 : std::max(0.0, slope_of(E))} : Pull{least, 0};
    }
    if (!closes_on_length(l)) return {rest_pull_N_[l], 0};
    // A spring that hardly pulls while slack: half a hyperbola.
    const double k = stiffness_per_m_ * force_N_, soft = force_N_ * std::min(0.1, 1 / stiffness_per_m_);
    const double y = k * (length_m - own_length(l)), root = std::hypot(y, soft);
    return {y > 0 ? (y + root) / 2 : soft * soft / (2 * (root - y)), k * (1 + y / root) / 2};
  }
  double slope_of(double E) const {
    constexpr double step_m = 1e-6;
    return (in_.unit.retraction_N(E + step_m) - in_.unit.retraction_N(E)) / step_m;
  }

  /// A block that cannot shift stays where it is drawn.
  Body body_at(int l, int p) const {
    const Line& line = in_.lines[l];
    const Body body = p == 0             ? line.from.body
                      : p > line.sheaves ? line.to.body
                                         : in_.sheaves[line.first_sheave + p - 1].body;
    return body >= 0 && !in_.blocks[body].shifts() ? on_ground : body;
  }
  Point3 point_at(int l, int p) const {
    const Line& line = in_.lines[l];
    const Body body = body_at(l, p);
    if (body == on_trolley) return attachment_;
    const Point3 drawn = p == 0             ? line.from.at
                         : p > line.sheaves ? line.to.at
                                            : in_.sheaves[line.first_sheave + p - 1].centre;
    return body >= 0 ? drawn + start_.shift[body] : drawn;
  }
  /// Rounded off where two points meet, so that it stays smooth and convex.
  static double rounded(Vec3 d) {
    constexpr double round_m = 1e-3;
    return std::sqrt(dot(d, d) + round_m * round_m);
  }
  double length_of(int l) const {
    double sum = 0;
    for (int p = 0; p <= in_.lines[l].sheaves; ++p) sum += rounded(point_at(l, p + 1) - point_at(l, p));
    return sum;
  }

  static constexpr double pin_per_m = 1e5;  // of force_N: what holds a block at its place at rest

  /// Gradient and Hessian of the energy in the blocks' shifts.
  void differentiate(std::vector<double>& gradient, Square& hessian) const {
    const int n = 3 * static_cast<int>(in_.blocks.size());
    gradient.assign(n, 0);
    hessian.clear(n);
    std::vector<double> of_length(n);
    for (int l = 0; l < static_cast<int>(in_.lines.size()); ++l) {
      const Pull T = pull(l, length_of(l));
      std::fill(of_length.begin(), of_length.end(), 0.0);
      for (int p = 0; p <= in_.lines[l].sheaves; ++p) {
        const Body a = body_at(l, p), b = body_at(l, p + 1);
        if (a == b) continue;
        const Vec3 d = point_at(l, p + 1) - point_at(l, p);
        const double length = rounded(d), u[3] = {d.x / length, d.y / length, d.z / length};
        const auto side = [&](Body of, double sign, Body other) {
          if (of < 0) return;
          for (int i = 0; i < 3; ++i) {
            of_length[3 * of + i] += sign * u[i];
            for (int j = 0; j < 3; ++j) {
              const double bent = T.N * ((i == j) - u[i] * u[j]) / length;
              hessian(3 * of + i, 3 * of + j) += bent;
              if (other >= 0) hessian(3 * of + i, 3 * other + j) -= bent;
            }
          }
        };
        side(a, -1, b);
        side(b, 1, a);
      }
      for (int i = 0; i < n; ++i) {
        gradient[i] += T.N * of_length[i];
        for (int j = 0; j < n; ++j) hessian(i, j) += T.N_per_m * of_length[i] * of_length[j];
      }
    }
    const auto along_row = [&](int b, Vec3 axis, double force, double stiffness) {
      const double v[3] = {axis.x, axis.y, axis.z};
      for (int i = 0; i < 3; ++i) {
        gradient[3 * b + i] += force * v[i];
        for (int j = 0; j < 3; ++j) hessian(3 * b + i, 3 * b + j) += stiffness * v[i] * v[j];
      }
    };
    for (int b = 0; b < static_cast<int>(in_.blocks.size()); ++b) {
      if (in_.blocks[b].shifts()) along_row(b, in_.up, in_.blocks[b].weight_N, 0);
      if (pinned(b)) along_row(b, in_.along, pin_per_m * force_N_ * off_rest(b), pin_per_m * force_N_);
      // Where nothing holds a block in one direction, any place does there.
      for (int i = 0; i < 3; ++i) hessian(3 * b + i, 3 * b + i) += 1e-9 * force_N_;
    }
  }
  bool pinned(int b) const { return resting() && in_.blocks[b].rest_m.has_value(); }
  double off_rest(int b) const {
    return dot(in_.blocks[b].drawn + start_.shift[b] - in_.origin, in_.along) - *in_.blocks[b].rest_m;
  }

  void move(const std::vector<double>& step, double part) {
    for (std::size_t b = 0; b < start_.shift.size(); ++b)
      start_.shift[b] += part * Vec3{step[3 * b], step[3 * b + 1], step[3 * b + 2]};
  }

  void minimise() {
    if (in_.blocks.empty()) return;
    constexpr int most_steps = 200;
    std::vector<double> gradient, step;
    Square hessian;
    differentiate(gradient, hessian);
    for (int i = 0; i < most_steps; ++i) {
      step = gradient;
      hessian.factor();
      hessian.solve(step);
      double fall = 0, longest = 0;
      for (std::size_t j = 0; j < step.size(); ++j) {
        step[j] = -step[j];
        fall += step[j] * gradient[j];
        longest = std::max(longest, std::abs(step[j]));
      }
      // Along a convex energy it is enough that the slope has not turned steeper than half of what it was.
      double part = std::min(1.0, 10 / longest);
      for (int half = 0; half < 40; ++half, part /= 2) {
        move(step, part);
        differentiate(gradient, hessian);
        double slope = 0;
        for (std::size_t j = 0; j < step.size(); ++j) slope += step[j] * gradient[j];
        if (slope <= -0.5 * fall) break;
        move(step, -part);
      }
      if (!(part * longest > 1e-9)) break;
    }
  }

  void hold_at_rest(int l) {
    if (l == in_.braking || closes_on_length(l)) return;
    auto which = std::count_if(in_.lines.begin(), in_.lines.begin() + l,
                               [](const Line& line) { return line.closing == Closing::block_at_rest; });
    for (int b = 0; b < static_cast<int>(in_.blocks.size()); ++b) {
      if (!pinned(b) || which-- != 0) continue;
      double parts = 0;  // of the line at the block, along
      for (int p = 0; p <= in_.lines[l].sheaves; ++p) {
        const Vec3 d = point_at(l, p + 1) - point_at(l, p);
        parts += ((body_at(l, p + 1) == b) - (body_at(l, p) == b)) * dot(d, in_.along) / rounded(d);
      }
      // The pin pushes with -pin x off; the line's pull along per newton is -parts.
      const double change = pin_per_m * force_N_ * off_rest(b) / parts;
      if (std::isfinite(change)) rest_pull_N_[l] = std::max(0.1 * rest_pull_N_[l], rest_pull_N_[l] + change);
    }
  }

  const Inputs& in_;
  const SweepInputs& sweep_;
  const Outlet& outlet_;
  Point3 attachment_;
  double force_N_, stiffness_per_m_ = 1;
  std::vector<double> rest_pull_N_;
  PointStart start_;
};

}  // namespace

PointStart start_on_points(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, Point3 attachment,
                           double force_N) {
  return Points(in, sweep, outlet, attachment, force_N).solve();
}

}  // namespace fairlead::reeving
