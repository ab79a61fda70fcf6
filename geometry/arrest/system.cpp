#include "geometry/arrest/system.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {
constexpr double g = standard_gravity;
/// By how much the brake trolley must outrun the rider trolley: rounding does not part what moves alike.
constexpr double parting_m_per_s2 = 1e-9;
}  // namespace

System::System(const Track& track, const Bodies& bodies, const Unit& unit)
    : track_(track), bodies_(bodies), unit_(unit) {
  if (!gives()) return;
  slack_m_ = bodies.hanging_m - bodies.rider_kg * g / bodies.lanyard_N_per_m;
  damping_N_s_per_m_ = 2 * bodies.lanyard_damping * std::sqrt(bodies.lanyard_N_per_m * bodies.rider_kg);
}

State as_state(const Numbers& n) { return {n[0], n[1], n[2], n[3], n[4], n[5], n[6], n[7], n[8], n[9]}; }
Numbers as_numbers(const State& s) {
  return {s.x,           s.lean,    s.length,  s.v,          s.lean_rate,
          s.length_rate, s.brake_x, s.brake_v, s.brake_work, s.resistance_work};
}

/// The rider's system: the trolleys that move with him, the lanyard, what acts on it but for rolling resistance.
struct System::Loaded {
  double trolleys_kg{}, inertia_kg{}, inertia_slope{};
  double sin_lean{}, cos_lean{};
  double along{}, outward{};  ///< how much of a metre of lanyard-square and of lanyard's length goes along the path
  double arm_kg_m{};          ///< mass times length times `along`
  double drag_N{};            ///< on the rider, horizontal
  double q{}, root_q{};       ///< 1 + slope2

  double path_kg(const Bodies& b) const { return (trolleys_kg + b.rider_kg) * q + inertia_kg; }
};

const TrackPoint& System::at(double x_m) const {
  if (x_m != at_m_) at_ = track_.at(x_m), at_m_ = x_m;
  return at_;
}

double System::brake_share() const {
  return bodies_.brake_trolley_kg / (bodies_.brake_trolley_kg + bodies_.rider_trolley_kg + bodies_.rider_kg);
}

System::Loaded System::load(const State& s, const TrackPoint& at, bool with_brake_trolley) const {
  Loaded l;
  l.trolleys_kg = bodies_.rider_trolley_kg + (with_brake_trolley ? bodies_.brake_trolley_kg : 0);
  l.inertia_kg = with_brake_trolley ? at.inertia_kg : 0;
  l.inertia_slope = with_brake_trolley ? at.inertia_slope : 0;
  l.sin_lean = std::sin(s.lean), l.cos_lean = std::cos(s.lean);
  l.along = l.cos_lean + at.slope * l.sin_lean;
  l.outward = l.sin_lean - at.slope * l.cos_lean;
  l.arm_kg_m = bodies_.rider_kg * s.length * l.along;
  const double air = s.v + s.length * s.lean_rate * l.cos_lean + s.length_rate * l.sin_lean - bodies_.wind_m_per_s;
  l.drag_N = -bodies_.drag_kg_per_m * std::abs(air) * air;
  l.q = 1 + at.slope * at.slope;
  l.root_q = std::sqrt(l.q);
  return l;
}

UnitPull System::unit_pull(const TrackPoint& at, double v) const {
  UnitPull pull;
  const auto pulls_N = [&](double tension_N) {
    pull.extension_m = at.extension_m + at.give_m_per_N * tension_N;
    pull.speed_m_per_s = v * (at.pay_out + at.give_slope * tension_N);
    const double speed = pull.speed_m_per_s, drag_N = unit_.share * unit_.law.magnetic(std::abs(speed));
    const double retraction_N = unit_.law.retraction_N(pull.extension_m);
    return std::max(0.0, speed >= 0 ? retraction_N + drag_N : retraction_N - unit_.return_share * drag_N);
  };
  // Extension and line speed answer the tension by a few hundredths of it, evenly: three rounds show the even steps,
  // and their limit leaves what is uneven about them.
  const double first = pulls_N(0), second = pulls_N(first), third = pulls_N(second);
  const double bend = third - 2 * second + first;
  pull.tension_N = bend == 0 ? third : third - (third - second) * (third - second) / bend;
  return pull;
}

