#include "geometry/arrest/motion.hpp"

#include <fmt/format.h>
// Before the stepper, whose header forgets it.
#include <boost/numeric/odeint/util/bind.hpp>
#include <boost/numeric/odeint/util/unwrap_reference.hpp>

#include <algorithm>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <numbers>
#include <utility>

#include "geometry/arrest/measures.hpp"
#include "geometry/arrest/system.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

namespace odeint = boost::numeric::odeint;
using Stepper = odeint::result_of::make_dense_output<odeint::runge_kutta_dopri5<Numbers>>::type;

/// Of metres, radians and their rates, and of joules. Energy is to close to a share of what moved before contact: from
/// a slow rider's less, by the square of his speed, down to what rounding leaves.
/// A bumper that swings at w rad/s stores for a metre what a mass has at w m/s.
double tolerance_of(double arrival_m_per_s, double bumper_rad_per_s) {
  constexpr double fast_m_per_s = 3, fast = 1e-7, least = 1e-11;
  const double tolerance = fast * std::min(1.0, std::pow(arrival_m_per_s / fast_m_per_s, 2));
  return std::max(least, tolerance / std::max(1.0, bumper_rad_per_s));
}
constexpr int most_events = 400;
constexpr double shortest_step_s = 1e-9;
constexpr double touching_m = 1e-9;
constexpr double parting_N = 1e-9;  ///< rounding does not part trolleys that slow down alike
/// No step goes farther, at twice the speed of arrival, than the track goes on beyond its end; one that does all the
/// same meets what is no number, and leaves its corner unsolved.
constexpr double longest_step_m = Track::margin_m / 2;
constexpr double closing = 1e-6;  ///< of the kinetic energy before contact

/// Who asks only how far riders come looks less often, where nothing swings faster than the rider. In half of this the
/// lanyard's force, which at his swing's w goes with 3 w^2 / 2 at most about its least, rises by 0.1 % of his weight.
constexpr double sparse_step_s = 4 * record_step_s;
constexpr double nearly_slack = 0.005;  ///< of the weight: then counts as slack

enum class Event {
  none,
  slack,
  extension_out,
  travel_out,
  at_mark,
  turns,
  lets_go,
  brake_turns,
  brake_lets_go,
  parts,
  meets,
  bumper_turns,
  bumper_solid
};

/// One run of the equations from contact on, with everything it leaves.
class Run {
 public:
  Run(const Track& track, const Bodies& bodies, const Unit& unit, const Contact& contact)
      : track_(track), bodies_(bodies), unit_(unit), contact_(contact), system_(track, bodies, unit) {}

  enum class Peaks { all, extension };
  Solved<Motion> solve(Peaks, std::vector<Instant>* record, std::vector<Instant>* edges);

 private:
  void begin();
  /// Steps until an event or the end of the record; false where steps get too short.
  bool advance();
  Event event_at(const State&, const Forces&) const;
  /// The first instant in (from, to] at which there is an event, by halving: of several the one that comes first.
  double first_event_s(double from_s, double to_s);
  State between(double t_s);
  bool handle(Event, double t_s);
  void see_standing(double t_s);
  Instant instant(double t_s, const State&, const Forces&) const;
  void sample(double t_s, const State&, const Forces&);
  /// The last or first instant of a stretch without an event.
  void mark_edge();
  double mean_speed_m_per_s() const;
  double end_s() const { return stopped_s_ ? *stopped_s_ + settling_s_ : longest_s; }

  const Track& track_;
  const Bodies& bodies_;
  const Unit& unit_;
  const Contact& contact_;
  System system_;
  Stepper stepper_ =
      odeint::make_dense_output(tolerance_of(contact_.speed_m_per_s, system_.bumper_rad_per_s()),
                                tolerance_of(contact_.speed_m_per_s, system_.bumper_rad_per_s()),
                                longest_step_m / contact_.speed_m_per_s, odeint::runge_kutta_dopri5<Numbers>());
  Motion motion_;
  Mode mode_;
  State at_;
  double t_s_ = 0, step_s_ = 1e-3;
  std::optional<double> stopped_s_, stood_again_s_;  ///< first standstill that may be the stop; the last one after it
  double settling_s_{};
  double kinetic_J_{};  ///< before contact
  double start_J_{};    ///< energy after it
  int samples_ = 0;
  bool ended_ = false;
  bool waits_ = false;          ///< the brake trolley, at its stop: until it is pushed on
  bool solid_ = false;          ///< the bumper
  double least_lanyard_N_ = 0;  ///< of a rigid one that holds the rider
  Record record_;
};

