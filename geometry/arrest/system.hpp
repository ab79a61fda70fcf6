// The equations of motion of trolleys and rider. Only this folder includes it.
#pragma once

#include <array>
#include <limits>

#include "geometry/arrest/motion.hpp"

namespace fairlead::arrest {

/// What moves. `brake_x` and `brake_v` are the brake trolley's; while both trolleys are together they equal x and v.
struct State {
  double x{}, lean{}, length{};  ///< rider trolley, lean of the lanyard, length of it
  double v{}, lean_rate{}, length_rate{};
  double brake_x{}, brake_v{};
  double brake_work{}, resistance_work{};  ///< taken by the unit, by rolling and drag, J
};
inline constexpr std::size_t state_size = 10;
using Numbers = std::array<double, state_size>;
State as_state(const Numbers&);
Numbers as_numbers(const State&);

/// How the trolleys move: sense is 1 downstream, -1 upstream, 0 held still by friction, which opposes it. Apart, the
/// brake trolley has one of its own, and a bumper between them may push.
struct Mode {
  bool apart = false;
  int sense = 1, brake_sense = 1;
  bool bumper_pushes = false;
};

struct UnitPull {
  double tension_N{}, extension_m{}, speed_m_per_s{};
};

/// All of one instant.
struct Forces {
  State rate;  ///< d state / dt
  UnitPull unit;
  double line_force_N{};  ///< along x on the brake trolley, retarding
  double lanyard_N{};
  double push_N{};  ///< of the rider trolley on the brake trolley, along x
  int starts = 0;   ///< of what stands still: as start_sense() says
};

class System {
 public:
  System(const Track& track, const Bodies& bodies, const Unit& unit);

  Forces forces(const State&, Mode) const;
  UnitPull unit_pull(const TrackPoint&, double v) const;
  /// Which way the rider trolley, in a mode together with the brake trolley, starts to move from a standstill; 0: it is
  /// held.
  int start_sense(const State&, Mode) const;
  /// The same of the brake trolley by itself, in a mode apart.
  int brake_start_sense(const State&, Mode) const;
  /// How both start from a standstill, if each is by itself.
  Mode apart_from_standstill(const State&) const;
  /// Whether they do part then.
  bool parts_at_standstill(const State&) const;
  double energy_J(const State&, Mode) const;
  /// Both trolleys take one speed: an impulse at the wheels, through a rigid lanyard also on the rider.
  State joined(const State&) const;
  /// Steady lean of a rider who is accelerated so along the path.
  double steady_lean_rad(double x_m, double v, double acceleration_m_per_s2) const;
  /// Length of a lanyard that gives, under a force.
  double length_m(double force_N) const { return slack_m_ + force_N / bodies_.lanyard_N_per_m; }
  /// Of the bare trolleys on it; 0 without one.
  double bumper_rad_per_s() const { return bumper_rad_per_s_; }
  bool has_bumper() const { return bodies_.bumper_N_per_m > 0; }
  /// How far the trolleys press it, along x; below 0 they are apart, or pull on what couples them.
  static double pressed_m(const State& s) { return s.x - s.brake_x; }
  /// What it pushes the trolleys apart with while it does; below 0 it would have to pull.
  double bumper_N(const State&) const;
  bool gives() const { return bodies_.lanyard_N_per_m > 0; }
  /// Whether it holds the rider; one that does not give with more than least_N.
  bool taut(const State& s, const Forces& f, double least_N) const {
    return gives() ? s.length > slack_m_ : f.lanyard_N > least_N;
  }

 private:
  struct Loaded;
  struct Balance;
  struct Alone;
  /// Of the unit, as Curve::at() and BrakeUnit::magnetic_at() tell it; with what does not change worked out before.
  Tangent retraction_at(double extension_m) const;
  Tangent magnetic_at(double speed_m_per_s) const;
  double bumper_elastic_N(const State&) const;
  /// Of the track; kept while the same place is asked for, as trolleys that stand still do.
  const TrackPoint& at(double x_m) const;
  Loaded load(const State&, const TrackPoint&, bool with_brake_trolley) const;
  Balance balance(const State&, bool apart, double unit_tension_N) const;
  double acceleration(const Balance&, double line_N, int sense) const;
  int start_sense(const State&, Mode, const Balance&, double unit_tension_N) const;
  Alone brake_trolley_alone(const State&, int sense, double push_N) const;

  const Track& track_;
  const Bodies& bodies_;
  const Unit& unit_;
  struct Segment {
    double from_m, from_N, N_per_m;
  };
  std::vector<Segment> retraction_;
  struct {
    double drag, squared;  ///< 2 F vc and vc^2 of an eddy law
  } eddy_{};
  mutable double at_m_ = std::numeric_limits<double>::quiet_NaN();
  mutable TrackPoint at_;
  mutable double pull_at_m_ = std::numeric_limits<double>::quiet_NaN(), pull_at_v_{};
  mutable UnitPull pull_;
  double slack_m_{};            ///< length of a lanyard that gives, without force
  double damping_N_s_per_m_{};  ///< of it
  double bumper_rad_per_s_{}, bumper_damping_N_s_per_m_{};
  double brake_share_{};  ///< of the brake trolley in all that hangs on the line
};

}  // namespace fairlead::arrest
