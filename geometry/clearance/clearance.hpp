// How near everything that moves comes to everything else, over whole passages and between their poses.
//
// A gap is the distance between two surfaces. Where they meet it is 0 or less: below 0 they reach into each other at
// least so far, and 0 does not tell how far.
// Lines are where the solved legs hang at that instant, with sag and wind. A passage at rest is looked at from upstream
// of the redirect on; one that pays out or returns from travel 0 on, since nothing pulls before. Against structures the
// main line is looked at from support to support and a rider from the push-off on, both wherever a side wind may have
// them (span.hpp).
#pragma once

#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include "geometry/quantity/solved.hpp"
#include "geometry/reeving/sweep.hpp"
#include "geometry/sites/site.hpp"
#include "geometry/solids/shapes.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::clearance {

using namespace solids;

/// What must keep clear, or be kept clear of.
struct Thing {
  enum class Kind {
    rider,      ///< the envelope; index 0
    hands,      ///< the stretch of the pulling line beside the brake trolley; index 0
    line,       ///< index into reeving::Inputs::lines
    main_line,  ///< index 0
    block,      ///< a travelling one; index into reeving::Inputs::blocks
    sheave,     ///< one that stands on an anchor, or hangs there; index into reeving::Inputs::sheaves
    frame,      ///< of that sheave; the same index
    unit,       ///< the brake unit's body; index 0
    structure,  ///< index into Inputs::structures
  };
  Kind kind{};
  int index{};
  bool operator==(const Thing&) const = default;
};

/// What stands on the site, and what must keep clear of it.
struct Structure {
  Shape shape;
  std::shared_ptr<const sites::Site> scan;  ///< in place of the shape, where it is one
  bool lines = true, blocks = true, rider = true;
  bool operator==(const Structure&) const = default;
};

/// What a hanging rider can reach about the rider trolley's wheel on the main line, stiff where the rider leans: a box,
/// or all within a margin of a hull that the box holds.
struct Envelope {
  double width_m{}, length_m{};  ///< across and along, whole, the wheel in the middle
  double above_m{}, below_m{};   ///< highest and lowest reach from the main line
  std::vector<Vec3> corners{};   ///< along, across and up from the wheel, upright; none: those of the box
  double margin_m{};             ///< around the corners' hull
  bool operator==(const Envelope&) const = default;
};

/// How far a rider leans from hanging upright, about the wheel. Along the line, forward (feet toward the landing)
/// positive; back_rad <= 0 <= forward_rad.
struct Leans {
  double back_rad{}, forward_rad{};
  bool operator==(const Leans&) const = default;
};
struct Swing {
  /// Once in contact with the brake trolley: in each step of travel from the mark on, the last also in all beyond.
  std::vector<Leans> leans{{}};
  double step_m = 1;
  double sideways_rad{};  ///< either way, everywhere; >= 0
  bool operator==(const Swing&) const = default;
};

/// The most that a side wind does in one passage, from either side (blown.hpp).
struct SideWind {
  double line_N_per_m{};          ///< on the main line, per metre of it
  double rider_N{}, trolley_N{};  ///< on the wheels: what the wind on rider and brake trolley pulls there
  double lean_rad{};              ///< of the rider, with the wind
  bool operator==(const SideWind&) const = default;
};

/// A passage in which the main line, all of it, and the rider, from the push-off on, are held against structures.
struct Span {
  int sweep{};        ///< index into Reeving::sweeps, one without wind
  bool rider = true;  ///< the rider as well, where one rides
  SideWind wind;
  bool operator==(const Span&) const = default;
};

/// The body of a sheave on an anchor: a cylinder about its axle, and the frame that holds it.
struct SheaveBody {
  double rim_radius_m{}, width_m{};  ///< > 0
  std::optional<Box> frame;
  bool operator==(const SheaveBody&) const = default;
};

struct Inputs {
  std::vector<Structure> structures;
  std::optional<Envelope> rider;  ///< absent: nothing is said of the rider
  /// The rider is held in every lean between these at once; forward and back only in passages that pay out or return.
  /// Absent: not known, and the rider hangs upright.
  std::optional<Swing> swing;
  std::vector<SheaveBody> sheaves;  ///< per sheave of the reeving, as drawn; not read for wheels and sheaves of blocks
  std::vector<std::optional<Box>> blocks;  ///< per block, as drawn; absent: nothing is said of it, nor of a mount's
  std::optional<Box> unit;                 ///< the brake unit's body
  double main_line_radius_m{};
  /// Two legs that meet at a sheave, a block or a common end, and a line at what it is tied to, are not judged against
  /// each other within this of there (straight, along either leg).
  double meeting_m = 0.3;
  /// The pulling line's stretch within this of its end on the trolley is held against the rider on its own, as `hands`.
  double hands_m{};
  /// Largest gap between a value and its bound that the search leaves, per metre of the value where that is more than
  /// one. What the poses leave open between them, and the chords of curves (half of it), come on top.
  bool drawn = true;  ///< moments and profiles, which only sheets show, are asked for
  double resolution_m = 5e-3;
  std::vector<int> sweeps;  ///< indices into Reeving::sweeps: which passages are looked at
  std::vector<Span> spans;  ///< the same where rider and main line are held against structures
  double push_off_m{};      ///< along from the start support: where riders set off
  bool operator==(const Inputs&) const = default;
};