void Run::begin() {
  // After it stands, one full swing of a pendulum, so that the swing back is seen.
  settling_s_ = 2 * std::numbers::pi * std::sqrt(bodies_.hanging_m / standard_gravity);
  motion_.lean_rad = system_.steady_lean_rad(contact_.x_m, contact_.speed_m_per_s, contact_.acceleration_m_per_s2);
  State before;
  before.x = before.brake_x = contact_.x_m;
  const double slope = track_.at(contact_.x_m).slope;
  before.v = contact_.speed_m_per_s / std::sqrt(1 + slope * slope);
  before.lean = motion_.lean_rad;
  before.length = system_.gives() ? system_.length_m(bodies_.rider_kg * standard_gravity * std::cos(before.lean))
                                  : bodies_.hanging_m;
  if (system_.has_bumper()) {
    at_ = before;
    mode_ = {.apart = true, .sense = 1, .brake_sense = 0, .bumper_pushes = true};
    waits_ = true;
  } else {
    at_ = system_.joined(before);
  }
  const double energy_before_J = system_.energy_J(before, {.apart = true});
  start_J_ = system_.energy_J(at_, mode_);
  State standing = before;
  standing.v = 0;
  kinetic_J_ = energy_before_J - system_.energy_J(standing, {.apart = true});
  motion_.lost_at_contact_J = energy_before_J - start_J_;
  motion_.speed_after_contact_m_per_s = at_.v;
  motion_.swing_rate_after_contact_rad_per_s = at_.lean_rate;
  motion_.stop_travel_m = at_.x;
}

State Run::between(double t_s) {
  Numbers n;
  stepper_.calc_state(t_s, n);
  return as_state(n);
}

Event Run::event_at(const State& s, const Forces& f) const {
  if (!system_.taut(s, f, least_lanyard_N_)) return Event::slack;
  const double brake_x = mode_.apart ? s.brake_x : s.x;
  if (!(f.unit.extension_m < unit_.extension_limit_m)) return Event::extension_out;
  if (!(brake_x < track_.to_m())) return Event::travel_out;
  const bool bumper = system_.has_bumper();
  if ((bumper ? std::min(s.x, s.brake_x) : s.x) < -touching_m) return Event::at_mark;
  if (bumper && !(System::pressed_m(s) < bodies_.bumper_give_m)) return Event::bumper_solid;
  // It pushes and never pulls: it begins to where it is met, and ends before its damper would hold the trolleys back.
  if (bumper && !bodies_.coupled &&
      (mode_.bumper_pushes ? system_.bumper_N(s) < -parting_N
                           : System::pressed_m(s) > touching_m && system_.bumper_N(s) > 0))
    return Event::bumper_turns;
  if (mode_.apart && !bumper && s.x > s.brake_x + touching_m) return Event::meets;
  if (mode_.apart && mode_.brake_sense == 0) {
    const int starts = system_.brake_start_sense(s, mode_);
    if (waits_ ? starts > 0 : starts != 0) return Event::brake_lets_go;
  }
  if (mode_.apart && s.brake_v * mode_.brake_sense < 0) return Event::brake_turns;
  const bool may_part = !mode_.apart && !bodies_.coupled;
  if (may_part && (mode_.sense == 0 ? system_.parts_at_standstill(s) : f.push_N < -parting_N)) return Event::parts;
  if (mode_.sense == 0) return f.starts != 0 ? Event::lets_go : Event::none;
  return s.v * mode_.sense < 0 ? Event::turns : Event::none;
}

double Run::first_event_s(double from_s, double to_s) {
  for (int halvings = 0; halvings < 50 && to_s - from_s > 1e-12; ++halvings) {
    const double middle = from_s + (to_s - from_s) / 2;
    const State s = between(middle);
    (event_at(s, system_.forces(s, mode_)) != Event::none ? to_s : from_s) = middle;
  }
  return to_s;
}

Instant Run::instant(double t_s, const State& s, const Forces& f) const {
  return {.t_s = t_s,
          .travel_m = s.x,
          .speed_m_per_s = f.rate.x,
          .lean_rad = s.lean,
          .extension_m = f.unit.extension_m,
          .line_speed_m_per_s = f.unit.speed_m_per_s,
          .unit_tension_N = f.unit.tension_N,
          .line_force_N = f.line_force_N,
          .lanyard_N = f.lanyard_N,
          .acceleration_m_per_s2 = f.rate.v,
          .brake_travel_m = mode_.apart ? s.brake_x : s.x,
          .brake_speed_m_per_s = f.rate.brake_x,
          .brake_acceleration_m_per_s2 = f.rate.brake_v,
          .apart = mode_.apart};
}

