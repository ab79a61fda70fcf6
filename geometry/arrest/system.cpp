#include "geometry/arrest/system.hpp"

#include <algorithm>
#include <cmath>
#include <new>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {
constexpr double g = standard_gravity;
/// By how much the brake trolley must outrun the rider trolley: rounding does not part what moves alike.
constexpr double parting_m_per_s2 = 1e-9;
}  // namespace

System::System(const Track& track, const Bodies& bodies, const Unit& unit)
    : track_(track), bodies_(bodies), unit_(unit) {
  const double trolleys_kg = bodies.rider_trolley_kg + bodies.brake_trolley_kg;
  brake_share_ = bodies.brake_trolley_kg / (trolleys_kg + bodies.rider_kg);
  // Two free masses on a spring move as one of their reduced mass.
  const double reduced_kg = bodies.rider_trolley_kg * bodies.brake_trolley_kg / trolleys_kg;
  bumper_rad_per_s_ = std::sqrt(bodies.bumper_N_per_m / reduced_kg);
  bumper_damping_N_s_per_m_ = 2 * bodies.bumper_damping * bumper_rad_per_s_ * reduced_kg;
  const std::vector<CurvePoint>& drawn = unit.law.retraction_N.points();
  for (std::size_t i = 0; i + 1 < drawn.size(); ++i)
    retraction_.push_back({drawn[i].x, drawn[i].y, (drawn[i + 1].y - drawn[i].y) / (drawn[i + 1].x - drawn[i].x)});
  if (drawn.size() == 1) retraction_.push_back({drawn[0].x, drawn[0].y, 0});
  if (const auto* eddy = std::get_if<reeving::EddyLaw>(&unit.law.magnetic_N))
    eddy_ = {2 * eddy->peak_N * eddy->critical_speed_m_per_s,
             eddy->critical_speed_m_per_s * eddy->critical_speed_m_per_s};
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

/// What does not ask which way the wheels roll: the two equations of motion, along the path and about the wheel, with
/// the lanyard's length taken out of them.
struct System::Balance {
  Loaded of;
  double drive_N{}, elastic_N{}, spring_N{};
  double along_N{}, path_kg{};  ///< the line's pull left out
  double turning_N_m{}, turn_kg_m2{};
  double outward_N{}, lanyard_still_N{}, lanyard_per_rate{};  ///< tension at no acceleration, and per m/s2 of it
  double presses_N{}, presses_per_rate{};                     ///< on the wheels, likewise
};

/// The brake trolley by itself.
struct System::Alone {
  UnitPull unit;
  double line_force_N{}, x_rate{}, v_rate{}, rolling_W{};
};

const TrackPoint& System::at(double x_m) const {
  // Made in its place: a copy of what was just written number by number waits for it.
  if (x_m != at_m_) new (&at_) TrackPoint(track_.at(x_m)), at_m_ = x_m;
  return at_;
}

double System::bumper_elastic_N(const State& s) const {
  const double pressed = pressed_m(s);
  return bodies_.coupled || pressed > 0 ? bodies_.bumper_N_per_m * pressed : 0;
}

double System::bumper_N(const State& s) const {
  return bodies_.bumper_N_per_m * pressed_m(s) + bumper_damping_N_s_per_m_ * (s.v - s.brake_v);
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

Tangent System::retraction_at(double extension_m) const {
  std::size_t i = retraction_.size();
  if (i == 0) return unit_.law.retraction_N.at(extension_m);
  do --i;
  while (i > 0 && extension_m < retraction_[i].from_m);
  const Segment& on = retraction_[i];
  return {on.from_N + (extension_m - on.from_m) * on.N_per_m, on.N_per_m};
}

Tangent System::magnetic_at(double v) const {
  if (!(eddy_.squared > 0)) return unit_.law.magnetic_at(v);
  const double both = 1 / (v * v + eddy_.squared), drag = eddy_.drag * both;
  return {drag * v, drag * (eddy_.squared - v * v) * both};
}

UnitPull System::unit_pull(const TrackPoint& at, double v) const {
  // Trolleys that stand still ask for the same again and again.
  if (&at == &at_ && at_m_ == pull_at_m_ && v == pull_at_v_) return pull_;
  // What the unit would pull with at the extension and line speed that a tension makes; with the change per newton.
  const auto pulls_N = [&](double tension_N) -> Tangent {
    const double speed = v * (at.pay_out + at.give_slope * tension_N), sense = speed >= 0 ? 1 : -1;
    const Tangent drag = magnetic_at(std::abs(speed));
    const Tangent drawn = retraction_at(at.extension_m + at.give_m_per_N * tension_N);
    const double share = sense > 0 ? unit_.share : -unit_.return_share * unit_.share;
    const double pull_N = drawn.y + share * drag.y;
    if (pull_N < 0) return {};
    return {pull_N, drawn.slope * at.give_m_per_N + share * drag.slope * sense * v * at.give_slope};
  };
  // Extension and line speed answer the tension by a few hundredths of it: of two steps of Newton's with the slope at
  // no tension the second leaves less than a millionth.
  const Tangent free = pulls_N(0);
  const double per_N = 1 / (1 - free.slope), first = free.y * per_N;
  const double second = first + (pulls_N(first).y - first) * per_N;
  const double tension_N = second < 0 ? 0 : second;
  const UnitPull pull{.tension_N = tension_N,
                      .extension_m = at.extension_m + at.give_m_per_N * tension_N,
                      .speed_m_per_s = v * (at.pay_out + at.give_slope * tension_N)};
  if (&at == &at_) pull_ = pull, pull_at_m_ = at_m_, pull_at_v_ = v;
  return pull;
}

System::Alone System::brake_trolley_alone(const State& s, int sense, double push_N) const {
  const TrackPoint at = track_.at(s.brake_x);
  Alone alone{.unit = unit_pull(at, s.brake_v)};
  const double q = 1 + at.slope * at.slope, mass_kg = bodies_.brake_trolley_kg;
  alone.line_force_N = (sense < 0 ? at.pull_back : at.pull) * alone.unit.tension_N;
  const double presses_N = pressing_N(at, mass_kg, s.brake_v * s.brake_v, alone.unit.tension_N);
  const double rolling_N = bodies_.rolling * presses_N * std::sqrt(q) * sense;
  const double bend = mass_kg * at.slope * at.curvature + at.inertia_slope / 2;
  const double rate =
      (brake_share_ * at.drive_N - alone.line_force_N - rolling_N + push_N - bend * s.brake_v * s.brake_v) /
      (mass_kg * q + at.inertia_kg);
  if (sense == 0) return alone;
  alone.x_rate = s.brake_v;
  alone.v_rate = rate;
  alone.rolling_W = rolling_N * s.brake_v;
  return alone;
}

System::Balance System::balance(const State& s, bool apart, double unit_tension_N) const {
  const TrackPoint& at = this->at(s.x);
  Balance b{.of = load(s, at, !apart)};
  const Loaded& l = b.of;
  const double rider_kg = bodies_.rider_kg, vv = s.v * s.v, ww = s.lean_rate * s.lean_rate;
  b.drive_N = at.drive_N * (apart ? 1 - brake_share_ : 1);
  // A lanyard never pushes: where it is let go faster than its damper follows, it only pulls no more.
  b.elastic_N = bodies_.lanyard_N_per_m * (s.length - slack_m_);
  b.spring_N = std::max(0.0, b.elastic_N + damping_N_s_per_m_ * s.length_rate);
  // Along the lanyard: rider_kg (length'' + outward x'') = outward_N - lanyard tension.
  b.outward_N = rider_kg * (s.length * ww + at.curvature * l.cos_lean * vv + g * l.cos_lean) + l.drag_N * l.sin_lean;
  const double bend = (l.trolleys_kg + rider_kg) * at.slope * at.curvature + l.inertia_slope / 2;
  b.along_N = b.drive_N - bend * vv + l.drag_N + rider_kg * s.length * ww * l.outward -
              2 * rider_kg * l.along * s.length_rate * s.lean_rate;
  b.turning_N_m = -rider_kg * s.length * l.sin_lean * (g + at.curvature * vv) + l.drag_N * s.length * l.cos_lean -
                  2 * rider_kg * s.length * s.length_rate * s.lean_rate;
  b.path_kg = l.path_kg(bodies_);
  if (gives()) {
    b.path_kg -= rider_kg * l.outward * l.outward;
    b.along_N -= l.outward * (b.outward_N - b.spring_N);
  }
  b.turn_kg_m2 = rider_kg * s.length * s.length;
  // What presses on the wheels changes evenly with the acceleration, and the lanyard's tension with it.
  const double leaning = (l.sin_lean * at.slope + l.cos_lean) / l.root_q;
  b.lanyard_per_rate = gives() ? 0 : -rider_kg * l.outward;
  b.lanyard_still_N = gives() ? b.spring_N : b.outward_N;
  b.presses_N = pressing_N(at, l.trolleys_kg, vv, unit_tension_N) + b.lanyard_still_N * leaning;
  b.presses_per_rate = b.lanyard_per_rate * leaning;
  return b;
}

/// Along x, while the line pulls with line_N and the wheels roll that way.
double System::acceleration(const Balance& b, double line_N, int sense) const {
  const double rolls = bodies_.rolling * b.of.root_q * sense, arm_kg_m = b.of.arm_kg_m;
  const double det = (b.path_kg + rolls * b.presses_per_rate) * b.turn_kg_m2 - arm_kg_m * arm_kg_m;
  return ((b.along_N - line_N - rolls * b.presses_N) * b.turn_kg_m2 - arm_kg_m * b.turning_N_m) / det;
}

Forces System::forces(const State& s, Mode mode) const {
  const TrackPoint& at = this->at(s.x);
  const double bumper_N = mode.apart && mode.bumper_pushes ? this->bumper_N(s) : 0;
  Alone brake;
  if (mode.apart) {
    brake = brake_trolley_alone(s, mode.brake_sense, bumper_N);
  } else {
    brake.unit = unit_pull(at, s.v),
    brake.line_force_N = (mode.sense < 0 ? at.pull_back : at.pull) * brake.unit.tension_N;
  }
  // What holds the rider trolley back: the line through the brake trolley, or the bumper before that.
  const double line_N = mode.apart ? bumper_N : brake.line_force_N, tension_N = mode.apart ? 0 : brake.unit.tension_N;
  const Balance b = balance(s, mode.apart, tension_N);
  const Loaded& l = b.of;
  const bool still = mode.sense == 0;
  const double v = still ? 0 : s.v, v_rate = still ? 0 : acceleration(b, line_N, mode.sense);
  const double rolling_N = bodies_.rolling * l.root_q * mode.sense * (b.presses_N + b.presses_per_rate * v_rate);
  const double air_speed = v + s.length * s.lean_rate * l.cos_lean + s.length_rate * l.sin_lean;
  double resistance_W = rolling_N * v - l.drag_N * air_speed, push_N = bumper_N;
  if (gives()) resistance_W += (b.spring_N - b.elastic_N) * s.length_rate;
  if (mode.apart) {
    resistance_W += brake.rolling_W;
    if (has_bumper()) resistance_W += (bumper_N - bumper_elastic_N(s)) * (v - brake.x_rate);
  } else {
    brake.x_rate = v, brake.v_rate = v_rate;
    const double alone_kg = bodies_.brake_trolley_kg, vv = s.v * s.v;
    const double rolls_N = bodies_.rolling * pressing_N(at, alone_kg, vv, tension_N) * l.root_q * mode.sense;
    push_N = (alone_kg * l.q + at.inertia_kg) * v_rate +
             (alone_kg * at.slope * at.curvature + at.inertia_slope / 2) * vv - brake_share_ * b.drive_N + line_N +
             rolls_N;
  }
  // With every member written here nothing is cleared first, which took longer than the sums.
  return {.rate = {.x = v,
                   .lean = s.lean_rate,
                   .length = gives() ? s.length_rate : 0,
                   .v = v_rate,
                   .lean_rate = (b.turning_N_m - l.arm_kg_m * v_rate) / b.turn_kg_m2,
                   .length_rate = gives() ? (b.outward_N - b.spring_N) / bodies_.rider_kg - l.outward * v_rate : 0,
                   .brake_x = brake.x_rate,
                   .brake_v = brake.v_rate,
                   .brake_work = brake.line_force_N * brake.x_rate,
                   .resistance_work = resistance_W},
          .unit = brake.unit,
          .line_force_N = brake.line_force_N,
          .lanyard_N = b.lanyard_still_N + b.lanyard_per_rate * v_rate,
          .push_N = push_N,
          .starts = still ? start_sense(s, mode, b, tension_N) : 0};
}

int System::start_sense(const State& s, Mode mode) const {
  const double tension_N = mode.apart ? 0 : unit_pull(at(s.x), s.v).tension_N;
  return start_sense(s, mode, balance(s, mode.apart, tension_N), tension_N);
}

int System::start_sense(const State& s, Mode mode, const Balance& b, double tension_N) const {
  const TrackPoint& at = this->at(s.x);
  const double bumper_N = mode.bumper_pushes ? this->bumper_N(s) : 0;
  if (acceleration(b, at.pull * tension_N + bumper_N, 1) > 0) return 1;
  if ((mode.apart || !bodies_.held_back) && acceleration(b, at.pull_back * tension_N + bumper_N, -1) < 0) return -1;
  return 0;
}

int System::brake_start_sense(const State& s, Mode mode) const {
  mode.sense = 0, mode.brake_sense = 1;
  if (forces(s, mode).rate.brake_v > 0) return 1;
  mode.brake_sense = -1;
  if (!bodies_.held_back && forces(s, mode).rate.brake_v < 0) return -1;
  return 0;
}

Mode System::apart_from_standstill(const State& s) const {
  const int brake_sense = brake_start_sense(s, {.apart = true});
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
  if (has_bumper()) energy += bumper_elastic_N(s) * pressed_m(s) / 2;
  const TrackPoint brake = track_.at(s.brake_x);
  const double alone_kg = bodies_.brake_trolley_kg * (1 + brake.slope * brake.slope) + brake.inertia_kg;
  return energy + (1 - brake_share_) * track_.potential_J(s.x) + brake_share_ * track_.potential_J(s.brake_x) +
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
