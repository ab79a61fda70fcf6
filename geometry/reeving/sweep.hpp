// Every pose of the reeving over the travel of the brake trolley, and bounds on what lies between the poses.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "geometry/mainline/cable.hpp"
#include "geometry/quantity/solved.hpp"
#include "geometry/quantity/vectors.hpp"
#include "geometry/reeving/brake_unit.hpp"
#include "geometry/reeving/placement.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::reeving {

/// What a point of the reeving moves with: nothing, the brake trolley, or the block of this index.
using Body = int;
inline constexpr Body on_ground = -2, on_trolley = -1;

/// A sheave with one line over it. A wheel that rolls on a support line is one of radius 0: it has no wrap, no sense
/// and no axle.
struct Sheave {
  Point3 centre;      ///< of a block's: as the block is drawn
  Vec3 axle;          ///< unit vector, likewise; zero for a wheel
  double radius_m{};  ///< to the line's centre
  int sense{};        ///< +1: its line, running from `from` to `to`, turns anticlockwise seen with the axle pointing
                      ///< at the viewer (right-hand about the axle); -1 clockwise
  Body body = on_ground;
  double friction = 1;         ///< K >= 1: tension of the trailing side over the leading one, as it turns
  double friction_wrap_rad{};  ///< the wrap K holds for; 0: any
  bool operator==(const Sheave&) const = default;
};

/// Where a line ends.
struct End {
  Point3 at;  ///< of a block's: as the block is drawn; of the trolley's: not read, it is Inputs::attachment
  Body body = on_ground;
  bool operator==(const End&) const = default;
};

/// What fixes the length of a line.
enum class Closing {
  unit,           ///< the brake unit pays it out: its tension belongs to the extension
  length,         ///< State::unstretched_m
  block_at_rest,  ///< its unstretched length is the one that puts a block at its Block::rest_m
};

/// One line, from the end nearer the brake trolley. Its sheaves stand in `Inputs::sheaves` one after the other, in the
/// order it runs over them; so turn k of a pose is sheave k, and leg k of line l has index legs_before(l) + k.
struct Line {
  End from, to;
  int first_sheave{}, sheaves{};
  double weight_N_per_m{}, diameter_m{};
  double compliance_per_N{};  ///< 1/EA; 0: it does not stretch
  Closing closing = Closing::unit;
  bool operator==(const Line&) const = default;
};

/// What holds a block besides its lines.
enum class Joint {
  none,     ///< it shifts and turns
  carrier,  ///< one with two wheels on a support line: it shifts and never turns
  ball,     ///< it hangs from its own point, which is fixed: a link, sling or shackle that turns with it and takes no
            ///< moment there
  hinge,    ///< it turns about an axis through its own point, which is fixed: a swivel
};

/// A travelling block, or a sheave on a mount that lets it turn. Its placement turns and shifts everything on it from
/// where it is drawn.
struct Block {
  Point3 drawn;           ///< of its own point, by which its place is told
  Point3 centre_of_mass;  ///< as drawn
  double weight_N{};
  Joint joint = Joint::none;
  Vec3 hinge_axis{};             ///< unit vector, site frame; zero without a hinge
  std::optional<double> rest_m;  ///< along from the start support, trolley at its mark on the reference lines
  bool operator==(const Block&) const = default;

  bool shifts() const { return joint == Joint::none || joint == Joint::carrier; }
  int turns() const { return joint == Joint::carrier ? 0 : joint == Joint::hinge ? 1 : 3; }
};

/// All lines in one weather.
struct State {
  mainline::Cable cable;              ///< the main line
  std::vector<double> unstretched_m;  ///< per line whose closing is `length`; NaN for the others
  bool operator==(const State& other) const {
    const auto same = [](double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); };
    return cable == other.cable && std::equal(unstretched_m.begin(), unstretched_m.end(), other.unstretched_m.begin(),
                                              other.unstretched_m.end(), same);
  }
};

enum class Running { at_rest, paying_out };

/// What the sheaves' friction hinders: lines that are paid out as the trolley goes downstream, or that come back. A rig
/// at a standstill may be anywhere between the two.
enum class Friction { none, paying_out, returning };