void Run::sample(double t_s, const State& s, const Forces& f) {
  record_.instants.push_back(instant(t_s, s, f));
  motion_.stop_travel_m = std::max(motion_.stop_travel_m, mode_.apart ? s.brake_x : s.x);
}

void Run::mark_edge() {
  record_.edges.push_back(instant(t_s_, at_, system_.forces(at_, mode_)));
  motion_.stop_travel_m = std::max(motion_.stop_travel_m, mode_.apart ? at_.brake_x : at_.x);
}

/// Over the last full swing, which a rider who swings leaves out of it.
double Run::mean_speed_m_per_s() const {
  const auto swing = static_cast<std::size_t>(settling_s_ / record_.step_s);
  const std::vector<Instant>& seen = record_.instants;
  if (seen.size() <= swing) return std::nan("");
  const Instant &from = seen[seen.size() - 1 - swing], &to = seen.back();
  return (to.travel_m - from.travel_m) / (to.t_s - from.t_s);
}

/// Both have come to a standstill or beyond.
void Run::see_standing(double t_s) {
  if (mode_.apart && (mode_.sense > 0 || mode_.brake_sense > 0)) return;
  if (stopped_s_)
    stood_again_s_ = t_s;
  else
    stopped_s_ = t_s;
}

/// True where the record ends there.
bool Run::handle(Event event, double t_s) {
  switch (event) {
    case Event::slack:
      motion_.outcome = Outcome::lanyard_slack;
      return true;
    case Event::extension_out:
      motion_.outcome = Outcome::extension_exhausted;
      return true;
    case Event::travel_out:
      motion_.outcome = Outcome::travel_exhausted;
      return true;
    case Event::at_mark:
      return true;
    case Event::turns:
      at_.v = 0;
      if (!mode_.apart) at_.brake_v = 0;
      mode_.sense = system_.start_sense(at_, mode_);
      see_standing(t_s);
      return false;
    case Event::lets_go:
      mode_.sense = system_.start_sense(at_, mode_);
      return false;
    case Event::brake_turns:
      at_.brake_v = 0;
      mode_.brake_sense = system_.brake_start_sense(at_, mode_);
      see_standing(t_s);
      return false;
    case Event::brake_lets_go:
      mode_.brake_sense = system_.brake_start_sense(at_, mode_);
      waits_ = false;
      return false;
    case Event::parts:
      at_.brake_x = at_.x, at_.brake_v = at_.v;
      mode_ = mode_.sense == 0 ? system_.apart_from_standstill(at_)
                               : Mode{.apart = true, .sense = mode_.sense, .brake_sense = mode_.sense};
      ++motion_.separations;
      return false;
    case Event::meets: {
      const double before_J = system_.energy_J(at_, mode_);
      at_.x = at_.brake_x;
      at_ = system_.joined(at_);
      mode_ = {.apart = false, .sense = at_.v < 0 ? -1 : 1};
      motion_.lost_at_contact_J += before_J - system_.energy_J(at_, mode_);
      return false;
    }
    case Event::bumper_turns:
      mode_.bumper_pushes = !mode_.bumper_pushes;
      return false;
    case Event::bumper_solid:
      solid_ = true;
      return true;
    case Event::none:
      return false;
  }
  return false;
}

bool Run::advance() {
  stepper_.initialize(as_numbers(at_), t_s_, step_s_);
  const auto rates = [this](const Numbers& n, Numbers& rate, double) {
    rate = as_numbers(system_.forces(as_state(n), mode_).rate);
  };
  for (;;) {
    const auto [from_s, to_s] = stepper_.do_step(rates);
    if (!(to_s - from_s > shortest_step_s)) return false;
    double seen_s = from_s;
    const auto look = [&](double t_s, bool on_grid) {
      const State s = between(t_s);
      const Forces f = system_.forces(s, mode_);
      if (event_at(s, f) == Event::none) {
        if (on_grid) sample(t_s, s, f), ++samples_;
        seen_s = t_s;
        return false;
      }
      t_s_ = first_event_s(seen_s, t_s);
      at_ = between(t_s_);
      mark_edge();
      ended_ = handle(event_at(at_, system_.forces(at_, mode_)), t_s_);
      if (!ended_) mark_edge();
      record_.pieces.push_back(record_.instants.size());
      return true;
    };
    while (samples_ * record_.step_s <= to_s) {
      const double t_s = samples_ * record_.step_s;
      // Only the swinging rider held the trolley for a moment, and it went on: where it stood again counts, if it did.
      if (stopped_s_ && t_s >= end_s() && mean_speed_m_per_s() > standing_m_per_s)
        stopped_s_ = std::exchange(stood_again_s_, std::nullopt);
      if (t_s >= end_s()) {
        t_s_ = t_s;
        at_ = between(t_s);
        ended_ = true;
        return true;
      }
      if (look(t_s, true)) return true;
    }
    if (look(to_s, false)) return true;
    // A bumper may push and let go between two instants of the record, but not within a step.
    if (system_.has_bumper()) t_s_ = to_s, at_ = between(to_s), mark_edge();
    step_s_ = to_s - from_s;
  }
}

