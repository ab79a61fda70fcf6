#include "geometry/asbuilt/line_shots.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "geometry/mainline/worst.hpp"
#include "geometry/rig/inputs.hpp"
#include "geometry/survey/fit.hpp"

namespace fairlead {
namespace {

using mainline::Cable;
using mainline::MeasuredAt;

/// Beyond this share of itself the tension is open.
constexpr double open_share = 0.2;
/// As geometry/survey takes it: a thousandth of good observations is doubted (BAARDA68).
constexpr double unlikely = 0.001;

/// The bare line at a horizontal tension, with its length.
Solved<Cable> hung_at(Cable line, double H_N) {
  const auto length_m = mainline::length_from_tension(line.span_m, line.rise_m, line.weight_N_per_m,
                                                      line.compliance_per_N, H_N, MeasuredAt::horizontal);
  if (!length_m) return tl::unexpected(length_m.error());
  line.unstretched_m = *length_m;
  return line;
}

Solved<std::vector<mainline::LinePoint>> points_on(const Cable& line, double H_N,
                                                   const std::vector<ShotOnPlane>& shots) {
  const auto hung = hung_at(line, H_N);
  if (!hung) return tl::unexpected(hung.error());
  const auto shape = mainline::hang(*hung);
  if (!shape) return tl::unexpected(shape.error());
  std::vector<mainline::LinePoint> points;
  for (const ShotOnPlane& shot : shots) points.push_back(mainline::line_at(*hung, *shape, shot.x_m));
  return points;
}

/// Rows of a symmetric matrix of three unknowns.
struct Normal {
  std::array<Vec3, 3> rows{};
  Vec3 right;

  void add(Vec3 slopes, double left) {
    rows[0] += slopes.x * slopes;
    rows[1] += slopes.y * slopes;
    rows[2] += slopes.z * slopes;
    right += left * slopes;
  }
  double determinant() const { return dot(rows[0], cross(rows[1], rows[2])); }
  Vec3 solution() const {
    const Vec3 sum =
        right.x * cross(rows[1], rows[2]) + right.y * cross(rows[2], rows[0]) + right.z * cross(rows[0], rows[1]);
    return (1 / determinant()) * sum;
  }
  double first_variance() const { return cross(rows[1], rows[2]).x / determinant(); }
};

class ShotFit {
 public:
  ShotFit(const Cable& line, MeasuredAt at, const std::vector<ShotOnPlane>& shots, double u_m)
      : line_(line), at_(at), shots_(shots), u_m_(u_m) {}

  /// The sag is as good as straight in q, one over the horizontal tension: a few steps of Gauss and Newton settle it.
  /// In parts of the first q, so that the three unknowns have one size.
  Solved<LineByShots> fit() {
    double q = first();
    if (!(std::isfinite(q) && q > 0))
      return unsolved("the shots lie on or above the straight line between the supports", q);
    const double part = q;
    double start_up_m = 0, end_up_m = 0;
    constexpr int most_iterations = 30;
    for (int i = 0; i < most_iterations; ++i) {
      const auto on = points_on(line_, 1 / q, shots_);
      if (!on) return tl::unexpected(on.error());
      constexpr double small = 1e-4;
      const auto more = points_on(line_, 1 / (q * (1 + small)), shots_),
                 less = points_on(line_, 1 / (q * (1 - small)), shots_);
      if (!more || !less) return tl::unexpected(more ? less.error() : more.error());
      Normal normal;
      normal.add({0, 1 / support_u_m(), 0}, -start_up_m / support_u_m());
      normal.add({0, 0, 1 / support_u_m()}, -end_up_m / support_u_m());
      for (std::size_t s = 0; s < shots_.size(); ++s) {
        const double u = u_m_ * std::hypot(1, (*on)[s].slope), share = shots_[s].x_m / line_.span_m;
        const double above_m = shots_[s].z_m - (*on)[s].z_m - start_up_m * (1 - share) - end_up_m * share;
        const double slope = ((*more)[s].z_m - (*less)[s].z_m) / (2 * small) * part / q;
        normal.add({slope / u, (1 - share) / u, share / u}, above_m / u);
      }
      const Vec3 step = normal.solution();
      q += part * step.x;
      start_up_m += step.y;
      end_up_m += step.z;
      if (!(q > 0)) return unsolved("the shots leave the tension open", q, i);
      constexpr double still = 1e-10;
      if (std::abs(step.x) <= still && std::abs(step.y) + std::abs(step.z) <= still)
        return told(q, start_up_m, end_up_m, std::sqrt(normal.first_variance()) * part / q);
    }
    return unsolved("the line through the shots does not settle", 0, most_iterations);
  }

 private:
  double support_u_m() const { return u_m_ * std::hypot(1, line_.rise_m / line_.span_m); }