void System::move_brake_trolley_alone(const State& s, int sense, Forces& f) const {
  const TrackPoint at = track_.at(s.brake_x);
  f.unit = unit_pull(at, s.brake_v);
  const double q = 1 + at.slope * at.slope, mass_kg = bodies_.brake_trolley_kg;
  f.line_force_N = (sense < 0 ? at.pull_back : at.pull) * f.unit.tension_N;
  const double presses_N = pressing_N(at, mass_kg, s.brake_v * s.brake_v, f.unit.tension_N);
  const double rolling_N = bodies_.rolling * presses_N * std::sqrt(q) * sense;
  const double bend = mass_kg * at.slope * at.curvature + at.inertia_slope / 2;
  const double rate = (brake_share() * at.drive_N - f.line_force_N - rolling_N - bend * s.brake_v * s.brake_v) /
                      (mass_kg * q + at.inertia_kg);
  if (sense == 0) return;
  f.rate.brake_x = s.brake_v;
  f.rate.brake_v = rate;
  f.rate.brake_work = f.line_force_N * s.brake_v;
  f.rate.resistance_work = rolling_N * s.brake_v;
}

Forces System::forces(const State& s, Mode mode) const {
  const TrackPoint& at = this->at(s.x);
  const Loaded l = load(s, at, !mode.apart);
  const double rider_kg = bodies_.rider_kg, vv = s.v * s.v, ww = s.lean_rate * s.lean_rate;
  Forces f;
  if (mode.apart)
    move_brake_trolley_alone(s, mode.brake_sense, f);
  else
    f.unit = unit_pull(at, s.v), f.line_force_N = (mode.sense < 0 ? at.pull_back : at.pull) * f.unit.tension_N;
  const double line_N = mode.apart ? 0 : f.line_force_N;
  const double drive_N = at.drive_N * (mode.apart ? 1 - brake_share() : 1);

  // A lanyard never pushes: where it is let go faster than its damper follows, it only pulls no more.
  const double elastic_N = bodies_.lanyard_N_per_m * (s.length - slack_m_);
  const double spring_N = std::max(0.0, elastic_N + damping_N_s_per_m_ * s.length_rate);
  // Along the lanyard: rider_kg (length'' + outward x'') = outward_N - lanyard tension.
  const double outward_N =
      rider_kg * (s.length * ww + at.curvature * l.cos_lean * vv + g * l.cos_lean) + l.drag_N * l.sin_lean;
  const double bend = (l.trolleys_kg + rider_kg) * at.slope * at.curvature + l.inertia_slope / 2;
  double along_N = drive_N - line_N - bend * vv + l.drag_N + rider_kg * s.length * ww * l.outward -
                   2 * rider_kg * l.along * s.length_rate * s.lean_rate;
  const double turning_N_m = -rider_kg * s.length * l.sin_lean * (g + at.curvature * vv) +
                             l.drag_N * s.length * l.cos_lean - 2 * rider_kg * s.length * s.length_rate * s.lean_rate;
  double path_kg = l.path_kg(bodies_);
  if (gives()) {
    path_kg -= rider_kg * l.outward * l.outward;
    along_N -= l.outward * (outward_N - spring_N);
  }
  const double turn_kg_m2 = rider_kg * s.length * s.length;
  const double sin_path = at.slope / l.root_q, cos_path = 1 / l.root_q;
  const bool still = mode.sense == 0;
  // What presses on the wheels changes evenly with the acceleration, and the lanyard's tension with it.
  const double lanyard_per_rate = gives() ? 0 : -rider_kg * l.outward;
  const double lanyard_still_N = gives() ? spring_N : outward_N;
  const double leaning = l.sin_lean * sin_path + l.cos_lean * cos_path;
  const double presses_N =
      pressing_N(at, l.trolleys_kg, vv, mode.apart ? 0 : f.unit.tension_N) + lanyard_still_N * leaning;
  const double presses_per_rate = lanyard_per_rate * leaning;
  const double rolls = bodies_.rolling * l.root_q * mode.sense;
  const double det = (path_kg + rolls * presses_per_rate) * turn_kg_m2 - l.arm_kg_m * l.arm_kg_m;
  const double x_rate = still ? 0 : ((along_N - rolls * presses_N) * turn_kg_m2 - l.arm_kg_m * turning_N_m) / det;
  const double rolling_N = rolls * (presses_N + presses_per_rate * x_rate);
  f.lanyard_N = lanyard_still_N + lanyard_per_rate * x_rate;
  f.rate.x = still ? 0 : s.v;
  f.rate.v = x_rate;
  f.rate.lean = s.lean_rate;
  f.rate.lean_rate = (turning_N_m - l.arm_kg_m * x_rate) / turn_kg_m2;
  if (gives()) {
    f.rate.length = s.length_rate;
    f.rate.length_rate = (outward_N - spring_N) / rider_kg - l.outward * x_rate;
  }
  const double air_speed = f.rate.x + s.length * s.lean_rate * l.cos_lean + s.length_rate * l.sin_lean;
  f.rate.resistance_work += rolling_N * f.rate.x - l.drag_N * air_speed;
  if (gives()) f.rate.resistance_work += (spring_N - elastic_N) * s.length_rate;
  if (mode.apart) return f;
  f.rate.brake_x = f.rate.x;
  f.rate.brake_v = f.rate.v;
  f.rate.brake_work = line_N * f.rate.x;
  const double alone_kg = bodies_.brake_trolley_kg;
  const double rolls_N = bodies_.rolling * pressing_N(at, alone_kg, vv, f.unit.tension_N) * l.root_q * mode.sense;
  f.push_N = (alone_kg * l.q + at.inertia_kg) * x_rate +
             (alone_kg * at.slope * at.curvature + at.inertia_slope / 2) * vv - brake_share() * drive_N + line_N +
             rolls_N;
  return f;
}