Solved<Motion> Run::solve(Peaks peaks, std::vector<Instant>* record, std::vector<Instant>* edges) {
  if (!(contact_.speed_m_per_s > 0) || !(contact_.x_m >= 0 && contact_.x_m < track_.to_m()))
    return unsolved("a contact needs a speed above 0 and a place on the track", contact_.speed_m_per_s);
  if (peaks == Peaks::extension && !system_.gives() && !system_.has_bumper()) {
    record_.step_s = sparse_step_s;
    least_lanyard_N_ = nearly_slack * bodies_.rider_kg * standard_gravity;
  }
  begin();
  sample(0, at_, system_.forces(at_, mode_));
  samples_ = 1;
  if (!(motion_.lost_at_contact_J >= 0)) return unsolved("the impact gains energy", motion_.lost_at_contact_J);
  const double lost_first_J = motion_.lost_at_contact_J;
  for (int events = 0; !ended_; ++events) {
    if (events == most_events)
      return unsolved(fmt::format("the trolleys part, meet and turn {} times in {:.3f} s", events, t_s_), t_s_, events);
    if (!advance())
      return unsolved(fmt::format("the step gets shorter than a nanosecond at {:.3f} s after contact", t_s_), step_s_);
  }
  if (solid_)
    return unsolved(fmt::format("the bumper is pressed solid {:.3f} s after contact, at {:.3f} m of give", t_s_,
                                bodies_.bumper_give_m),
                    bodies_.bumper_give_m);
  const State& s = at_;
  const Forces f = system_.forces(s, mode_);
  motion_.end_s = t_s_;
  motion_.end_travel_m = mode_.apart ? s.brake_x : s.x;
  motion_.end_speed_m_per_s = f.rate.x;
  motion_.end_extension_m = f.unit.extension_m;
  motion_.stop_travel_m = std::max(motion_.stop_travel_m, motion_.end_travel_m);
  const double mean = mean_speed_m_per_s();
  if (motion_.outcome == Outcome::stops && !stopped_s_ && t_s_ >= longest_s && !(mean <= standing_m_per_s)) {
    motion_.outcome = Outcome::creeps;
    motion_.end_speed_m_per_s = mean;
  }
  motion_.stop_time_s = stopped_s_.value_or(t_s_);
  motion_.brake_work_J = s.brake_work;
  motion_.rolling_and_drag_J = s.resistance_work;
  const double missing_J = system_.energy_J(s, mode_) + s.brake_work + s.resistance_work +
                           (motion_.lost_at_contact_J - lost_first_J) - start_J_;
  motion_.energy_residual = std::abs(missing_J) / kinetic_J_;
  if (peaks == Peaks::all)
    judge_record(record_, bodies_.rider_kg * standard_gravity, motion_);
  else
    judge_extension(record_, motion_);
  if (record) *record = std::move(record_.instants);
  if (edges) *edges = std::move(record_.edges);
  if (!(motion_.energy_residual <= closing))
    return unsolved(
        fmt::format("energy does not close: {:.2g} of that before contact is missing", motion_.energy_residual),
        motion_.energy_residual);
  return motion_;
}

}  // namespace

Solved<Motion> solve_motion(const Track& track, const Bodies& bodies, const Unit& unit, const Contact& contact,
                            std::vector<Instant>* record, std::vector<Instant>* edges) {
  return Run(track, bodies, unit, contact).solve(Run::Peaks::all, record, edges);
}

Solved<Motion> solve_reach(const Track& track, const Bodies& bodies, const Unit& unit, const Contact& contact) {
  return Run(track, bodies, unit, contact).solve(Run::Peaks::extension, nullptr, nullptr);
}

}  // namespace fairlead::arrest
