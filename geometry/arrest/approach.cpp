#include "geometry/arrest/approach.hpp"

// Before the stepper, whose header forgets it.
#include <boost/numeric/odeint/util/bind.hpp>
#include <boost/numeric/odeint/util/unwrap_reference.hpp>

#include <algorithm>
#include <array>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

namespace odeint = boost::numeric::odeint;
/// x, its rate, and what resistance and drag have taken, J.
using Numbers = std::array<double, 3>;
using Stepper = odeint::result_of::make_dense_output<odeint::runge_kutta_dopri5<Numbers>>::type;

constexpr double g = standard_gravity;
constexpr double tolerance = 1e-9;  ///< of a step, absolute and relative
constexpr double longest_step_s = 1;
constexpr int most_steps = 20000;
constexpr double closing = 1e-6;
/// Slower than this and slowing down he stands. Wind can damp him so that he never quite does: at this he is within a
/// millimetre of where he would come.
constexpr double creeping_m_per_s = 1e-5;

/// The greatest of the parabola through three evenly spaced values, between the outer ones.
double greatest_between(double first, double middle, double last) {
  const double bend = first - 2 * middle + last, slope = last - first;
  if (bend < 0 && std::abs(slope) < -2 * bend) return middle - slope * slope / (8 * bend);
  return greater(first, last);
}

class Ride {
 public:
  Ride(const mainline::Path& path, double line_weight_N_per_m, const ApproachInputs& in)
      : path_(path),
        in_(in),
        half_drag_(in.density_kg_per_m3 * in.drag_area_m2 / 2),
        line_kg_per_m_(line_weight_N_per_m / g) {}

  Solved<Approach> solve();

 private:
  struct Place {
    mainline::Path::Point at;
    double q{};            ///< 1 + slope2
    double push_N{};       ///< of the path's drive, rolling resistance and drag, along x
    double resisting_N{};  ///< of the last two, against x rising
    double presses_per_kg{};
  };
  Place place(double x, double v) const;
  void rates(const Numbers& n, Numbers& d) const;
  /// Which way he starts to roll from rest at x; 0: rolling resistance holds him.
  int starts(double x);
  double holds_N() const { return in_.rolling * in_.mass_kg * g; }

  enum class End { arrives, stands, back_at_start };
  /// Rolls on in the sense_ until one of these.
  Solved<End> roll();
  bool stands(const Numbers& n) const;
  bool over(const Numbers& n) const;
  void see(const Numbers& first, const Numbers& middle, const Numbers& last);
  double kinetic_J(const Numbers& n) const;
  std::optional<Unsolved> swing_out();
  std::optional<double> settles_between(double low, double high);

  const mainline::Path& path_;
  const ApproachInputs& in_;
  double half_drag_, line_kg_per_m_;
  int sense_ = 1;
  Numbers now_{};
  double time_s_{}, step_s_ = 0.1;
  Approach found_;
};

Ride::Place Ride::place(double x, double v) const {
  Place p{.at = path_.continued(x)};
  p.q = 1 + p.at.slope * p.at.slope;
  const double root_q = std::sqrt(p.q);
  const double air = v * root_q - in_.wind_m_per_s / root_q;  // the wind's part along the path
  p.presses_per_kg = g + p.at.curvature * v * v;              // m (this) / root_q presses square to the path
  p.resisting_N = sense_ * in_.rolling * in_.mass_kg * p.presses_per_kg + half_drag_ * std::abs(air) * air * root_q;
  p.push_N = p.at.drive_force_N - p.resisting_N;
  return p;
}

void Ride::rates(const Numbers& n, Numbers& d) const {
  const double v = n[1];
  const Place p = place(n[0], v);
  d = {v, (p.push_N / in_.mass_kg - p.at.slope * p.at.curvature * v * v) / p.q, p.resisting_N * v};
}

int Ride::starts(double x) {
  sense_ = 0;
  const double push_N = place(x, 0).push_N;
  return push_N > holds_N() ? 1 : push_N < -holds_N() ? -1 : 0;
}

