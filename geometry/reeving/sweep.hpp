// Every pose of the reeving over the travel of the brake trolley, and bounds on what lies between the poses.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "geometry/mainline/cable.hpp"
#include "geometry/quantity/solved.hpp"
#include "geometry/quantity/vectors.hpp"
#include "geometry/reeving/brake_unit.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::reeving {

/// A fixed sheave, in the order the line runs from the brake trolley to the brake unit.
struct Sheave {
  Point3 centre;
  Vec3 axle;          ///< unit vector
  double radius_m{};  ///< to the line's centre
  int sense{};        ///< +1: the line, running from trolley to unit, turns anticlockwise seen with the axle pointing
                      ///< at the viewer (right-hand about the axle); -1 clockwise
  bool operator==(const Sheave&) const = default;
};

enum class Running { at_rest, paying_out, returning };

/// One sweep to be solved: one main line state, one loading, one way of running. At rest and returning, the
/// tension at the unit's outlet is its retraction at the pose's extension; paying out, it is the peak tension of
/// `Reeving` at every pose: the most the unit can pull, wherever the rider is.
struct SweepInputs {
  int path{};  ///< index into mainline paths (state and loading)
  mainline::Cable cable;
  mainline::Cable reference;  ///< the same line as measured, empty trolley: where rest_extension_m was set
  double trolley_weight_N{};  ///< the brake trolley
  double rider_weight_N{};    ///< rider and rider trolley; 0 on the empty path
  Running running{};
  bool operator==(const SweepInputs&) const = default;
};

/// Everything the reeving's solver sees. Positions in the site frame.
struct Inputs {
  Point3 origin;           ///< the main line's start support
  Vec3 along, across, up;  ///< unit, right-handed: along horizontal toward the landing, up vertical
  double rest_m{};         ///< along from the start support to the trolley's rest mark
  double travel_m{};       ///< greatest planned travel, > 0
  double upstream_m{};     ///< <= 0: the travel at which sweeps with a rider begin
  Vec3 attachment;         ///< from the wheel's contact on the main line to the line's end on the trolley, site frame
  std::vector<Sheave> sheaves;  ///< at least one
  Point3 outlet;                ///< where the line leaves the brake unit
  Vec3 outlet_axis;             ///< unit vector out of the unit
  BrakeUnit unit;
  double rest_extension_m{};  ///< line out of the unit with the trolley at its mark on the reference cable
  mainline::Cable reference;  ///< the main line as measured: with the empty trolley it fixes the finished length
  double line_weight_N_per_m{};
  double speed_m_per_s{};  ///< fastest arrival
  std::vector<SweepInputs> sweeps;
  double length_resolution_m = 20e-3, angle_resolution_rad = 1e-3;  ///< largest gap between value and bound
  bool operator==(const Inputs&) const = default;
};

/// One line over one sheave; "on" is the trolley's side. Unit vectors point from the contact into the leg.
struct Turn {
  Point3 on, off;
  Vec3 on_leg, off_leg;
  double on_tension_N{}, off_tension_N{};
  double wrap_rad{}, on_fleet_rad{},
      off_fleet_rad{};  ///< fleet signed: positive where the leg leans toward the axle's direction
  Vec3 force_N;         ///< of the line on the sheave, the weight of the line on the wrap included
  Point3 wrap_centre;   ///< where the weight of the wrapped line acts
  double couple_N_m{};  ///< about the axle: radius x (off - on); 0 without friction
};

/// One leg as it hangs, for drawing and for lengths: a catenary in the vertical plane of its two ends.
struct Leg {
  Point3 from, to;    ///< trolley's side first
  double length_m{};  ///< along the hanging line
  double sag_m{};     ///< greatest vertical drop below the chord
  double from_tension_N{}, to_tension_N{};
  double H_N{};  ///< horizontal tension, the same all along the leg; the shape follows from H, the line's weight and
                 ///< the ends
  double weight_N{};
};

/// Scalars of one pose. travel < 0: the trolley rests and the rider is that far upstream of the mark.
struct Pose {
  double travel_m{};
  Point3 trolley;        ///< the wheel's contact on the main line
  Point3 attachment;     ///< the line's end on the trolley
  Point3 rider;          ///< the rider trolley's place on the main line; equals trolley after contact
  double extension_m{};  ///< line out of the unit
  double ratio{};        ///< d travel / d extension; NaN at travel < 0
  double pay_out{};      ///< d extension / d travel at travel >= 0
  double lead_rad{};     ///< line off the outlet's axis
  double trolley_tension_N{}, outlet_tension_N{};
  Vec3 pull_on_trolley_N;  ///< of the line on the trolley
  Vec3 pull_on_unit_N;     ///< of the line on the unit
  Vec3 hold_N;  ///< what holds the trolley there, or its mass times deceleration: closes its equilibrium along and
                ///< across
  Vec3 start_support_N, end_support_N;           ///< of the main line on its supports
  double main_line_moment_N_m{};                 ///< mainline::weight_moment_N_m of the pose's shape
  double main_line_weight_N{}, line_weight_N{};  ///< of the braking line's hanging part: legs and wraps
  double tau_rad{};                              ///< of the trolley's wheel
  double lift_by_line_m{};  ///< how much higher the trolley stands for the line's pull than without it
};

/// All poses of one passage, flat: turns[pose * sheaves + i], legs[pose * (sheaves + 1) + i].
struct Sweep {
  int path{};
  Running running{};
  std::vector<Pose> poses;  ///< rising travel; travel 0 is always among them
  std::vector<Turn> turns;
  std::vector<Leg> legs;
  int rest_pose{};  ///< index of travel 0
  // Over travel <= travel_m, upstream poses included, bounds after mechanics "between poses":
  std::vector<Extreme> fleet_rad;  ///< per sheave, greatest of both sides
  Extreme lead_rad;
  /// Of all attachments and contacts but the last (which leads to the unit) about their best plane (plane.hpp), each
  /// pose counted by the travel it stands for; NaN where they name no plane.
  Extreme thickness_m;
  Extreme across_m;           ///< their greatest offset across from the main line's vertical plane
  Extreme least_pay_out;      ///< over travel >= 0
  double greatest_pay_out{};  ///< bound over travel >= 0
  Extreme greatest_extension_m;
  bool beyond_data{};  ///< somewhere the retraction curve was continued past its last point
};

struct Reeving {
  std::vector<Sweep> sweeps;
  double peak_tension_N{};  ///< greatest over line speeds 0..v0 max dE/dx, plus retraction at greatest extension
  double peak_line_speed_m_per_s{}, retraction_at_full_N{};
  double finished_length_m{};  ///< outlet to trolley attachment along the hanging line, at rest, reference state
};

/// Sweeps run on work.threads threads; the result does not depend on how many.
Solved<Reeving> solve(const Inputs&, const Work& work = {});

}  // namespace fairlead::reeving
