#include "geometry/reeving/pose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "geometry/mainline/worst.hpp"

namespace fairlead::reeving {
namespace {

constexpr int most_steps = 60;

/// A root above zero of a rising function, between bounds that close in on it. The first step follows the given slope,
/// later ones the secant; where a step leaves the bounds it is halved between them.
class Rising {
 public:
  double next(double x, double value, double slope) {
    (value < 0 ? low_ : high_) = x;
    if (x != x_ && x_ > 0) slope = (value - value_) / (x - x_);
    x_ = x;
    value_ = value;
    const double root = x - value / slope;
    if (root > low_ && root < high_) return root;
    return std::isfinite(high_) ? (low_ + high_) / 2 : 2 * x;
  }

 private:
  double low_ = 0, high_ = std::numeric_limits<double>::infinity();
  double x_ = 0, value_ = 0;
};

class PoseSolver {
 public:
  PoseSolver(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, double travel_m)
      : in_(in), sweep_(sweep), outlet_(outlet), travel_m_(travel_m) {
    const bool apart = travel_m < 0 && sweep.rider_weight_N > 0;
    if (apart) loads_[count_++] = {in.rest_m + travel_m, sweep.rider_weight_N};
    weight_N_ = sweep.trolley_weight_N + (apart ? 0 : sweep.rider_weight_N);
    loads_[count_++] = {apart ? in.rest_m : in.rest_m + travel_m, weight_N_};
  }

  Solved<Station> solve(const Station* near);

 private:
  /// The main line with the trolley's wheel carrying `carried_N`.
  tl::expected<void, Unsolved> stand(double carried_N);
  /// The braking line from where the wheel now stands, with the unit's tension in agreement with its extension.
  tl::expected<void, Unsolved> settle();
  tl::expected<void, Unsolved> balance();
  tl::expected<void, Unsolved> finish();
  void answer_travel();

  const mainline::Wheel& wheel() const { return at_.shape.wheels[count_ - 1]; }
  Point3 place(const mainline::Wheel& w) const { return in_.origin + w.x_m * in_.along + w.z_m * in_.up; }
  double extension() const { return in_.rest_extension_m + at_.line.length_m - outlet_.rest_length_m; }
  double lift() const { return dot(at_.line.pull_N, in_.up); }
  /// Of the unit's tension for a metre of line drawn out, its own effect on the line's sag included.
  double spring() const { return at_.retraction_slope / (1 - at_.retraction_slope * at_.line.length_per_N); }
  /// Change of the line's upward pull for this change of the attachment, the unit's tension following.
  double lift_per_m(const ReevedChange& c) const {
    return dot(c.pull_N + spring() * c.length_m * at_.line.pull_per_N, in_.up);
  }