  /// Of the parabola.
  double first() const {
    double over = 0, under = 0;
    const double weight = line_.weight_N_per_m * std::hypot(1, line_.rise_m / line_.span_m);
    for (const ShotOnPlane& shot : shots_) {
      const double hangs = weight * shot.x_m * (line_.span_m - shot.x_m) / 2;
      over += hangs * (line_.rise_m * shot.x_m / line_.span_m - shot.z_m);
      under += hangs * hangs;
    }
    return over / under;
  }

  Solved<LineByShots> told(double q, double start_up_m, double end_up_m, double share) const {
    if (!(share <= open_share))
      return unsolved(
          fmt::format("the shots leave the tension open by {:.0f} %, one standard uncertainty", 100 * share), share);
    const auto hung = hung_at(line_, 1 / q);
    const auto on = points_on(line_, 1 / q, shots_);
    if (!hung || !on) return tl::unexpected(hung ? on.error() : hung.error());
    const auto shape = mainline::hang(*hung);
    if (!shape) return tl::unexpected(shape.error());
    LineByShots out{.horizontal_N = 1 / q, .tension_N = mainline::tension_at(*hung, *shape, at_)};
    out.uncertainty_N = share * out.tension_N;
    const auto square = [](double v) { return v * v; };
    out.chi_squared = square(start_up_m / support_u_m()) + square(end_up_m / support_u_m());
    double most = 0;
    for (std::size_t s = 0; s < shots_.size(); ++s) {
      const double u = u_m_ * std::hypot(1, (*on)[s].slope), part = shots_[s].x_m / line_.span_m;
      out.above_m.push_back(shots_[s].z_m - (*on)[s].z_m - start_up_m * (1 - part) - end_up_m * part);
      const double off = std::abs(out.above_m.back()) / u;
      out.chi_squared += off * off;
      if (off > most) {
        most = off;
        out.worst = static_cast<int>(s);
      }
      // Both supports, between which the plane stands, are off as much as the shot.
      const double plane_u = u_m_ * std::sqrt(1 + square(1 - part) + square(part));
      if (out.aside < 0 && !(std::abs(shots_[s].across_m) <= rejected_beyond * plane_u))
        out.aside = static_cast<int>(s);
    }
    out.redundancy = static_cast<int>(shots_.size()) - 1;
    out.probability = chi_squared_tail(out.chi_squared, out.redundancy);
    out.agrees = out.aside < 0 && out.probability >= unlikely;
    return out;
  }

  Cable line_;
  MeasuredAt at_;
  const std::vector<ShotOnPlane>& shots_;
  double u_m_;
};

}  // namespace

Solved<LineByShots> line_by_shots(const Cable& line, MeasuredAt at, const std::vector<ShotOnPlane>& shots, double u_m) {
  if (shots.empty()) return unsolved("no point was shot on the main line");
  if (!(u_m > 0)) return unsolved("the uncertainty of the points is not known", u_m);
  for (const ShotOnPlane& shot : shots)
    if (!(shot.x_m > 0 && shot.x_m < line.span_m && std::isfinite(shot.z_m) && std::isfinite(shot.across_m)))
      return unsolved("a shot on the main line stands beyond its supports", shot.x_m);
  return ShotFit(line, at, shots, u_m).fit();
}

Solved<LineByShots> line_by_shots(const Layout& layout, const std::vector<Point3>& at, double u_m) {
  const Frame frame = frame_of(layout);
  std::vector<std::string> assumptions;
  const auto inputs = main_line_inputs(layout, frame, assumptions);
  if (!inputs) return tl::unexpected(inputs.error());
  std::vector<ShotOnPlane> shots;
  for (const Point3& p : at) {
    const Vec3 from = p - frame.origin;
    shots.push_back({dot(from, frame.along), dot(from, frame.up), dot(from, frame.across)});
  }
  // Stretch thins the line by T/EA, about a thousandth; that share of how far EA is open is all that the middle errs
  // by.
  const double compliance = (inputs->compliance_per_N.low + inputs->compliance_per_N.high) / 2;
  const Cable line{frame.span_m, frame.rise_m, 0, inputs->mass_kg_per_m * standard_gravity, compliance};
  return line_by_shots(line, inputs->measured_at, shots, u_m);
}

std::string disagreement(const LineByShots& line, const std::vector<ShotOnLine>& ids) {
  if (line.agrees) return {};
  if (line.aside >= 0)
    return fmt::format("{} stands aside of the plane through the supports: it is not on the line, or wind blew",
                       ids.at(static_cast<std::size_t>(line.aside)).id);
  return fmt::format("the shots lie on no one catenary within the stated uncertainty, {} the least, {:.1f} mm off",
                     ids.at(static_cast<std::size_t>(line.worst)).id,
                     1000 * line.above_m.at(static_cast<std::size_t>(line.worst)));
}

}  // namespace fairlead