/// One sweep to be solved: one state of the lines, one loading, one way of running. At rest the tension at the unit's
/// outlet is its retraction at the pose's extension; paying out, it is the peak tension of `Reeving` at every pose: the
/// most the unit can pull, wherever the rider is.
struct SweepInputs {
  int path{};  ///< index into mainline paths (state and loading)
  State state;
  State reference;  ///< the same lines as measured, empty trolley: where rest_extension_m and Block::rest_m were set
  double trolley_weight_N{};  ///< the brake trolley
  double rider_weight_N{};    ///< rider and rider trolley; 0 on the empty path
  Running running{};
  Friction friction{};
  Vec3 wind_Pa;  ///< of a side wind on a line, times its diameter: N per m of it, square to up; zero without wind
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
  std::vector<Line> lines;      ///< one of them ends on the trolley, one (it may be the same) is the braking line
  int braking{};                ///< index of the braking line: its `to` is where it leaves the brake unit
  int pulling{};                ///< index of the line whose `from` is on the trolley
  std::vector<Block> blocks;
  double nominal_ratio = 1;  ///< n of n:1
  Vec3 outlet_axis;          ///< unit vector out of the unit
  BrakeUnit unit;
  double rest_extension_m{};  ///< line out of the unit with the trolley at its mark on the reference lines
  State reference;            ///< the lines as measured: with the empty trolley they fix the finished lengths
  double speed_m_per_s{};     ///< fastest arrival
  std::vector<SweepInputs> sweeps;
  std::vector<State> states;  ///< of the lines at rest, one a state of the main line
  double length_resolution_m = 20e-3, angle_resolution_rad = 1e-3;  ///< largest gap between value and bound
  bool operator==(const Inputs&) const = default;

  Point3 outlet() const { return lines[static_cast<std::size_t>(braking)].to.at; }
  std::size_t legs() const { return sheaves.size() + lines.size(); }  ///< of one pose
  std::size_t legs_before(std::size_t line) const { return static_cast<std::size_t>(lines[line].first_sheave) + line; }
};

/// One line over one sheave; "on" is the side nearer the line's `from`. Unit vectors point from the contact into the
/// leg.
struct Turn {
  Point3 on, off;
  Vec3 on_leg, off_leg;
  double on_tension_N{}, off_tension_N{};
  double wrap_rad{}, on_fleet_rad{},
      off_fleet_rad{};  ///< fleet signed: positive where the leg leans toward the axle's direction
  Vec3 force_N;         ///< of the line on the sheave, the load of the line on the wrap included
  Point3 wrap_centre;   ///< where the load of the wrapped line acts
  double couple_N_m{};  ///< of friction on what carries the sheave, about the axle; right-hand
};

/// One leg as it hangs, for drawing and for lengths: a catenary in the plane of its two ends and its load.
struct Leg {
  Point3 from, to;    ///< the line's `from` side first
  double length_m{};  ///< along the hanging line
  double sag_m{};     ///< greatest distance below the chord, in the direction of the load
  double from_tension_N{}, to_tension_N{};
  double least_tension_N{};  ///< anywhere along it
  double H_N{};  ///< tension square to the load, the same all along the leg; the shape follows from H, load and ends
  double weight_N{};  ///< of the leg
  Vec3 load_N_per_m;  ///< its weight and the wind on it
};

/// One block at one pose.
struct BlockPlace {
  Placement placement;
  Point3 centre_of_mass;
  Vec3 held_N;           ///< of its joint on it, at its own point; zero on one that shifts
  Vec3 held_couple_N_m;  ///< of its joint on it, about its own point; zero where it turns freely
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
  /// Of the reduction at travel >= 0. Paying out: the share of the trolley's work that the sheaves do not take;
  /// returning: the share of the unit's and the blocks' work that reaches the trolley. NaN without friction.
  double efficiency{};
  double lead_rad{};  ///< line off the outlet's axis
  double trolley_tension_N{}, outlet_tension_N{};
  Vec3 pull_on_trolley_N;  ///< of the line on the trolley
  Vec3 pull_on_unit_N;     ///< of the line on the unit
  Vec3 hold_N;  ///< what holds the trolley there, or its mass times deceleration: closes its equilibrium along and
                ///< across
  Vec3 start_support_N, end_support_N;           ///< of the main line on its supports
  double main_line_moment_N_m{};                 ///< mainline::weight_moment_N_m of the pose's shape
  double main_line_weight_N{}, line_weight_N{};  ///< of all lines' hanging parts: legs and wraps
  double tau_rad{};                              ///< of the trolley's wheel
  double lift_by_line_m{};  ///< how much higher the trolley stands for the line's pull than without it
};

/// How far things are, at a travel between two neighbouring poses, from the straight interpolation between the two:
/// proven. Infinite where nothing is known.
struct Stray {
  double trolley_m{}, rider_m{};
  std::vector<double> blocks_m;  ///< of any point within 0.5 m of the block's own
  std::vector<double> legs_m;    ///< of every point of a leg: its ends, and the curve by equal shares of the chord
};

