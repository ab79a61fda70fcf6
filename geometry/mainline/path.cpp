#include "geometry/mainline/path.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/mainline/rolling.hpp"

namespace fairlead::mainline {
namespace {

/// A value with its first two derivatives.
struct Jet {
  double f{}, d{}, dd{};
};

/// The quintic through both jets of an interval of length h, at t = 0..1: neighbours share their jets, so the whole is
/// C2. Written about the start, so that nothing large cancels.
Jet quintic(const Jet& a, const Jet& b, double h, double t) {
  const double rise = b.f - a.f - h * a.d - h * h * a.dd / 2;
  const double slope = h * (b.d - a.d - h * a.dd), bend = h * h * (b.dd - a.dd);
  const double c3 = 10 * rise - 4 * slope + bend / 2, c4 = -15 * rise + 7 * slope - bend,
               c5 = 6 * rise - 3 * slope + bend / 2;
  return {a.f + t * (h * a.d + t * (h * h * a.dd / 2 + t * (c3 + t * (c4 + t * c5)))),
          a.d + t * (h * a.dd + t * (3 * c3 + t * (4 * c4 + t * 5 * c5)) / h),
          a.dd + t * (6 * c3 + t * (12 * c4 + t * 20 * c5)) / (h * h)};
}

/// d2z/dx2 at a knot by fourth-order differences of the exact slopes (third order, one-sided, at the ends).
double curvature_at(const std::vector<Path::Knot>& knots, std::size_t i, double h) {
  const std::size_t last = knots.size() - 1;
  const auto s = [&](std::size_t k) { return knots[k].slope; };
  if (i >= 2 && i + 2 <= last) return (s(i - 2) - 8 * s(i - 1) + 8 * s(i + 1) - s(i + 2)) / (12 * h);
  if (i < 2) {
    if (i == 0) return (-11 * s(0) + 18 * s(1) - 9 * s(2) + 2 * s(3)) / (6 * h);
    return (-2 * s(0) - 3 * s(1) + 6 * s(2) - s(3)) / (6 * h);
  }
  if (i == last) return (11 * s(last) - 18 * s(last - 1) + 9 * s(last - 2) - 2 * s(last - 3)) / (6 * h);
  return (2 * s(last) + 3 * s(last - 1) - 6 * s(last - 2) + s(last - 3)) / (6 * h);
}

/// What two solved neighbours lead on to at the next even step: a start one iteration nearer than the last of them.
Shape ahead(const Shape& before, const Shape& now) {
  Shape next = now;
  for (int i = 0; i <= now.loads; ++i) {
    next.pieces[i].unstretched_m += now.pieces[i].unstretched_m - before.pieces[i].unstretched_m;
    next.pieces[i].H_N += now.pieces[i].H_N - before.pieces[i].H_N;
    next.pieces[i].V_N += now.pieces[i].V_N - before.pieces[i].V_N;
  }
  return next;
}

}  // namespace

struct Path::Between {
  const Knot& a;
  const Knot& b;
  double h, t;