double Ride::kinetic_J(const Numbers& n) const { return in_.mass_kg / 2 * place(n[0], n[1]).q * n[1] * n[1]; }

bool Ride::stands(const Numbers& n) const {
  return sense_ * n[1] <= creeping_m_per_s && sense_ * place(n[0], n[1]).push_N < 0;
}

bool Ride::over(const Numbers& n) const {
  return stands(n) || (sense_ > 0 ? n[0] >= path_.to_m() : n[0] <= in_.start_m);
}

void Ride::see(const Numbers& first, const Numbers& middle, const Numbers& last) {
  double speed[3], over_wave[3];
  const Numbers* const at[] = {&first, &middle, &last};
  for (int i = 0; i < 3; ++i) {
    const Place p = place((*at[i])[0], (*at[i])[1]);
    speed[i] = std::abs((*at[i])[1]) * std::sqrt(p.q);
    over_wave[i] = speed[i] * std::sqrt(line_kg_per_m_ / p.at.H_N);
  }
  found_.greatest_speed_m_per_s =
      greater(found_.greatest_speed_m_per_s, greatest_between(speed[0], speed[1], speed[2]));
  found_.speed_over_wave = greater(found_.speed_over_wave, greatest_between(over_wave[0], over_wave[1], over_wave[2]));
}

Solved<Ride::End> Ride::roll() {
  Stepper stepper =
      odeint::make_dense_output(tolerance, tolerance, longest_step_s, odeint::runge_kutta_dopri5<Numbers>());
  stepper.initialize(now_, time_s_, step_s_);
  const auto law = [this](const Numbers& n, Numbers& d, double) { rates(n, d); };
  for (int i = 0; i < most_steps; ++i) {
    const auto [from_s, to_s] = stepper.do_step(law);
    const Numbers& reached = stepper.current_state();
    if (!std::isfinite(reached[0] + reached[1] + reached[2]))
      return unsolved("the approach leaves all numbers", to_s, i);
    if (!(place(reached[0], reached[1]).presses_per_kg > 0))
      return unsolved("the rider's wheels lift off the main line on the approach", reached[0], i);
    const bool ends = over(reached);
    double before = from_s, after = to_s;
    for (int halvings = 0; ends && halvings < 60; ++halvings) {
      Numbers between;
      stepper.calc_state(before + (after - before) / 2, between);
      (over(between) ? after : before) = before + (after - before) / 2;
    }
    Numbers middle;
    stepper.calc_state(from_s + (after - from_s) / 2, middle);
    now_ = reached;
    if (ends) stepper.calc_state(after, now_);
    time_s_ = after;
    see(stepper.previous_state(), middle, now_);
    if (!ends) continue;
    if (stands(now_)) {
      now_[1] = 0;
      return End::stands;
    }
    return sense_ > 0 ? End::arrives : End::back_at_start;
  }
  return unsolved("the approach takes more steps than are reasonable", now_[0], most_steps);
}

std::optional<double> Ride::settles_between(double a, double b) {
  sense_ = 0;
  if (!(half_drag_ > 0)) return std::nullopt;
  double low = std::min(a, b), high = std::max(a, b);  // pushed on at low, back at high
  for (int halvings = 0; halvings < 60; ++halvings) {
    const double middle = low + (high - low) / 2;
    (place(middle, 0).push_N > 0 ? low : high) = middle;
  }
  return high;
}

std::optional<Unsolved> Ride::swing_out() {
  for (int swing = 0; swing < most_swings; ++swing) {
    const double from = now_[0];
    const int came = sense_, sense = starts(from);
    if (sense == 0 || sense == came) {  // pushed on still where he stood: he crept up to where it ends
      found_.hangs_at_m = from;
      return std::nullopt;
    }
    sense_ = sense;
    const auto end = roll();
    if (!end) return end.error();
    if (*end == End::arrives) return Unsolved{"a rider who stalled swings on to where he did not come", now_[0], swing};
    if (*end == End::back_at_start) {
      found_.back_at_start_m_per_s = std::abs(now_[1]) * std::sqrt(place(now_[0], now_[1]).q);
      return std::nullopt;
    }
    if (in_.rolling == 0) {  // nothing holds him but where nothing pushes; drag brings him there in endless time
      found_.hangs_at_m = settles_between(from, now_[0]);
      return std::nullopt;
    }
  }
  return Unsolved{"a rider who stalled still swings", now_[0], most_swings};
}