  const Inputs& in_;
  const SweepInputs& sweep_;
  const Outlet& outlet_;
  double travel_m_;
  double weight_N_{};
  double tension_N_{};  // at the outlet, where the next search begins
  int count_{};
  std::array<mainline::Load, 2> loads_;
  Station at_;
};

tl::expected<void, Unsolved> PoseSolver::stand(double carried_N) {
  loads_[count_ - 1].weight_N = carried_N;
  const bool warm = at_.shape.loads == count_;
  auto shape =
      mainline::hang_rolling(sweep_.state.cable, {loads_.data(), std::size_t(count_)}, warm ? &at_.shape : nullptr);
  if (!shape) return tl::unexpected(shape.error());
  at_.shape = *shape;
  at_.carried_N = carried_N;
  return {};
}

tl::expected<void, Unsolved> PoseSolver::settle() {
  const Point3 attachment = place(wheel()) + in_.attachment;
  if (outlet_.held_tension_N) return reeve(in_, attachment, *outlet_.held_tension_N, at_.line);
  // T - retraction(extension(T)) rises with T: a tighter line hangs shorter.
  const Curve& retraction = in_.unit.retraction_N;
  double& T = tension_N_;
  if (!(T > 0)) T = retraction(in_.rest_extension_m);
  Rising root;
  double miss_m = 0;
  for (int i = 0; i < most_steps; ++i) {
    if (auto hung = reeve(in_, attachment, T, at_.line); !hung) return hung;
    const double E = extension(), value = T - retraction(E);
    at_.retraction_slope = slope_after(retraction, E);
    const double slope = 1 - at_.retraction_slope * at_.line.length_per_N;
    miss_m = value * at_.line.length_per_N;
    constexpr double kExtension_m = 1e-11, kTension = 1e-11;
    if (std::abs(miss_m) <= kExtension_m && std::abs(value) <= kTension * T) return {};
    T = root.next(T, value, slope);
  }
  return unsolved(fmt::format("the unit's tension and its extension do not agree at travel {:.3f} m", travel_m_),
                  std::abs(miss_m), most_steps);
}

tl::expected<void, Unsolved> PoseSolver::balance() {
  // What the wheel carries plus the line's upward pull, less the weight, rises with what it carries: the wheel sinks
  // and the pull steepens. The plain fixed point contracts by up to 0.8 only.
  double carried = at_.carried_N > 0 && at_.carried_N < weight_N_ ? at_.carried_N : weight_N_;
  Rising root;
  double value = 0;
  for (int i = 0; i < most_steps; ++i) {
    if (auto stood = stand(carried); !stood) return stood;
    if (auto hung = settle(); !hung) return hung;
    value = carried + lift() - weight_N_;
    constexpr double kBalance = 1e-11;
    if (std::abs(value) <= kBalance * weight_N_) return {};
    const WheelResponse<double> wheel_gives = respond(sweep_.state.cable, at_.shape, count_ - 1);
    const ReevedChange rise = move_attachment(in_, at_.line, in_.up);
    carried = root.next(carried, value, 1 + lift_per_m(rise) * wheel_gives.dz_dW_m_per_N);
    // Below this the line as good as floats: no wheel stays on a line it presses with a millionth of its weight.
    if (!(carried > 1e-6 * weight_N_))
      return unsolved(fmt::format("the braking line lifts the brake trolley off the main line at travel {:.3f} m: it "
                                  "pulls up with {:.4g} N on {:.4g} N",
                                  travel_m_, lift(), weight_N_),
                      lift(), i);
  }
  return unsolved(fmt::format("the trolley does not come to balance at travel {:.3f} m", travel_m_), value, most_steps);
}

void PoseSolver::answer_travel() {
  Pose& pose = at_.pose;
  pose.pay_out = pose.ratio = std::numeric_limits<double>::quiet_NaN();
  if (travel_m_ < 0) return;
  // The wheel follows z' = dz/dx + dz/dW W', W' = -(lift)' along the path; the extension follows the attachment.
  const WheelResponse<double> wheel_gives = respond(sweep_.state.cable, at_.shape, 0);
  const ReevedChange along = move_attachment(in_, at_.line, in_.along), rise = move_attachment(in_, at_.line, in_.up);
  at_.slope = (wheel_gives.dz_dx - wheel_gives.dz_dW_m_per_N * lift_per_m(along)) /
              (1 + wheel_gives.dz_dW_m_per_N * lift_per_m(rise));
  pose.pay_out = (along.length_m + at_.slope * rise.length_m) / (1 - at_.retraction_slope * at_.line.length_per_N);
  pose.ratio = 1 / pose.pay_out;
  at_.carried_per_m = -(lift_per_m(along) + at_.slope * lift_per_m(rise));
}

tl::expected<void, Unsolved> PoseSolver::finish() {
  const mainline::Wheel& trolley = wheel();
  Pose& pose = at_.pose;
  pose.travel_m = travel_m_;
  pose.trolley = place(trolley);
  pose.attachment = at_.line.attachment;
  pose.rider = place(at_.shape.wheels[0]);
  pose.extension_m = extension();
  pose.trolley_tension_N = at_.line.legs.front().hang.from_tension_N();
  pose.outlet_tension_N = at_.line.tension.at_N;
  pose.pull_on_trolley_N = at_.line.pull_N;
  pose.pull_on_unit_N = at_.line.legs.back().hang.to_pull_N();
  const Vec3 lead = cross(pose.pull_on_unit_N, in_.outlet_axis);
  pose.lead_rad = std::atan2(norm(lead), dot(pose.pull_on_unit_N, in_.outlet_axis));
  pose.hold_N = weight_N_ * in_.up - (trolley.force_x_N * in_.along + trolley.force_z_N * in_.up) - at_.line.pull_N;
  const mainline::SupportForces ends = mainline::support_forces(sweep_.state.cable, at_.shape);
  pose.start_support_N = ends.start_x_N * in_.along + ends.start_z_N * in_.up;
  pose.end_support_N = ends.end_x_N * in_.along + ends.end_z_N * in_.up;
  pose.main_line_moment_N_m = mainline::weight_moment_N_m(sweep_.state.cable, at_.shape);
  pose.main_line_weight_N = sweep_.state.cable.weight_N_per_m * sweep_.state.cable.unstretched_m;
  pose.line_weight_N = in_.lines.front().weight_N_per_m * at_.line.length_m;
  pose.tau_rad = trolley.tau_rad;
  answer_travel();
  at_.fleet_rad.resize(in_.sheaves.size());
  for (std::size_t i = 0; i < in_.sheaves.size(); ++i) {
    const Vec3 axle = in_.sheaves[i].axle;
    at_.fleet_rad[i] = std::max(std::abs(fleet_angle(at_.line.legs[i].hang.to_pull_N(), axle)),
                                std::abs(fleet_angle(at_.line.legs[i + 1].hang.from_pull_N(), axle)));
  }

  auto loads = loads_;
  loads[count_ - 1].weight_N = weight_N_;
  const auto without = mainline::hang_rolling(sweep_.state.cable, {loads.data(), std::size_t(count_)}, &at_.shape);
  if (!without) return tl::unexpected(without.error());
  pose.lift_by_line_m = trolley.z_m - without->wheels[count_ - 1].z_m;
  return {};
}

Solved<Station> PoseSolver::solve(const Station* near) {
  if (near) {
    at_.line = near->line;
    tension_N_ = near->pose.outlet_tension_N;
    at_.shape = near->shape;
    at_.carried_N = near->carried_N;
    // Both poses beyond the mark: on along the tangent.
    if (const double from_m = near->pose.travel_m; from_m >= 0 && travel_m_ >= 0) {
      at_.carried_N += (travel_m_ - from_m) * near->carried_per_m;
      tension_N_ = near->pose.outlet_tension_N + (travel_m_ - from_m) * near->pose.pay_out * near->retraction_slope;
    }
  }
  if (auto done = balance(); !done) return tl::unexpected(done.error());
  if (auto done = finish(); !done) return tl::unexpected(done.error());
  return std::move(at_);
}

}  // namespace

double slope_after(const Curve& curve, double x) {
  const auto& p = curve.points();
  if (p.size() < 2) return 0;
  const auto right =
      std::upper_bound(p.begin() + 1, p.end() - 1, x, [](double value, const CurvePoint& q) { return value < q.x; });
  return (right->y - (right - 1)->y) / (right->x - (right - 1)->x);
}

Solved<Station> solve_pose(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, double travel_m,
                           const Station* near) {
  return PoseSolver(in, sweep, outlet, travel_m).solve(near);
}

Solved<double> rest_length(const Inputs& in, const State& state, double trolley_weight_N) {
  const SweepInputs rest{.path = 0, .state = state, .reference = state, .trolley_weight_N = trolley_weight_N};
  const auto pose = solve_pose(in, rest, {0, in.unit.retraction_N(in.rest_extension_m)}, 0);
  if (!pose) return tl::unexpected(pose.error());
  return pose->line.length_m;
}

}  // namespace fairlead::reeving
