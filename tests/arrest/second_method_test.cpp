// SECOND. The whole motion by a second method: bodies in the plane, the lanyard a constraint, small even steps.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/arrest/motion.hpp"
#include "tests/arrest/riding.hpp"

namespace fairlead::arrest {
namespace {

struct Plane {
  double x{}, z{};
  friend Plane operator+(Plane a, Plane b) { return {a.x + b.x, a.z + b.z}; }
  friend Plane operator-(Plane a, Plane b) { return {a.x - b.x, a.z - b.z}; }
  friend Plane operator*(double s, Plane a) { return {s * a.x, s * a.z}; }
};
double dot(Plane a, Plane b) { return a.x * b.x + a.z * b.z; }

/// Ways and speeds along the line of the rider's and of the brake trolley, the rider's place and velocity.
struct Moving {
  double way{}, speed{}, brake_way{}, brake_speed{};
  Plane at, velocity;
};
Moving along(const Moving& s, const Moving& rate, double h) {
  return {s.way + h * rate.way,
          s.speed + h * rate.speed,
          s.brake_way + h * rate.brake_way,
          s.brake_speed + h * rate.brake_speed,
          s.at + h * rate.at,
          s.velocity + h * rate.velocity};
}

struct Rigged {
  Bodies b;
  Unit u;
  double ratio{}, efficiency{}, slope{}, rest_extension_m{}, inertia_kg{};
};

class Second {
 public:
  explicit Second(const Rigged& r)
      : r_(r), t_{1 / std::hypot(1, r.slope), r.slope / std::hypot(1, r.slope)}, n_{-t_.z, t_.x} {}

  /// Of the instant of contact, the rider hanging straight down.
  Moving contact(double speed) {
    Moving s;
    s.speed = speed, s.velocity = speed * t_, s.at = {0, -r_.b.hanging_m};
    meet(s);
    return s;
  }

  /// Where the trolleys part or meet within the step it is split there, by a secant.
  void step(Moving& s, double h) {
    const Moving before = s;
    const double apart_before = parting(s);
    s = moved(s, h);
    if (!(parting(s) < 0)) return;
    const double share = apart_before > 0 ? apart_before / (apart_before - parting(s)) : 0;
    s = moved(before, share * h);
    if (together_)
      together_ = false;
    else
      meet(s), ++meetings;
    s = moved(s, (1 - share) * h);
  }
  bool together() const { return together_; }
  double lean(const Moving& s) const {
    const Plane hangs = s.at - s.way * t_;
    return std::atan2(hangs.x, -hangs.z);
  }
  double lanyard_N(const Moving& s) const { return answer(s).lanyard_N; }
  int meetings = 0;

 private:
  Moving moved(const Moving& s, double h) const {
    const Moving a = rate(s), b = rate(along(s, a, h / 2)), c = rate(along(s, b, h / 2)), d = rate(along(s, c, h));
    return along(s, along(along(along(a, b, 2), c, 2), d, 1), h / 6);
  }
  /// Falls through zero where together they part, and apart they meet.
  double parting(const Moving& s) const { return together_ ? push_N(s) : s.brake_way - s.way; }
  struct Answer {
    double lanyard_N{}, acceleration{};
  };
  double rotor_kg() const { return r_.inertia_kg * t_.x * t_.x; }
  /// Of the unit, along the line, against its sense.
  double line_N(double way, double speed) const {
    const double line_speed = speed * t_.x / r_.ratio, drag = r_.u.share * r_.u.law.magnetic(std::abs(line_speed));
    const double T = r_.u.law.retraction_N(r_.rest_extension_m + way * t_.x / r_.ratio) + (speed >= 0 ? drag : 0);
    return T * t_.x / r_.ratio * (speed >= 0 ? 1 / r_.efficiency : r_.efficiency);
  }
  Answer answer(const Moving& s) const {
    const Bodies& b = r_.b;
    const Plane u = 1 / b.hanging_m * (s.at - s.way * t_), relative = s.velocity - s.speed * t_;
    const double air = s.velocity.x - b.wind_m_per_s, drag_N = -b.drag_kg_per_m * std::abs(air) * air;
    const double trolleys_kg = b.rider_trolley_kg + (together_ ? b.brake_trolley_kg : 0);
    const double mass_kg = trolleys_kg + (together_ ? rotor_kg() : 0), f = b.rolling * (s.speed > 0 ? 1 : -1);
    // acceleration = still + per_N S, and the lanyard keeps its length.
    const double still =
        (-trolleys_kg * g * t_.z - f * trolleys_kg * g * t_.x - (together_ ? line_N(s.way, s.speed) : 0)) / mass_kg;
    const double per_N = (dot(u, t_) + f * dot(u, n_)) / mass_kg;
    const Plane falls{drag_N / b.rider_kg, -g};
    const double S = (dot(u, falls) - dot(u, t_) * still + dot(relative, relative) / b.hanging_m) /
                     (1 / b.rider_kg + dot(u, t_) * per_N);
    return {S, still + per_N * S};
  }
  double brake_alone_N(double way, double speed) const {
    const double kg = r_.b.brake_trolley_kg, f = r_.b.rolling * (speed > 0 ? 1 : -1);
    return -kg * g * t_.z - f * kg * g * t_.x - line_N(way, speed);
  }
  double push_N(const Moving& s) const {
    return (r_.b.brake_trolley_kg + rotor_kg()) * answer(s).acceleration - brake_alone_N(s.way, s.speed);
  }
  Moving rate(const Moving& s) const {
    const Answer a = answer(s);
    const Plane u = 1 / r_.b.hanging_m * (s.at - s.way * t_);
    const double air = s.velocity.x - r_.b.wind_m_per_s, drag_N = -r_.b.drag_kg_per_m * std::abs(air) * air;
    Moving d;
    d.way = s.speed, d.speed = a.acceleration;
    d.at = s.velocity;
    d.velocity = Plane{drag_N / r_.b.rider_kg, -g} - a.lanyard_N / r_.b.rider_kg * u;
    d.brake_way = together_ ? d.way : s.brake_speed;
    d.brake_speed =
        together_ ? d.speed : brake_alone_N(s.brake_way, s.brake_speed) / (r_.b.brake_trolley_kg + rotor_kg());
    return d;
  }
  /// One impulse between the trolleys and one along the lanyard.
  void meet(Moving& s) {
    together_ = true;
    const Plane u = 1 / r_.b.hanging_m * (s.at - s.way * t_);
    const double brake_kg = r_.b.brake_trolley_kg + rotor_kg(), mass = r_.b.rider_trolley_kg + brake_kg,
                 ut = dot(u, t_);
    const double alone = (r_.b.rider_trolley_kg * s.speed + brake_kg * s.brake_speed) / mass;
    const double impulse = (dot(u, s.velocity) - ut * alone) / (1 / r_.b.rider_kg + ut * ut / mass);
    s.speed = s.brake_speed = alone + impulse * ut / mass;
    s.velocity = s.velocity - impulse / r_.b.rider_kg * u;
    s.brake_way = s.way;
  }