Solved<Approach> Ride::solve() {
  now_ = {in_.start_m, in_.start_speed_m_per_s / std::sqrt(place(in_.start_m, 0).q), 0};
  const double start_J = kinetic_J(now_) + path_.potential_J(in_.start_m);
  if (in_.start_speed_m_per_s == 0 && starts(in_.start_m) <= 0) {
    found_.stalled_at_m = in_.start_m;
    if (starts(in_.start_m) == 0)
      found_.hangs_at_m = in_.start_m;
    else
      found_.back_at_start_m_per_s = 0;
    return found_;
  }
  sense_ = 1;
  const auto end = roll();
  if (!end) return tl::unexpected(end.error());
  found_.time_s = time_s_;
  found_.worked_J = path_.potential_J(in_.start_m) - path_.continued(now_[0]).potential_J;
  found_.resisted_J = now_[2];
  const Place p = place(now_[0], now_[1]);
  if (*end == End::arrives) {
    Numbers rate;
    rates(now_, rate);
    found_.arrival_speed_m_per_s = now_[1] * std::sqrt(p.q);
    found_.acceleration_m_per_s2 = rate[1];
  } else {
    found_.stalled_at_m = now_[0];
    if (auto bad = swing_out()) return tl::unexpected(*bad);
  }
  const double end_J = kinetic_J(now_) + path_.continued(now_[0]).potential_J + now_[2];
  found_.energy_residual =
      std::abs(end_J - start_J) / (in_.mass_kg / 2 * found_.greatest_speed_m_per_s * found_.greatest_speed_m_per_s);
  if (found_.energy_residual <= closing) return found_;
  return unsolved("the energy of the approach does not close", found_.energy_residual);
}

std::optional<Unsolved> refuse(const mainline::Path& path, double line_weight_N_per_m, const ApproachInputs& in) {
  const auto at_least_zero = [](double v) { return std::isfinite(v) && v >= 0; };
  if (!(in.start_m >= path.from_m() && in.start_m < path.to_m()))
    return Unsolved{"the push-off is not on the path to the brake trolley", in.start_m};
  if (!at_least_zero(in.start_speed_m_per_s))
    return Unsolved{"the push-off's speed is not a number from 0 on", in.start_speed_m_per_s};
  if (!(std::abs(in.mass_kg * g - path.weight_N()) <= 1e-9 * path.weight_N()))
    return Unsolved{"the path is not that of the rider's mass", in.mass_kg};
  if (!at_least_zero(in.rolling)) return Unsolved{"rolling resistance is not a number from 0 on", in.rolling};
  if (!at_least_zero(in.drag_area_m2)) return Unsolved{"the drag area is not a number from 0 on", in.drag_area_m2};
  if (!at_least_zero(in.density_kg_per_m3))
    return Unsolved{"the air's density is not a number from 0 on", in.density_kg_per_m3};
  if (!std::isfinite(in.wind_m_per_s)) return Unsolved{"the wind is not a number", in.wind_m_per_s};
  if (!(std::isfinite(line_weight_N_per_m) && line_weight_N_per_m > 0))
    return Unsolved{"the main line's weight is not a number above 0", line_weight_N_per_m};
  return std::nullopt;
}

}  // namespace

Solved<Approach> approach(const mainline::Path& path, double line_weight_N_per_m, const ApproachInputs& in) {
  if (auto bad = refuse(path, line_weight_N_per_m, in)) return tl::unexpected(*bad);
  try {
    return Ride(path, line_weight_N_per_m, in).solve();
  } catch (const odeint::step_adjustment_error&) {
    return unsolved("the approach finds no step short enough", in.start_m);
  }
}

}  // namespace fairlead::arrest