/// The least gap between two things.
struct Gap {
  Thing a, b;
  /// value: the least gap is this or less. bound: it is this or more; minus infinity where nothing is known between
  /// two poses. pose: of the sweep, at or before the place of the value.
  Extreme least_m;
  int sweep = -1;     ///< of Reeving::sweeps
  double travel_m{};  ///< of the value; below 0 is before contact
  Point3 on_a, on_b;  ///< on the two surfaces, where the value is
};

/// A gap over the travel of the passage in which it is least.
struct Profile {
  std::size_t gap{};  ///< index into Clearances::gaps
  struct At {
    double travel_m{}, gap_m{};  ///< gap_m: it is this or less there; infinite where farther than was looked
  };
  std::vector<At> at;  ///< of some poses and where it is least, in rising travel
};
/// How much farther than its least a gap is followed.
inline constexpr double profile_reach_m = 2;

enum class Why {
  rides_on_it,      ///< rider and main line, a support line and the wheel on it: one rolls on the other
  own_sheave,       ///< a leg and the sheave it runs onto, with that sheave's frame
  own_block,        ///< a leg and the block it ends or turns on
  own_unit,         ///< the braking line and the unit
  own_trolley,      ///< the pulling line and the main line, near the trolley
  meet_at_sheave,   ///< two legs near the sheave between them
  meet_at_block,    ///< two legs near the block both lead to
  meet_at_end,      ///< two lines near the place both are tied to
  tied_there,       ///< a line near its end, and what that end lies on
  judged_as_hands,  ///< the rider and the pulling line's stretch beside the trolley: a result of its own
  let_touch,        ///< the layout does not ask for it
};
/// A clause to follow "<a> and <b>: ".
std::string_view reason(Why);

/// What was left out, wholly or in part.
struct Exclusion {
  Thing a, b;
  Why why{};
  int leg_a = -1, leg_b = -1;  ///< of a and b where these are lines, counted along the line; -1: all of it
  double within_m{};           ///< only so far from where they meet; 0: everywhere
  bool operator==(const Exclusion&) const = default;
};

/// What a rider can reach at one instant as it was searched: corners of a few hulls, from the lean farthest back to the
/// one farthest forward. All within the margin of a hull belongs to it. None: no rider.
struct RiderHeld {
  std::vector<std::vector<Point3>> hulls;
  double margin_m{};
};

/// One instant of one passage: the rider's wheel at the chainage of a redirect's centre, or of a block's point.
struct Passing {
  enum class Met { at_travel, stays_upstream, stays_downstream };  ///< of `other`, the rider; the latter two: never
  Thing other;                                                     ///< a sheave on an anchor, or a block
  int sweep = -1;
  Met met{};
  double travel_m{};  ///< at_travel only, as all below
  std::vector<Gap>
      gaps;  ///< at that instant; redirect: to sheave, frame and every line; block: to it. Least value first
  RiderHeld rider;
};

/// An instant of the rider's way that has a name, and the rider's least gap to anything then, in the passage in which
/// that is least.
struct Moment {
  enum class When {
    contact,          ///< the rider comes to the brake trolley at its mark
    full_travel,      ///< the end of a passage that pays out
    leaning_back,     ///< where a rider leans farthest back, that lean alone: the nearest of the poses that have it
    leaning_forward,  ///< the same forward
    beside,           ///< where the rider comes nearest to a structure
  };
  When when{};
  Gap gap;
  RiderHeld rider;
};

/// The rider and the pulling line beside the brake trolley: in the rider's reach by their nature once they are in
/// contact, so what is told is how much of it lies there.
struct Hands {
  double stretch_m{};  ///< Inputs::hands_m
  Gap gap;             ///< between the envelope and that stretch
  double inside_m{};   ///< most of its length within the envelope, of all poses
  int sweep = -1;      ///< where that is; -1: nowhere
  double travel_m{};
};

struct Clearances {
  std::vector<Gap> gaps;  ///< one per pair judged, in the order of the kinds and indices
  std::optional<Hands> hands;
  std::vector<Passing> passings;  ///< redirects, then blocks; each in every passage with a rider that is looked at
  std::vector<Moment> moments;    ///< in the order of their kinds; those beside structures in the structures' order
  std::vector<Exclusion> excluded;
  std::vector<Profile> profiles;  ///< of rider and blocks to each kind of thing, of lines to structures
};

/// Unsolved where an input or a solved pose is not finite, or a shape is none. Pairs run on work.threads threads; the
/// result does not depend on how many.
Solved<Clearances> solve(const Inputs&, const reeving::Inputs&, const reeving::Reeving&, const Work& = {});

}  // namespace fairlead::clearance