  Rigged r_;
  Plane t_, n_;
  bool together_ = false;
};

/// Along the record until the trolleys first stand or it ends. Its steps are held to 1e-7 each, some hundred of them;
/// ours, `steps` a sample, turn friction's sense at their ends only: 5 us late under a lanyard of 4 kN on 2.5 kg that
/// leaves 2 f S / m of it, 1.6e-4 m/s.
void hold_to_second_method(const Rigged& r, double speed, int least_meetings, int steps) {
  const auto track = Track::plain({.ratio = r.ratio,
                                   .efficiency = r.efficiency,
                                   .slope = r.slope,
                                   .travel_m = 60,
                                   .rest_extension_m = r.rest_extension_m,
                                   .weight_N = weight_N(r.b),
                                   .inertia_kg = r.inertia_kg});
  std::vector<Instant> record;
  // A rider hangs straight down where his acceleration is what his drag gives him.
  const double air = speed - r.b.wind_m_per_s, given = -r.b.drag_kg_per_m * std::abs(air) * air / r.b.rider_kg;
  const auto m = solve_motion(*track, r.b, r.u, {.speed_m_per_s = speed, .acceleration_m_per_s2 = given}, &record);
  ASSERT_TRUE(m) << m.error().why;
  ASSERT_NEAR(m->lean_rad, 0, 1e-12);
  Second second(r);
  Moving s = second.contact(speed);
  const double h = record_step_s / steps, across = 1 / std::hypot(1, r.slope);
  std::size_t i = 0;
  double loads = 0;
  for (; i < record.size() && !(second.together() && s.speed < 0.1); ++i) {
    ASSERT_NEAR(record[i].travel_m, s.way * across, 1e-4) << record[i].t_s << " s";
    ASSERT_NEAR(record[i].lean_rad, second.lean(s), 1e-4) << record[i].t_s << " s";
    ASSERT_NEAR(record[i].speed_m_per_s, s.speed * across, 3e-4) << record[i].t_s << " s";
    loads = std::max(loads, std::abs(record[i].lanyard_N - second.lanyard_N(s)) / (r.b.rider_kg * g));
    for (int k = 0; k < steps; ++k) second.step(s, h);
  }
  EXPECT_LT(loads, 1e-3) << "of the rider's weight";
  EXPECT_GT(i, 100u) << "half a second at least";
  EXPECT_GE(second.meetings, least_meetings);
  EXPECT_GE(m->separations, least_meetings);
}

TEST(SecondMethod, GoesTheSameWayThroughBrakeAndSwing) {
  Rigged r{.b = riding(80), .u = unit(45, 8, reeving::EddyLaw{640, 30}), .ratio = 1, .efficiency = 1};
  hold_to_second_method(r, 8, 0, 100);
}

TEST(SecondMethod, GoesTheSameWayOnASlopeThroughFrictionWindAndARotor) {
  Rigged r{.b = riding(50),
           .u = unit(90, 30, reeving::EddyLaw{1260, 15}),
           .ratio = 2,
           .efficiency = 0.93,
           .slope = -0.06,
           .rest_extension_m = 0.4,
           .inertia_kg = 1.5};
  r.b.rolling = 0.02, r.b.drag_kg_per_m = 0.3, r.b.wind_m_per_s = -6, r.u.share = 1.1;
  hold_to_second_method(r, 9, 0, 100);
}

TEST(SecondMethod, GoesTheSameWayWhereTheTrolleysPartAndMeet) {
  Rigged r{.b = riding(120), .u = unit(5, 0, reeving::EddyLaw{60, 10}), .ratio = 1, .efficiency = 1, .slope = 0.05};
  r.b.rolling = 0.01;
  hold_to_second_method(r, 9, 1, 1000);
}

/// Left behind by the swinging rider the brake trolley comes to a standstill, where friction holds it.
TEST(SecondMethod, GoesTheSameWayWhereTheBrakeTrolleyStandsAlone) {
  Rigged r{.b = riding(30), .u = unit(0, 0, reeving::EddyLaw{200, 1}), .ratio = 1, .efficiency = 1};
  r.b.rolling = 0.03;
  hold_to_second_method(r, 6, 1, 1000);
}

}  // namespace
}  // namespace fairlead::arrest
