#include "geometry/clearance/blown.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::clearance {

Blown::Blown(const Passage& passage, const reeving::Pose& pose, const mainline::Shape& shape)
    : span_m_(passage.given.state.cable.span_m), rise_per_m_(passage.given.state.cable.rise_m / span_m_) {
  const SideWind& wind = passage.wind;
  if (wind == SideWind{}) return;
  const mainline::Cable& cable = passage.given.state.cable;
  double least_N = HUGE_VAL, most_N = 0, steepest = 1;
  for (int k = 0; k <= shape.loads; ++k) {
    const mainline::Piece& piece = shape.pieces[static_cast<std::size_t>(k)];
    const double V_N = greater(std::abs(piece.V_N), std::abs(piece.V_N - cable.weight_N_per_m * piece.unstretched_m));
    least_N = std::min(least_N, piece.H_N);
    most_N = greater(most_N, piece.H_N);
    steepest = greater(steepest, std::hypot(piece.H_N, V_N) / piece.H_N);
  }
  per_N_ = most_N / (least_N * least_N);
  line_N_per_m_ = wind.line_N_per_m * steepest;
  const auto x = [&](Point3 p) { return dot(p - passage.rig.origin, passage.rig.along); };
  const double rider_N = passage.given.rider_weight_N;
  pulls_ = {Pull{x(pose.rider), rider_N > 0 ? wind.rider_N : 0}, Pull{x(pose.trolley), wind.trolley_N}};
  double steep = wind.line_N_per_m / cable.weight_N_per_m;
  if (rider_N > 0) steep = greater(steep, wind.rider_N / rider_N);
  if (wind.trolley_N > 0) steep = greater(steep, wind.trolley_N / passage.given.trolley_weight_N);
  lifts_ = 1 - 1 / std::hypot(1, steep);
}

double Blown::aside_m(double x_m) const {
  double moment_N_m = line_N_per_m_ * x_m * (span_m_ - x_m) / 2;
  for (const Pull& pull : pulls_) {
    const auto [low, high] = std::minmax(x_m, pull.x_m);
    moment_N_m += pull.side_N * low * (span_m_ - high) / span_m_;
  }
  return moment_N_m * per_N_;
}

double Blown::rise_m(double x_m, double z_m) const { return lifts_ * (rise_per_m_ * x_m - z_m); }

namespace {

void add_bends(std::span<const double> travels_m, std::span<const Vec3> places, std::vector<double>& all) {
  if (places.size() < 2) return;
  const std::size_t stretches = places.size() - 1;
  if (stretches == 1) return all.push_back(HUGE_VAL);
  const auto reach_m = [&](std::size_t i) { return travels_m[i + 1] - travels_m[i]; };
  std::vector<double> bend(stretches + 1);
  for (std::size_t i = 1; i < stretches; ++i) {
    const Vec3 before = 1 / reach_m(i - 1) * (places[i] - places[i - 1]),
               after = 1 / reach_m(i) * (places[i + 1] - places[i]);
    bend[i] = 2 / (reach_m(i - 1) + reach_m(i)) * std::sqrt(dot(after - before, after - before));
  }
  bend.front() = bend[1];
  bend.back() = bend[stretches - 1];
  for (std::size_t i = 0; i < stretches; ++i)
    all.push_back(greater(bend[i], bend[i + 1]) * reach_m(i) * reach_m(i) / 2);
}

}  // namespace

std::vector<double> bends_m(std::span<const double> travels_m, std::span<const Vec3> places) {
  const auto mark = static_cast<std::size_t>(std::find(travels_m.begin(), travels_m.end(), 0.) - travels_m.begin());
  std::vector<double> all;
  all.reserve(places.size());
  const std::size_t before = std::min(mark + 1, places.size());
  add_bends(travels_m.first(before), places.first(before), all);
  if (mark < places.size()) add_bends(travels_m.subspan(mark), places.subspan(mark), all);
  return all;
}

}  // namespace fairlead::clearance
