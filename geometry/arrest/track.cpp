#include "geometry/arrest/track.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/arrest/spline.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

/// Between knots: half the step of the sweeps' poses at their coarsest, which near the redirect is theirs too.
constexpr double longest_step_m = 0.25;

std::vector<double> even_travels(double travel_m) {
  const int steps = std::max(4, static_cast<int>(std::ceil(travel_m / longest_step_m)));
  std::vector<double> at;
  for (int i = 0; i <= steps; ++i) at.push_back(travel_m * i / steps);
  return at;
}

/// What one sweep says at even travels from the mark on.
struct Sampled {
  std::vector<double> hold_N, tension_N, extension_m, height_m, lift_N;
};

Sampled sample(const reeving::Inputs& in, const reeving::Sweep& sweep, const std::vector<double>& at) {
  std::vector<double> x, hold, tension, extension, height, lift;
  for (std::size_t p = static_cast<std::size_t>(sweep.rest_pose); p < sweep.poses.size(); ++p) {
    const reeving::Pose& pose = sweep.poses[p];
    x.push_back(pose.travel_m);
    hold.push_back(dot(pose.hold_N, in.along));
    tension.push_back(pose.outlet_tension_N);
    extension.push_back(pose.extension_m);
    height.push_back(dot(pose.trolley - in.origin, in.up));
    lift.push_back(dot(pose.pull_on_trolley_N, std::cos(pose.tau_rad) * in.up - std::sin(pose.tau_rad) * in.along));
  }
  return {resampled(x, hold, at), resampled(x, tension, at), resampled(x, extension, at), resampled(x, height, at),
          resampled(x, lift, at)};
}

/// Mass of the lines and blocks as felt along x at the mark, kg: squares of how far each runs along itself per metre of
/// travel, by the cubic through the first poses. A leg runs as the line passes the sheave at whichever of its ends
/// stands still.
double moving_lines_kg(const reeving::Inputs& in, const reeving::Sweep& sweep) {
  const auto rest = static_cast<std::size_t>(sweep.rest_pose);
  const std::size_t legs = in.legs(), blocks = in.blocks.size();
  std::array<double, 4> at{};
  for (std::size_t i = 0; i < at.size(); ++i) at[i] = sweep.poses[rest + i].travel_m;
  const auto per_m = [&](const auto& of) {
    std::array<double, 4> values{};
    for (std::size_t i = 0; i < values.size(); ++i) values[i] = of(rest + i);
    return end_slope(at, values);
  };
  const auto leg = [&](std::size_t pose, std::size_t i) -> const reeving::Leg& { return sweep.legs[pose * legs + i]; };
  const auto still = [&](std::size_t sheave) { return in.sheaves[sheave].body == reeving::on_ground; };
  double sum = 0;
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    const reeving::Line& line = in.lines[l];
    const bool drawn = static_cast<int>(l) == in.pulling;
    // Line that has run past the leg's `from` end: of the line on the trolley what the trolley took along, less what
    // the legs before lengthened by; of one on a block likewise the block's way, which its first leg's change tells.
    double passed = drawn ? 1 : 0;
    for (int k = 0; k <= line.sheaves; ++k) {
      const std::size_t i = in.legs_before(l) + static_cast<std::size_t>(k);
      const double longer = per_m([&](std::size_t pose) { return leg(pose, i).length_m; });
      const auto off = static_cast<std::size_t>(line.first_sheave + k), on = off - 1;
      const bool from_still = k > 0 ? still(on) : line.from.body == reeving::on_ground,
                 to_still = k < line.sheaves ? still(off) : line.to.body == reeving::on_ground;
      const double after = drawn && k == 0 ? longer : passed + longer;
      const double speed = from_still ? passed : to_still ? after : (passed + after) / 2;
      sum += leg(rest, i).weight_N / standard_gravity * speed * speed;
      passed = after;
    }
  }
  for (std::size_t b = 0; b < blocks; ++b) {
    const auto along = [&](const Vec3& axis) {
      return per_m(
          [&](std::size_t pose) { return dot(sweep.blocks[pose * blocks + b].centre_of_mass - in.origin, axis); });
    };
    const double squared =
        std::pow(along({1, 0, 0}), 2) + std::pow(along({0, 1, 0}), 2) + std::pow(along({0, 0, 1}), 2);
    sum += in.blocks[b].weight_N / standard_gravity * squared;
  }
  return sum;
}

}  // namespace