int System::start_sense(const State& s, Mode mode) const {
  mode.sense = 1;
  if (forces(s, mode).rate.v > 0) return 1;
  mode.sense = -1;
  if ((mode.apart || !bodies_.held_back) && forces(s, mode).rate.v < 0) return -1;
  return 0;
}

int System::brake_start_sense(const State& s) const {
  if (forces(s, {.apart = true, .sense = 0, .brake_sense = 1}).rate.brake_v > 0) return 1;
  if (!bodies_.held_back && forces(s, {.apart = true, .sense = 0, .brake_sense = -1}).rate.brake_v < 0) return -1;
  return 0;
}

Mode System::apart_from_standstill(const State& s) const {
  const int brake_sense = brake_start_sense(s);
  return {.apart = true, .sense = start_sense(s, {.apart = true}), .brake_sense = brake_sense};
}

bool System::parts_at_standstill(const State& s) const {
  const Forces f = forces(s, apart_from_standstill(s));
  return f.rate.v < f.rate.brake_v - parting_m_per_s2;
}

double System::energy_J(const State& s, Mode mode) const {
  const TrackPoint at = track_.at(s.x);
  const Loaded l = load(s, at, !mode.apart);
  const double m = bodies_.rider_kg, stretch = s.length - slack_m_;
  double energy = l.path_kg(bodies_) * s.v * s.v / 2 + l.arm_kg_m * s.v * s.lean_rate +
                  m * l.outward * s.v * s.length_rate +
                  m / 2 * (s.length * s.length * s.lean_rate * s.lean_rate + s.length_rate * s.length_rate) -
                  m * g * s.length * l.cos_lean + bodies_.lanyard_N_per_m * stretch * stretch / 2;
  if (!mode.apart) return energy + track_.potential_J(s.x);
  const TrackPoint brake = track_.at(s.brake_x);
  const double alone_kg = bodies_.brake_trolley_kg * (1 + brake.slope * brake.slope) + brake.inertia_kg;
  return energy + (1 - brake_share()) * track_.potential_J(s.x) + brake_share() * track_.potential_J(s.brake_x) +
         alone_kg * s.brake_v * s.brake_v / 2;
}

State System::joined(const State& s) const {
  const TrackPoint at = track_.at(s.x);
  const Loaded l = load(s, at, false);
  const double brake_kg = bodies_.brake_trolley_kg * l.q + at.inertia_kg;
  State after = s;
  after.brake_x = s.x;
  if (gives()) {
    // The rider feels nothing yet: his velocity stays, and what it is about the slower trolley follows.
    const double trolley_kg = bodies_.rider_trolley_kg * l.q;
    after.v = (trolley_kg * s.v + brake_kg * s.brake_v) / (trolley_kg + brake_kg);
    after.lean_rate += l.along * (s.v - after.v) / s.length;
    after.length_rate += l.outward * (s.v - after.v);
  } else {
    const double m = l.path_kg(bodies_), turn = bodies_.rider_kg * s.length * s.length, arm = l.arm_kg_m;
    const double along = m * s.v + arm * s.lean_rate + brake_kg * s.brake_v, about = arm * s.v + turn * s.lean_rate;
    const double det = (m + brake_kg) * turn - arm * arm;
    after.v = (along * turn - arm * about) / det;
    after.lean_rate = ((m + brake_kg) * about - arm * along) / det;
  }
  after.brake_v = after.v;
  return after;
}

double System::steady_lean_rad(double x_m, double v, double acceleration_m_per_s2) const {
  const TrackPoint at = track_.at(x_m);
  const double air = v - bodies_.wind_m_per_s;
  const double pushed = -bodies_.drag_kg_per_m * std::abs(air) * air / bodies_.rider_kg;
  const double a = acceleration_m_per_s2, down = g + at.slope * a + at.curvature * v * v;
  return std::atan2(pushed - a, down);
}

}  // namespace fairlead::arrest
