#include "geometry/reeving/leg.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {
namespace {

/// sinh h / h; below the switch by its series, whose next term is under 1e-16 there: a third of the library's time.
double sinh_over(double h) {
  if (h > 0.5) return std::sinh(h) / h;
  const double q = h * h;
  return 1 + q / 6 * (1 + q / 20 * (1 + q / 42 * (1 + q / 72 * (1 + q / 110 * (1 + q / 156)))));
}

/// sinh e - e without cancellation.
double sinh_excess(double e) {
  const double q = e * e;
  return std::abs(e) < 0.1 ? e * q / 6 * (1 + q / 20 * (1 + q / 42 * (1 + q / 72))) : std::sinh(e) - e;
}

/// Where a leg's ends lie on its catenary, in units of the parameter H/w from the lowest point; it needs d > 0.
struct Abscissae {
  double from, mid;
};
Abscissae abscissae(double h, double slope) {
  const double mid = std::asinh(slope / sinh_over(h));
  return {mid - h, mid};
}

/// Greatest drop below the chord of a leg with its ends d apart and `rise` up.
double sag(double d, double rise, double h) {
  if (!(d > 0 && h > 0)) return 0;
  const double parameter = d / (2 * h), slope = rise / d;
  // From the chord's contact slope asinh(slope) to the first end: the drop is the catenary's Taylor remainder.
  const double e = abscissae(h, slope).from - std::asinh(slope);
  const double half = std::sinh(e / 2);
  return parameter * (2 * std::hypot(1, slope) * half * half + slope * sinh_excess(e));
}

}  // namespace

Vec3 Catenary::from_pull_N() const { return (mid_tension_N * rho_per_m) * level() + from_V_N * up; }

Vec3 Catenary::to_pull_N() const { return -(mid_tension_N * rho_per_m) * level() - to_V_N * up; }

double Catenary::horizontal_N() const { return mid_tension_N * rho_per_m * norm(level()); }

double Catenary::least_tension_N() const {
  if (from_V_N < 0 && to_V_N > 0) return horizontal_N();
  return std::min(from_tension_N(), to_tension_N());
}

double Catenary::sag_m() const { return sag(norm(level()), rise_m, h); }

std::optional<Catenary> hang_leg(Vec3 span, double mid_tension_N, double weight_N_per_m, Vec3 up) {
  Catenary leg{.span = span,
               .weight_N_per_m = weight_N_per_m,
               .up = up,
               .rise_m = dot(span, up),
               .mid_tension_N = mid_tension_N};
  const Vec3 level = leg.level();
  const double d2 = dot(level, level), rise2 = leg.rise_m * leg.rise_m;
  if (!(leg.from_tension_N() > 0 && leg.to_tension_N() > 0 && d2 + rise2 > 0)) return std::nullopt;
  // The root: h^2 = P A^2 + R A^2 S^2 with P, R = (target d)^2, (target rise)^2. By A^2 >= 1 + h^2 + h^4 / 3 and
  // A^2 S^2 >= 1 + 2 h^2 / 3 the start lies left of it, and Newton on a convex falling function stays left: the steps
  // are positive until rounding. Where there is no root they run past the fold instead.
  const double target = weight_N_per_m / (2 * mid_tension_N), target2 = target * target;
  const double P = target2 * d2, R = target2 * rise2, left = 1 - P - 2 * R / 3;
  if (!(left > 0)) return std::nullopt;
  double first = (P + R) / left;
  for (int i = 0; i < 2; ++i) first = (P + R + P / 3 * first * first) / left;
  leg.h = std::sqrt(first);
  constexpr int kMost = 60;
  for (int i = 0; i < kMost; ++i) {
    const double bulge = sinh_over(leg.h), sinh_h = leg.h * bulge, A2 = 1 + sinh_h * sinh_h;
    leg.S = 1 / bulge;
    leg.A = std::sqrt(A2);
    const double S2 = leg.S * leg.S, rho2 = 1 / (A2 * (d2 + rise2 * S2));
    leg.fold = rho2 * (d2 * (A2 - leg.A * leg.h * sinh_h) + rise2 * leg.A * S2 * leg.S);
    if (!(leg.fold > 0)) return std::nullopt;
    const double gap = weight_N_per_m == 0 ? 0 : 1 - leg.h * leg.h * rho2 / target2;
    constexpr double kRounding = 1e-14;
    if (gap <= kRounding) {
      leg.rho_per_m = std::sqrt(rho2);
      leg.length_m = 1 / (leg.A * leg.S * leg.rho_per_m);
      const double mean_V = mid_tension_N * leg.rise_m / leg.length_m, half_weight = weight_N_per_m * leg.length_m / 2;
      leg.from_V_N = mean_V - half_weight;
      leg.to_V_N = mean_V + half_weight;
      return leg;
    }
    leg.h += leg.h * gap / (2 * leg.fold);
  }
  return std::nullopt;
}

LegChange vary(const Catenary& leg, Vec3 span_change, double mid_tension_change_N) {
  const Vec3 level = leg.level();
  const double rise_change = dot(span_change, leg.up);
  const double tension_share = mid_tension_change_N / leg.mid_tension_N;
  const double stretch = leg.rho_per_m * leg.rho_per_m * leg.A * leg.A;
  const double span_share = stretch * (dot(level, span_change) + leg.S * leg.S * leg.rise_m * rise_change);
  const double h_share = (span_share - tension_share) / leg.fold;
  const double length_share = leg.S / leg.A * h_share + tension_share;
  LegChange change;
  change.length_m = leg.length_m * length_share;
  const double density = leg.mid_tension_N * leg.rho_per_m;
  const double mean_V_change =
      (leg.rise_m * (mid_tension_change_N - leg.mid_tension_N * length_share) + leg.mid_tension_N * rise_change) /
      leg.length_m;
  const double half_weight_change = leg.weight_N_per_m * change.length_m / 2;
  const Vec3 pull = density * (span_change - rise_change * leg.up - h_share * level) + mean_V_change * leg.up;
  change.from_pull_N = pull - half_weight_change * leg.up;
  change.to_pull_N = -pull - half_weight_change * leg.up;
  return change;
}

std::vector<Point3> hanging_curve(const Leg& leg, int points) {
  const Vec3 span = leg.to - leg.from;
  const double w = norm(leg.load_N_per_m);
  const Vec3 up = w > 0 ? (-1 / w) * leg.load_N_per_m : Vec3{};
  const double rise = dot(span, up), d = norm(span - rise * up), h = leg.H_N > 0 ? w * d / (2 * leg.H_N) : 0;
  std::vector<Point3> curve;
  curve.reserve(points);
  for (int i = 0; i < points; ++i) {
    const double part = double(i) / (points - 1);
    Point3 p = leg.from + part * span;
    if (d > 0 && h > 0 && i > 0 && i + 1 < points) {
      const auto [from, mid] = abscissae(h, rise / d);
      p = p + (d / h * std::sinh(from + h * part) * std::sinh(h * part) - part * rise) * up;
    }
    curve.push_back(p);
  }
  return curve;
}

}  // namespace fairlead::reeving