/// All poses of one passage, flat: turns[pose * sheaves + i], legs[pose * legs + i], blocks[pose * blocks + i],
/// tension_N[pose * lines + i].
struct Sweep {
  int path{};
  Running running{};
  Friction friction{};
  /// Per sheave: tension on the side of the line's `from` over that on the other, both as they would be at the height
  /// of its centre. Empty without friction.
  std::vector<double> tension_ratio;
  bool in_wind = false;     ///< SweepInputs::wind_Pa is not zero
  std::vector<Pose> poses;  ///< rising travel; travel 0 is always among them
  std::vector<Turn> turns;
  std::vector<Leg> legs;
  std::vector<BlockPlace> blocks;
  std::vector<double> tension_N;  ///< greatest along each line
  std::vector<Stray> strays;      ///< between pose i and i + 1
  int rest_pose{};                ///< index of travel 0
  // Over travel <= travel_m, upstream poses included, bounds after mechanics "between poses":
  std::vector<Extreme> fleet_rad;        ///< per sheave, greatest of both sides
  std::vector<Extreme> least_wrap_rad;   ///< per sheave; 0 at a wheel
  std::vector<Extreme> least_tension_N;  ///< per leg, anywhere along it
  Extreme lead_rad;
  /// Of all attachments and contacts, but those of support lines and the last one of the braking line (which leads to
  /// the unit), about their best plane (plane.hpp), each pose counted by the travel it stands for; NaN where they name
  /// no plane.
  Extreme thickness_m;
  Extreme across_m;           ///< their greatest offset across from the main line's vertical plane
  Extreme least_pay_out;      ///< over travel >= 0
  Extreme least_efficiency;   ///< likewise; NaN without friction
  double greatest_pay_out{};  ///< bound over travel >= 0
  Extreme greatest_extension_m;
  bool beyond_data{};  ///< somewhere the retraction curve was continued past its last point
};

/// The empty trolley at a standstill.
struct Rest {
  double extension_m{};  ///< with the trolley at its mark
  double outlet_tension_N{}, trolley_tension_N{};
  /// Travel at which Inputs::rest_extension_m is out: where a trolley stands that the unit draws in to that extension;
  /// negative upstream of the mark.
  double shift_m{};
};

/// The same in one state of the lines, at one end of what their friction holds: that of an empty sweep at rest, or with
/// that sweep's reference in place of its state.
struct RestPosition {
  int sweep{};
  bool measured{};
  Solved<Rest> rest = unsolved("not solved");
};

/// One leg where it hangs farthest from its chord, of all poses with lines at rest and the trolley at its mark.
struct RestingLeg {
  int sweep = -1, pose = -1;  ///< in still air
  double length_m{}, horizontal_N{};
  double sag_m{}, square_sag_m{};       ///< below the chord, and square to it
  int wind_sweep = -1, wind_pose = -1;  ///< in a side wind; -1 without
  double blow_out_m{};                  ///< then, across from the chord
};

/// How much longer a line is than without tension. Of the braking line what is out of the unit then.
struct Stretch {
  double at_rest_m{};  ///< empty trolley at its mark, reference state
  double greatest_m{};
  int sweep = -1, pose = -1;  ///< of the greatest
};

struct Reeving {
  std::vector<Sweep> sweeps;
  std::vector<RestPosition> rest;  ///< as measured first, then in the order of the sweeps
  std::vector<RestingLeg> resting_legs;
  std::vector<Stretch> stretch;  ///< per line
  double peak_tension_N{};       ///< greatest over line speeds 0..v0 max dE/dx, plus retraction at greatest extension
  double peak_line_speed_m_per_s{}, retraction_at_full_N{};
  /// Per line, end to end along the hanging line, empty trolley at its mark, reference state; of the braking line from
  /// the outlet on.
  std::vector<double> finished_length_m;
  std::vector<double> rest_tension_N;     ///< per line then, at its `to`
  std::vector<double> unloaded_length_m;  ///< per line then, without its stretch
  /// lengths_needed of schedule.hpp.
  Solved<std::vector<std::vector<double>>> needed_m = unsolved("not solved");
  std::vector<double> friction;  ///< per sheave: K at its wrap then, which is taken everywhere
};

/// Sweeps run on work.threads threads; the result does not depend on how many.
Solved<Reeving> solve(const Inputs&, const Work& work = {});

}  // namespace fairlead::reeving