  Jet height() const { return quintic({a.z_m, a.slope, a.curvature}, {b.z_m, b.slope, b.curvature}, h, t); }
  Jet potential() const {
    return quintic({a.potential_J, -a.drive_force_N, -a.drive_slope_N_per_m},
                   {b.potential_J, -b.drive_force_N, -b.drive_slope_N_per_m}, h, t);
  }
};

Path::Between Path::between(double x_m) const {
  const double h = knots_[1].x_m - knots_[0].x_m;
  // Outside the solved stretch there is no track: t is then NaN, and so is whatever is asked for.
  const bool inside = x_m >= from_m() && x_m <= to_m();
  const auto i = inside ? std::min(static_cast<std::size_t>((x_m - from_m()) / h), knots_.size() - 2) : 0;
  return {knots_[i], knots_[i + 1], h, inside ? (x_m - knots_[i].x_m) / h : std::nan("")};
}

Path::Point Path::continued(double x_m) const {
  if (x_m < from_m()) return beyond(knots_.front(), x_m);
  if (x_m > to_m()) return beyond(knots_.back(), x_m);
  const Between here = between(x_m);
  const Jet z = here.height(), potential = here.potential();
  return {z.f, z.d, z.dd, potential.f, -potential.d, here.a.H_N + here.t * (here.b.H_N - here.a.H_N)};
}

Path::Point Path::beyond(const Knot& end, double x_m) {
  const double dx = x_m - end.x_m, drive = end.drive_force_N + dx * end.drive_slope_N_per_m;
  return {end.z_m + dx * (end.slope + dx * end.curvature / 2),
          end.slope + dx * end.curvature,
          end.curvature,
          end.potential_J - dx * (end.drive_force_N + drive) / 2,
          drive,
          end.H_N};
}

double Path::height_m(double x_m) const { return between(x_m).height().f; }
double Path::slope(double x_m) const { return between(x_m).height().d; }
double Path::curvature(double x_m) const { return between(x_m).height().dd; }
double Path::potential_J(double x_m) const { return between(x_m).potential().f; }
double Path::drive_force_N(double x_m) const { return -between(x_m).potential().d; }
double Path::tau_rad(double x_m) const { return std::atan(-drive_force_N(x_m) / weight_N_); }

std::vector<double> Path::rest_points_m() const {
  std::vector<double> rest;
  for (std::size_t i = 0; i + 1 < knots_.size(); ++i) {
    if (!(knots_[i].drive_force_N > 0 && knots_[i + 1].drive_force_N <= 0)) continue;
    double from = knots_[i].x_m, to = knots_[i + 1].x_m;
    for (int halvings = 0; halvings < 60; ++halvings) {
      const double middle = from + (to - from) / 2;
      (drive_force_N(middle) > 0 ? from : to) = middle;
    }
    rest.push_back(to);
  }
  return rest;
}

Solved<Path> Path::solve(const Cable& cable, double weight_N, double from_m, double to_m, int knots,
                         std::optional<Load> resting) {
  if (!(from_m < to_m) || knots < 4) return unsolved("a path needs a stretch of line and four knots", to_m - from_m);
  Path path;
  path.weight_N_ = weight_N;
  const double h = (to_m - from_m) / (knots - 1);
  path.knots_.reserve(static_cast<std::size_t>(knots));
  Shape last, near;
  for (int i = 0; i < knots; ++i) {
    const Load loads[] = {{i + 1 < knots ? from_m + h * i : to_m, weight_N}, resting.value_or(Load{})};
    Sensitivity answers;
    const auto shape = hang_rolling(cable, std::span(loads, resting ? 2 : 1), i > 0 ? &near : nullptr, answers);
    if (!shape) return tl::unexpected(shape.error());
    near = i > 0 ? ahead(last, *shape) : *shape;
    last = *shape;
    const Wheel& wheel = shape->wheels[0];
    Knot knot;
    knot.x_m = wheel.x_m;
    knot.z_m = wheel.z_m;
    knot.slope = answers.slope;
    knot.tau_rad = wheel.tau_rad;
    knot.H_N = shape->pieces[0].H_N;
    knot.drive_force_N = wheel.force_x_N;
    knot.drive_slope_N_per_m = answers.force_slope_N_per_m;
    if (!path.knots_.empty()) {
      // The driving force and its slope are exact at the knots; their integral is the potential, to h5 Q''''/720.
      const Knot& before = path.knots_.back();
      knot.potential_J = before.potential_J - h / 2 * (before.drive_force_N + knot.drive_force_N) -
                         h * h / 12 * (before.drive_slope_N_per_m - knot.drive_slope_N_per_m);
    }
    path.knots_.push_back(knot);
  }
  for (std::size_t i = 0; i < path.knots_.size(); ++i) path.knots_[i].curvature = curvature_at(path.knots_, i, h);
  return path;
}

}  // namespace fairlead::mainline
