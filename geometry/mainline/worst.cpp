#include "geometry/mainline/worst.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace fairlead::mainline {
namespace {

/// The integral of asinh.
double asinh_integral(double u) { return u * std::asinh(u) - std::hypot(1.0, u); }

struct Scan {
  const Cable& cable;
  double weight_N;
  const std::optional<Load>& standing;

  Solved<Shape> at(double x_m, const Shape* near) const {
    const Load loads[] = {{x_m, weight_N}, standing.value_or(Load{})};
    return hang_rolling(cable, {loads, standing ? 2u : 1u}, near);
  }
};

/// The best sample, refined by thirds between its neighbours (the force has one hump over the span), and the bound over
/// what the samples left out.
Solved<WorstPlace> worst_of(const Scan& scan, const std::vector<double>& x_m, const std::vector<Shape>& shapes,
                            const ForceOf& force) {
  std::vector<double> force_N;
  for (const Shape& shape : shapes) {
    force_N.push_back(force(shape));
    if (!std::isfinite(force_N.back())) return unsolved("a force of the loaded main line is not known", force_N.back());
  }
  const auto most = std::max_element(force_N.begin(), force_N.end()) - force_N.begin();
  const auto last = static_cast<std::ptrdiff_t>(x_m.size()) - 1;
  const auto i = static_cast<std::size_t>(most);
  WorstPlace worst{x_m[i], force_N[i], force_N[i], shapes[i]};
  double from = x_m[static_cast<std::size_t>(std::max<std::ptrdiff_t>(most - 1, 0))];
  double to = x_m[static_cast<std::size_t>(std::min(most + 1, last))];
  while (to - from > 1e-3) {
    const double a = from + (to - from) / 3, b = to - (to - from) / 3;
    const auto left = scan.at(a, &worst.shape), right = scan.at(b, &worst.shape);
    if (!left) return tl::unexpected(left.error());
    if (!right) return tl::unexpected(right.error());
    const double at_a = force(*left), at_b = force(*right);
    if (!std::isfinite(at_a + at_b)) return unsolved("a force of the loaded main line is not known", at_a + at_b);
    if (at_a > worst.force_N) worst = {a, at_a, at_a, *left};
    if (at_b > worst.force_N) worst = {b, at_b, at_b, *right};
    (at_a < at_b ? from : to) = at_a < at_b ? a : b;
  }
  worst.bound_N = worst.force_N;
  for (std::size_t k = 0; k + 1 < x_m.size(); ++k) {
    double rise_N = 0;
    for (std::size_t j = k > 0 ? k - 1 : 0; j < std::min(k + 2, x_m.size() - 1); ++j)
      rise_N = std::max(rise_N, std::abs(force_N[j + 1] - force_N[j]));
    if (static_cast<std::ptrdiff_t>(k) == most || static_cast<std::ptrdiff_t>(k) + 1 == most) continue;
    worst.bound_N = std::max(worst.bound_N, 0.5 * (force_N[k] + force_N[k + 1]) + rise_N);
  }
  return worst;
}

}  // namespace

double weight_moment_N_m(const Cable& cable, const Shape& shape) {
  const double w = cable.weight_N_per_m;
  double moment = 0;
  for (int i = 0; i <= shape.loads; ++i) {
    const Piece& p = shape.pieces[static_cast<std::size_t>(i)];
    const double S = p.unstretched_m, u0 = p.V_N / p.H_N, u1 = (p.V_N - w * S) / p.H_N;
    const double integral_m2 = p.x_m * S + 0.5 * p.H_N * cable.compliance_per_N * S * S +
                               p.H_N / w * (S * std::asinh(u0) - p.H_N / w * (asinh_integral(u0) - asinh_integral(u1)));
    moment += w * integral_m2;
  }
  return moment;
}

double tension_at(const Cable& cable, const Shape& shape, MeasuredAt at) {
  const SupportForces f = support_forces(cable, shape);
  switch (at) {
    case MeasuredAt::start:
      return std::hypot(f.start_x_N, f.start_z_N);
    case MeasuredAt::end:
      return std::hypot(f.end_x_N, f.end_z_N);
    case MeasuredAt::horizontal:
      break;
  }
  return std::abs(f.start_x_N);
}

ForceOf tension_at_start(const Cable& cable) {
  return [cable](const Shape& shape) { return tension_at(cable, shape, MeasuredAt::start); };
}

ForceOf tension_at_end(const Cable& cable) {
  return [cable](const Shape& shape) { return tension_at(cable, shape, MeasuredAt::end); };
}

Solved<std::vector<WorstPlace>> worst_places(const Cable& cable, double weight_N, const std::optional<Load>& standing,
                                             double from_m, double to_m, std::span<const ForceOf> forces) {
  constexpr int samples = 96;
  const Scan scan{cable, weight_N, standing};
  std::vector<double> x_m;
  std::vector<Shape> shapes;
  for (int i = 0; i < samples; ++i) {
    x_m.push_back(from_m + (to_m - from_m) * i / (samples - 1));
    const auto shape = scan.at(x_m.back(), shapes.empty() ? nullptr : &shapes.back());
    if (!shape) return tl::unexpected(shape.error());
    shapes.push_back(*shape);
  }
  std::vector<WorstPlace> worst;
  for (const ForceOf& force : forces) {
    const auto one = worst_of(scan, x_m, shapes, force);
    if (!one) return tl::unexpected(one.error());
    worst.push_back(*one);
  }
  return worst;
}

}  // namespace fairlead::mainline