double pressing_N(const TrackPoint& at, double mass_kg, double vv, double tension_N) {
  return mass_kg * (standard_gravity + at.curvature * vv) / std::sqrt(1 + at.slope * at.slope) - at.lift * tension_N;
}

Solved<Track> Track::through(double step_m, const Values& values) {
  const std::size_t knots = values[drive].size();
  std::vector<double> x(knots);
  for (std::size_t i = 0; i < knots; ++i) x[i] = step_m * static_cast<double>(i);
  Track track;
  track.step_m_ = step_m;
  track.to_m_ = x.back();
  track.cells_.resize(knots - 1);
  for (std::size_t f = 0; f < functions; ++f) {
    const std::vector<double>& y = values[f];
    for (const double value : y)
      if (!std::isfinite(value)) return unsolved("the arrest zone has a pose without a number", value);
    const std::vector<double> slope = spline_slopes(x, y);
    for (std::size_t i = 0; i + 1 < knots; ++i) {
      const double rise = y[i + 1] - y[i], a = step_m * slope[i], b = step_m * slope[i + 1];
      auto& [c0, c1, c2, c3] = track.cells_[i].power;
      c0[f] = y[i], c1[f] = a, c2[f] = 3 * rise - 2 * a - b, c3[f] = a + b - 2 * rise;
    }
  }
  double potential = 0;
  for (Cell& cell : track.cells_) {
    const auto& [c0, c1, c2, c3] = cell.power;
    cell.potential_J = potential;
    potential -= step_m * (c0[drive] + c1[drive] / 2 + c2[drive] / 3 + c3[drive] / 4);
  }
  return track;
}

Track::Place Track::place(double x_m) const {
  // Where there is no track t is NaN, and so is whatever is asked for.
  if (!(x_m >= -margin_m && x_m <= to_m_ + margin_m)) return {0, std::nan("")};
  const std::size_t cell = x_m <= 0 ? 0 : std::min(static_cast<std::size_t>(x_m / step_m_), cells_.size() - 1);
  return {cell, x_m / step_m_ - static_cast<double>(cell)};
}

TrackPoint Track::at(double x_m) const {
  const Place here = place(x_m);
  const auto& [c0, c1, c2, c3] = cells_[here.cell].power;
  const double t = here.t, per_m = 1 / step_m_;
  std::array<double, functions> value, rate;
  for (std::size_t f = 0; f < functions; ++f) {
    value[f] = c0[f] + t * (c1[f] + t * (c2[f] + t * c3[f]));
    rate[f] = (c1[f] + t * (2 * c2[f] + t * 3 * c3[f])) * per_m;
  }
  return {.drive_N = value[drive],
          .pull = value[pull],
          .pull_back = value[pull_back],
          .extension_m = value[extension],
          .give_m_per_N = value[give],
          .pay_out = rate[extension],
          .give_slope = rate[give],
          .lift = value[lift],
          .slope = rate[height],
          .curvature = (2 * c2[height] + t * 6 * c3[height]) * per_m * per_m,
          .inertia_kg = value[inertia],
          .inertia_slope = rate[inertia]};
}

double Track::potential_J(double x_m) const {
  const auto [i, t] = place(x_m);
  const auto& [c0, c1, c2, c3] = cells_[i].power;
  return cells_[i].potential_J -
         step_m_ * t * (c0[drive] + t * (c1[drive] / 2 + t * (c2[drive] / 3 + t * c3[drive] / 4)));
}

