#include "geometry/clearance/blown.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::clearance {

Blown::Blown(const Passage& passage, const reeving::Pose& pose, const mainline::Shape& shape, double steepest)
    : span_m_(passage.given.state.cable.span_m), rise_per_m_(passage.given.state.cable.rise_m / span_m_) {
  const SideWind& wind = passage.wind;
  const mainline::Cable& cable = passage.given.state.cable;
  least_N_ = HUGE_VAL;
  for (int k = 0; k <= shape.loads; ++k) {
    const mainline::Piece& piece = shape.pieces[static_cast<std::size_t>(k)];
    const double V_N = greater(std::abs(piece.V_N), std::abs(piece.V_N - cable.weight_N_per_m * piece.unstretched_m));
    least_N_ = std::min(least_N_, piece.H_N);
    most_N_ = greater(most_N_, piece.H_N);
    steepest = greater(steepest, V_N / piece.H_N);
  }
  line_N_per_m_ = wind.line_N_per_m * std::hypot(1, steepest);
  const auto x = [&](Point3 p) { return dot(p - passage.rig.origin, passage.rig.along); };
  const double rider_N = passage.given.rider_weight_N;
  pulls_ = {Pull{x(pose.rider), rider_N > 0 ? wind.rider_N : 0}, Pull{x(pose.trolley), wind.trolley_N}};
  double steep = wind.line_N_per_m / cable.weight_N_per_m;
  if (rider_N > 0) steep = greater(steep, wind.rider_N / rider_N);
  if (wind.trolley_N > 0) steep = greater(steep, wind.trolley_N / passage.given.trolley_weight_N);
  lifts_ = 1 - 1 / std::hypot(1, steep);
}

double Blown::moment_N_m(double x_m) const {
  double moment_N_m = line_N_per_m_ * x_m * (span_m_ - x_m) / 2;
  for (const Pull& pull : pulls_) {
    const auto [low, high] = std::minmax(x_m, pull.x_m);
    moment_N_m += pull.side_N * low * (span_m_ - high) / span_m_;
  }
  return moment_N_m;
}

double Blown::aside_m(double x_m) const { return moment_N_m(x_m) * most_N_ / (least_N_ * least_N_); }

double Blown::rise_m(double x_m, double z_m) const { return lifts_ * (rise_per_m_ * x_m - z_m); }

AtMost operator*(const AtMost& a, const AtMost& b) {
  const double apart = -(a.to - a.from) * (b.to - b.from) / 4;
  return {a.from * b.from, a.to * b.to,
          greater(apart, 0) + a.over * greater(b.from, b.to) + b.over * greater(a.from, a.to) + a.over * b.over};
}

// The least of the tensions, each even but for level_off_N, is nowhere below what goes evenly from the least at one
// pose to the least at the other, less that; the greatest likewise. And one over the square of what changes evenly is
// convex.
BlownBetween::BlownBetween(const Blown& from, const Blown& to, const reeving::LineBetween& line)
    : from_(from), to_(to), line_N_per_m_(std::min(from.line_N_per_m_, to.line_N_per_m_)) {
  const auto per_square = [](double tension_N) { return tension_N > 0 ? 1 / (tension_N * tension_N) : HUGE_VAL; };
  const auto lower = [&](const Blown& at) {
    return per_square(at.least_N_ - line.level_off_N) - per_square(at.least_N_);
  };
  per_N_ = AtMost{from.most_N_, to.most_N_, line.level_off_N} *
           AtMost{per_square(from.least_N_), per_square(to.least_N_), greater(lower(from), lower(to))};
}

double BlownBetween::over_m(double from_x_m, double to_x_m) const {
  if (!std::isfinite(per_N_.over)) return HUGE_VAL;
  const double moved_m = to_x_m - from_x_m;
  double over_N_m = line_N_per_m_ * moved_m * moved_m / 8;
  for (std::size_t k = 0; k < from_.pulls_.size(); ++k) {
    const auto [from_low, from_high] = std::minmax(from_x_m, from_.pulls_[k].x_m);
    const auto [to_low, to_high] = std::minmax(to_x_m, to_.pulls_[k].x_m);
    over_N_m += greater(from_.pulls_[k].side_N / from_.span_m_ * (to_low - from_low) * (to_high - from_high) / 4, 0);
  }
  return (AtMost{from_.moment_N_m(from_x_m), to_.moment_N_m(to_x_m), over_N_m} * per_N_).over;
}

std::vector<Blown> blown_along(const Passage& passage, std::span<const mainline::Shape> shapes,
                               std::span<const reeving::LineBetween> between) {
  std::vector<Blown> all;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    double steepest = 0;
    if (i > 0) steepest = between[i - 1].steepest;
    if (i < between.size()) steepest = greater(steepest, between[i].steepest);
    all.emplace_back(passage, passage.pose(static_cast<int>(i)), shapes[i], steepest);
  }
  return all;
}

}  // namespace fairlead::clearance
