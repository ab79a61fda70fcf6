#include "geometry/reeving/search.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/reeving/start.hpp"

namespace fairlead::reeving {
namespace {

using Step = std::array<double, Square::most>;

double greatest_size(std::span<const double> values) {
  double greatest = 0;
  for (const double v : values) greatest = greater(greatest, std::abs(v));
  return greatest;
}

/// Whether a symmetric matrix of n rows has no eigenvalue below minus `rounding` of its trace: its factors exist.
bool positive(Square m, double rounding) {
  const int n = m.size();
  double trace = 0;
  for (int i = 0; i < n; ++i) trace += m(i, i);
  for (int i = 0; i < n; ++i) m(i, i) += rounding * trace;
  for (int k = 0; k < n; ++k) {
    if (!(m(k, k) > 0)) return false;
    for (int i = k + 1; i < n; ++i)
      for (int j = k + 1; j <= i; ++j) m(i, j) -= m(i, k) * m(j, k) / m(k, k);
  }
  return true;
}

/// The direction of a line, one of its two: the greatest part positive, and nothing that would be printed as zero.
Vec3 line_of(Vec3 v) {
  v = unit(v);
  double greatest = v.x;
  for (const double part : {v.y, v.z})
    if (std::abs(part) > std::abs(greatest)) greatest = part;
  const auto part = [&](double c) { return std::abs(c) < 5e-4 ? 0 : std::copysign(1, greatest) * c; };
  return {part(v.x), part(v.y), part(v.z)};
}

}  // namespace

double Search::imbalance() const {
  double sum = 0;
  for (const double r : balance_.residual()) sum += r * r;
  return std::sqrt(sum);
}

/// Takes the step, or as much of it as brings the balance nearer; the lines hang there afterwards.
bool Search::take(std::span<const double> step, double least_part) {
  const Unknowns from = balance_.unknowns();
  const double before = imbalance();
  for (double part = balance_.allowed(step); part >= least_part; part /= 2) {
    balance_.advance(step, part);
    // Below rounding nothing gets nearer any more.
    constexpr double rounding = 1e-11;
    if (balance_.hang() && imbalance() <= std::max((1 - 1e-3 * part) * before, rounding)) return true;
    balance_.set(from);
  }
  return false;
}

bool Search::newton() {
  constexpr int most_steps = 60;
  constexpr double met = 1e-11, settled = 1e-9, least_part = 1e-6;
  if (!balance_.hang()) return false;
  Step store;
  for (steps_ = 0; steps_ < most_steps; ++steps_) {
    const std::span<double> step{store.data(), std::size_t(balance_.size())};
    balance_.answer(jacobian_);
    jacobian_.factor();
    for (std::size_t i = 0; i < step.size(); ++i) step[i] = -balance_.residual()[i];
    miss_ = greatest_size(step);
    jacobian_.solve(step);
    // What is unmet by so little moves nothing: the next step would be a rounding.
    if (miss_ <= met && greatest_size(step) <= settled) return true;
    if (!take(step, least_part)) return false;
  }
  return false;
}

bool Search::relax() {
  constexpr int most_steps = 1000;
  constexpr double near = 1e-6, nearly = 1e-3, thick = 1, arm_m = 0.3, nudge_rad = 0.3;
  if (!balance_.hang()) return false;
  double friction = thick;  // of force_N, per metre of a step
  Step store;
  for (steps_ = 0; steps_ < most_steps; ++steps_) {
    const std::span<double> step{store.data(), std::size_t(balance_.size())};
    balance_.answer(jacobian_);
    Square damped = jacobian_;
    jacobian_.factor();
    const bool holds = stable();
    const double before = imbalance();
    if (before <= near && (holds || indifferent())) return true;
    const Unknowns from = balance_.unknowns();
    if (!holds && before <= nearly && !indifferent()) {
      // All but at rest on a ridge, where it would take long to leave: a push off it, no matter where to.
      std::fill(step.begin(), step.end(), 0.0);
      for (int b = 0; b < int(in_.blocks.size()); ++b)
        for (int i = 0; i < balance_.freedoms(b); ++i)
          step[balance_.first_of(b) + i] = (i < balance_.shifts(b) ? arm_m : 1) * nudge_rad / (1 + i % 3);
      friction = thick;
    } else {
      for (int b = 0; b < int(in_.blocks.size()); ++b)
        for (int i = 0; i < balance_.freedoms(b); ++i) {
          const int row = balance_.first_of(b) + i;
          damped(row, row) -= i < balance_.shifts(b) ? friction : arm_m * arm_m * friction;
        }
      damped.factor();
      for (std::size_t i = 0; i < step.size(); ++i) step[i] = -balance_.residual()[i];
      damped.solve(step);
    }
    bool moved = false;
    for (double part = balance_.allowed(step); part > 1e-6 && !moved; part /= 2) {
      balance_.advance(step, part);
      moved = balance_.hang().has_value();
      if (!moved) balance_.set(from);
    }
    if (!moved) return false;
    // Thin out only where the way down ends in a hollow: a thin fluid also comes to rest on a ridge.
    friction = holds ? friction * std::clamp(imbalance() / before, 0.2, 2.0) : thick;
  }
  return false;
}

bool Search::stable() {
  if (in_.blocks.empty()) return true;
  if (balance_.resting()) {
    balance_.answer(jacobian_, true);
    jacobian_.factor();
  }
  const int first = balance_.first_of(0), n = balance_.tension_of(0) - first;
  Square gives;
  gives.clear(n);
  Step store;
  const std::span<double> column{store.data(), std::size_t(balance_.size())};
  for (int j = 0; j < n; ++j) {
    std::fill(column.begin(), column.end(), 0.0);
    column[first + j] = -1;
    jacobian_.solve(column);
    for (int i = 0; i < n; ++i) {
      gives(i, j) += column[first + i] / 2;
      gives(j, i) += column[first + i] / 2;
    }
  }
  // Fleet angles take a little symmetry from it: directions that give nothing may seem to give a little backward.
  return positive(gives, 1e-6);
}

std::optional<Unsolved> Search::indifferent() {
  // The blocks' answer to a push each way; where a billionth of the forces moves one by a metre, nothing holds it.
  constexpr double most_give_m = 1e9;
  Step store;
  const std::span<double> column{store.data(), std::size_t(balance_.size())};
  for (int b = 0; b < int(in_.blocks.size()); ++b)
    for (int i = 0; i < balance_.freedoms(b); ++i) {
      std::fill(column.begin(), column.end(), 0.0);
      column[balance_.first_of(b) + i] = 1;
      jacobian_.solve(column);
      const double give = greatest_size(column);
      if (give < most_give_m) continue;
      for (int other = 0; other < int(in_.blocks.size()); ++other) {
        const Vec3 shift = (1 / give) * balance_.move_of(other, column).shift;
        if (norm(shift) > 1e-3) {
          const Vec3 way = line_of(shift);
          return Unsolved{
              fmt::format("{} can stand anywhere along ({:.3f}, {:.3f}, {:.3f}) at travel {:.3f} m: the rig is "
                          "indifferent",
                          block_name(other), way.x, way.y, way.z, travel_m_),
              give, steps_};
        }
      }
      return Unsolved{
          fmt::format("{} can turn freely at travel {:.3f} m: the rig is indifferent", block_name(b), travel_m_), give,
          steps_};
    }
  return std::nullopt;
}

bool Search::go_on(double from_m) {
  // Both poses beyond the mark: on along the tangent.
  if (from_m >= 0 && travel_m_ >= 0) {
    const double by_m = travel_m_ - from_m;
    Step store;
    const std::span<double> step{store.data(), std::size_t(balance_.size())};
    step[0] = at_.rates.carried_N_per_m / balance_.force_N();
    for (int l = 0; l < int(in_.lines.size()); ++l)
      step[balance_.tension_of(l)] = at_.rates.tension_N_per_m[l] / balance_.force_N();
    for (int b = 0; b < int(in_.blocks.size()); ++b) {
      const Move& m = at_.rates.blocks[b];
      double* d = &step[balance_.first_of(b)];
      if (balance_.shifts(b) > 0) d[0] = m.shift.x, d[1] = m.shift.y, d[2] = m.shift.z;
      for (int i = 0; i < balance_.turns(b); ++i) d[balance_.shifts(b) + i] = dot(balance_.turn_axis(b, i), m.turn);
    }
    for (double& s : step) s *= by_m;
    balance_.advance(step, balance_.allowed(step));
  }
  return newton() && stable();
}

void Search::place_start() {
  at_.shape = {};
  for (std::size_t b = 0; b < in_.blocks.size(); ++b)
    at_.lines.blocks[b] = {Point3{} + (in_.blocks[b].drawn - in_.origin)};
  for (MetLeg& leg : at_.lines.legs) leg = {};
  at_.carried_N = balance_.weight_N();
  // Only the main line is asked: it says where the attachment is.
  balance_.hang();
  const Point3 attachment = at_.lines.attachment + at_.lines.counted_from;
  const PointStart start = start_on_points(in_, sweep_, outlet_, attachment, balance_.force_N());
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) at_.lines.blocks[b].at = at_.lines.blocks[b].at + start.shift[b];
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    Tension& t = at_.lines.tension[l];
    t.at_N = start.tension_N[l];
    // A line with nothing but its own weight: of a parabola's length over its chord, 8/3 sag^2 / chord, sag w chord^2 /
    // 8 T.
    if (const double chord = norm(in_.lines[l].to.at - in_.lines[l].from.at); start.spare_m[l] > 0)
      t.at_N = std::max(t.at_N, t.weight_N_per_m * chord * std::sqrt(chord / (24 * start.spare_m[l])));
  }
  spare_m_ = start.spare_m;
}