Solved<Track> Track::from_sweeps(const reeving::Inputs& in, const reeving::Sweep& rest, const reeving::Sweep& peak,
                                 const reeving::Sweep* returning, double moving_mass_kg) {
  const std::vector<double> at = even_travels(in.travel_m);
  const Sampled low = sample(in, rest, at), high = sample(in, peak, at);
  const Sampled back = returning ? sample(in, *returning, at) : low;
  Values values;
  for (std::vector<double>& v : values) v.resize(at.size());
  const double lines_kg = moving_lines_kg(in, rest);
  for (std::size_t i = 0; i < at.size(); ++i) {
    const double more_N = high.tension_N[i] - low.tension_N[i];
    if (!(more_N > 0))
      return unsolved(fmt::format("the unit's drag adds nothing to its retraction at travel {:.3f} m", at[i]), more_N);
    // What holds the trolley is what it lacks for equilibrium: minus the force along x.
    values[pull][i] = (high.hold_N[i] - low.hold_N[i]) / more_N;
    values[drive][i] = -low.hold_N[i] + low.tension_N[i] * values[pull][i];
    values[pull_back][i] = (back.hold_N[i] + values[drive][i]) / back.tension_N[i];
    values[give][i] = (high.extension_m[i] - low.extension_m[i]) / more_N;
    values[extension][i] = low.extension_m[i] - low.tension_N[i] * values[give][i];
    values[lift][i] = high.lift_N[i] / high.tension_N[i];
    values[height][i] = low.height_m[i];
  }
  const double step_m = at[1];
  const std::vector<double> pay_out = spline_slopes(at, low.extension_m);
  for (std::size_t i = 0; i < at.size(); ++i) values[inertia][i] = lines_kg + moving_mass_kg * pay_out[i] * pay_out[i];
  return through(step_m, values);
}

Solved<Track> Track::empty(const reeving::Inputs& in, const reeving::Sweep& returning, const mainline::Path& path,
                           double moving_mass_kg) {
  const std::vector<double> at = even_travels(in.travel_m);
  const Sampled low = sample(in, returning, at);
  Values values;
  for (std::vector<double>& v : values) v.resize(at.size());
  const double lines_kg = moving_lines_kg(in, returning);
  const std::vector<double> pay_out = spline_slopes(at, low.extension_m);
  for (std::size_t i = 0; i < at.size(); ++i) {
    values[drive][i] = path.drive_force_N(in.rest_m + at[i]);
    values[pull][i] = values[pull_back][i] = (low.hold_N[i] + values[drive][i]) / low.tension_N[i];
    values[extension][i] = low.extension_m[i];
    values[lift][i] = low.lift_N[i] / low.tension_N[i];
    values[height][i] = low.height_m[i];
    values[inertia][i] = lines_kg + moving_mass_kg * pay_out[i] * pay_out[i];
  }
  return through(at[1], values);
}

Solved<Track> Track::plain(const Plain& p) {
  if (!(p.ratio > 0 && p.efficiency > 0 && p.efficiency <= 1 && p.travel_m > 0))
    return unsolved("an ideal reduction needs a ratio, an efficiency up to 1 and a travel above 0", p.ratio);
  const std::vector<double> at = even_travels(p.travel_m);
  Values values;
  // A load on a straight line: its wheel's slope is that of the line, and the line carries it at weight times it.
  for (const double x : at) {
    values[drive].push_back(-p.weight_N * p.slope);
    values[pull].push_back(1 / (p.ratio * p.efficiency));
    values[pull_back].push_back(p.efficiency / p.ratio);
    values[extension].push_back(p.rest_extension_m + x / p.ratio);
    values[give].push_back(0);
    values[lift].push_back(0);
    values[height].push_back(p.slope * x);
    values[inertia].push_back(p.inertia_kg);
  }
  return through(at[1], values);
}

Track Track::with_ratio(double from, double to, double rest_extension_m) const {
  Track other = *this;
  const double share = from / to;
  for (Cell& cell : other.cells_) {
    cell.power[0][extension] -= rest_extension_m;
    for (auto& power : cell.power)
      for (const Function f : {pull, pull_back, give, extension}) power[f] *= share;
    cell.power[0][extension] += rest_extension_m;
  }
  return other;
}

}  // namespace fairlead::arrest