/// Pulls harder on all lines, but for a held one, until they hang.
bool Search::tauten() {
  constexpr int most = 8;
  for (int i = 0; i < most; ++i) {
    if (balance_.hang()) return true;
    for (int l = 0; l < int(in_.lines.size()); ++l)
      if (l != in_.braking || !outlet_.held_tension_N) at_.lines.tension[l].at_N *= 1.5;
  }
  return false;
}

/// From point sheaves and weightless lines to what they are, in as long strides as succeed.
bool Search::grow() {
  place_start();
  balance_.count(0);
  if (!newton()) return false;
  constexpr double least = 1.0 / 128;
  double share = 0, stride = 1;
  while (share < 1) {
    const Unknowns from = balance_.unknowns();
    const double next = std::min(1.0, share + stride);
    balance_.count(next);
    if (newton()) {
      share = next;
      continue;
    }
    balance_.set(from);
    stride /= 2;
    if (stride < least) return false;
  }
  return true;
}

Unsolved Search::why_not() {
  const double carried_N = at_.carried_N, weight_N = balance_.weight_N();
  if (carried_N <= 1e-5 * weight_N)
    return {fmt::format("the braking line lifts the brake trolley off the main line at travel {:.3f} m: it pulls up "
                        "with {:.4g} N, and {:.4g} N weigh on its wheel; a heavier trolley, a lower redirect or less "
                        "pull at rest would help",
                        travel_m_, weight_N - carried_N, weight_N),
            weight_N - carried_N, steps_};
  constexpr double spare_m = 0.02, hardly = 0.01;
  for (int l = 0; l < int(in_.lines.size()); ++l)
    if (at_.lines.tension[l].weight_N_per_m == 0 && spare_m_[l] > spare_m &&
        at_.lines.tension[l].at_N < hardly * balance_.force_N())
      return {fmt::format("line {} hangs slack at travel {:.3f} m: it is {:.3f} m longer than its way", l + 1,
                          travel_m_, spare_m_[l]),
              spare_m_[l], steps_};
  constexpr double nothing = 1e-6;
  for (int l = 0; l < int(in_.lines.size()); ++l)
    if (at_.lines.tension[l].at_N < nothing * balance_.force_N())
      return {fmt::format("line {} goes slack at travel {:.3f} m", l + 1, travel_m_), at_.lines.tension[l].at_N,
              steps_};
  balance_.count(1);
  if (auto hung = balance_.hang(); !hung) return hung.error();
  return {fmt::format("no balance of lines and blocks was found at travel {:.3f} m", travel_m_), imbalance(), steps_};
}

tl::expected<void, Unsolved> Search::begin() {
  const bool turning = std::any_of(in_.blocks.begin(), in_.blocks.end(), [](const Block& b) { return b.turns() > 0; });
  balance_.release(false);
  balance_.count(1);
  place_start();
  if (!(tauten() && newton()) && (in_.blocks.empty() || !grow())) {
    const Unsolved why = why_not();
    // A rig without one answer has none for Newton's iteration.
    place_start();
    if (!in_.blocks.empty() && tauten() && relax())
      if (auto loose = indifferent()) return tl::unexpected(*loose);
    return tl::unexpected(why);
  }
  if (turning) {
    const Unknowns held = balance_.unknowns();
    balance_.release(true);
    if (!(newton() && stable())) {
      balance_.set(held);
      if (!relax()) return tl::unexpected(why_not());
      if (auto loose = indifferent()) return tl::unexpected(*loose);
      if (!newton()) return tl::unexpected(why_not());
    }
  }
  const bool firm = stable();
  if (auto loose = indifferent()) return tl::unexpected(*loose);
  if (!firm)
    return unsolved(fmt::format("the only balance found at travel {:.3f} m is one that tips over", travel_m_), miss_,
                    steps_);
  return {};
}

}  // namespace fairlead::reeving
