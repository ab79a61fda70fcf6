// The sections of what is rigged: [main_line], [[parallel_line]], [[support_line]], [[anchor]], [[member]], [[sheave]],
// [[line]], [[block]], [[connector]]. Their tables: cable_fields.hpp, rigging_fields.hpp, member_fields.hpp and
// line_fields.hpp.
#pragma once

#include <variant>

#include "geometry/layout/termination.hpp"

namespace fairlead {

/// Constructions whose stiffness can be estimated from the diameter alone.
enum class RopeConstruction { strand_1x7, strand_1x19, rope_6x19_iwrc, rope_6x36_iwrc, rope_7x19 };
enum class TensionAt { start, end, horizontal };

/// A cable hung between two anchors and measured bare. Known: how its stiffness and what was measured are given.
template <class Known>
struct HungCable {
  AnchorId from{}, to{};
  Place from_place, to_place;
  Real diameter_m, mass_kg_per_m;
  std::optional<Known> ea_N;  ///< exactly one of the two
  std::optional<Given<RopeConstruction>> construction;
  Real expansion_per_K;
  std::optional<Real> mbs_N;
  std::optional<Known> unstretched_length_m, sag_m, tension_N;  ///< exactly one, bare
  Given<TensionAt> tension_at{TensionAt::end, {}};
  Real at_temperature_K;                        ///< at which it was measured
  std::optional<Termination> from_end, to_end;  ///< where it has back anchors: at these
  Place place{};
};

/// `from` is its upstream, `to` its landing support. Where it has a back anchor it passes over a saddle at the support
/// and runs on to that anchor.
struct MainLine : HungCable<Given<Range>> {
  std::optional<AnchorId> from_back_anchor, to_back_anchor;
  Place from_back_place{}, to_back_place{};
  std::optional<Real> saddle_friction;  ///< greater over lesser tension when it slips over a saddle
};

/// A second main line beside the first.
struct ParallelLine : HungCable<Real> {
  Words id;
  std::optional<Real> rider_mass_kg;  ///< of the heaviest load that rolls on it; absent: it is always bare
};

/// The overhead line that a travelling block rides on.
struct SupportLine : HungCable<Real> {
  Words id;
  BlockId carries{};
  Given<Vec3> wheel;  ///< along, across, up from the block's point to where its wheels touch the line
  Place carries_place{};
};

/// wll: working load limit; mbs: minimum breaking strength. Exactly one for an anchor that no member holds; at most one
/// for one that members hold.
struct Anchor {
  Words id;
  Given<Point3> position;  ///< where the load acts
  std::optional<Real> wll_N, mbs_N;
  std::optional<Given<Point3>> base;     ///< where its bracket stands
  std::optional<Real> base_moment_N_m;   ///< working limit of the bracket there
  std::optional<Given<Vec3>> cone_axis;  ///< direction in which it may be pulled, any length > 0
  std::optional<Real> cone_angle_rad;    ///< greatest angle of the load off that direction
  std::optional<Given<Size>> movement;   ///< how far it may come to stand either way of its place: along, across, up
  std::optional<Given<PerAxis>> stiffness_N_per_m;  ///< in place of movement: of what carries it
  Place place{};
};

enum class MemberKind { leg, guy, pole };

/// A part that holds an anchor's point: a leg of a bridle or cross line, a guy, or a pole. wll, mbs: at most one.
struct Member {
  Words id;
  AnchorId anchor{};
  Given<MemberKind> kind;
  Given<Point3> to;  ///< where it is fixed
  std::optional<Real> ea_N;
  std::optional<Real> pretension_N;  ///< of a guy, with nothing pulling at the anchor
  std::optional<Real> wll_N, mbs_N;
  std::optional<Real> compression_limit_N;  ///< of a pole, against buckling
  std::optional<Given<bool>> may_be_lost;   ///< the rest must hold without it
  Place anchor_place{}, place{};
};

struct BrakeTrolleyEnd {
  bool operator==(const BrakeTrolleyEnd&) const = default;
};
struct BrakeUnitEnd {
  bool operator==(const BrakeUnitEnd&) const = default;
};
using Carrier = std::variant<AnchorId, BlockId, BrakeTrolleyEnd>;
using LineEnd = std::variant<AnchorId, BlockId, ConnectorId, BrakeTrolleyEnd, BrakeUnitEnd>;

/// How a sheave is fixed to its anchor. swivel: it turns about a given axis; free: it hangs on a link, sling or
/// shackle, and its centre and plane go where the forces on it want them.
enum class Mount { fixed, swivel, free };

/// What a sheave turns on: its friction by a table.
enum class Bearing { rolling, plain };

struct Sheave {
  Words id;
  Carrier on;
  Given<Mount> mount{Mount::fixed, {}};
  std::optional<Given<Point3>> position;  ///< of the centre; on an anchor, unless it hangs free
  std::optional<Given<Vec3>> offset;      ///< of the centre from its block or trolley
  Given<Vec3> axle;                       ///< direction, any length > 0
  Real pitch_diameter_m;                  ///< to the line's centre; from tread_diameter: that plus the line's diameter
  std::optional<Real> groove_m;           ///< groove width
  std::optional<Given<Size>> frame_m;     ///< of its frame and cheeks, about the centre
  std::optional<Real> wll_N, mbs_N;
  std::optional<Limit> sheave_ratio;       ///< least, tread over the line's diameter; beats the common limit
  std::optional<Limit> fleet_angle;        ///< beats the common limit
  std::optional<Given<Bearing>> bearing;   ///< at most one of the two
  std::optional<Real> friction;            ///< K: tension of the trailing side over the leading one as it turns, >= 1
  std::optional<Real> friction_wrap_rad;   ///< the wrap that K holds for; absent: any
  std::optional<Real> link_m;              ///< free: from the anchor's position to the centre
  std::optional<Given<Vec3>> swivel_axis;  ///< swivel: direction, any length > 0
  std::optional<Given<Point3>> swivel_at;  ///< swivel: a point on the axis; absent: the anchor's position
  std::optional<Real> mass_kg;             ///< swivel and free: with its frame
  Given<Vec3> centre_of_mass;              ///< swivel and free: along, across, up from the centre, as drawn
  std::optional<Real> tread_diameter_m;    ///< as written; pitch_diameter_m is filled in from it
  Place on_place{}, place{};
};

enum class Turning { anticlockwise, clockwise };
enum class LineMaterial { steel, fibre, webbing };

/// A sheave the line runs over, and the way it turns there as the line runs from `from` to `to`, seen with the
/// sheave's axle direction pointing at the viewer.
struct Over {
  SheaveId sheave{};
  std::optional<Turning> turning;  ///< absent: only one sense gives valid legs; rig derives it
  Place place;
};

struct Line {
  Words id;
  Given<LineMaterial> material;
  LineEnd from, to;
  Place from_place, to_place;
  std::vector<Over> route;
  Real diameter_m, mass_kg_per_m;
  std::optional<Real> mbs_N, tails_m;  ///< tails: both terminations together, added for the cut length
  std::optional<Real> length_m;        ///< finished, from bearing to bearing, unloaded
  std::optional<Real> ea_N;            ///< absent: it does not stretch
  /// Of an end on a block: along, across, up from the block's point; absent: at the point.
  std::optional<Given<Vec3>> from_offset, to_offset;
  std::optional<Real> adjuster_m;                            ///< what its adjuster takes up, from end to end
  std::optional<Real> length_tolerance_m;                    ///< +-, of its length as it is made
  std::optional<Real> from_termination_m, to_termination_m;  ///< eye, splice and connector, from the end's bearing
  std::optional<Termination> from_end, to_end;
  std::optional<Real> sheave_strength;  ///< share of its breaking strength that holds over its tightest sheave
  /// The block whose `rest_m` fixes this line's length in place of `length_m`; filled in for every line that is not the
  /// braking line and has no length. No block is named by two lines.
  std::optional<BlockId> closed_by;
  Place place{};
};

struct Block {
  Words id;
  Real mass_kg;
  std::optional<Real> rest_m;         ///< chainage of its point with the trolley at its rest mark
  std::optional<Given<Size>> size_m;  ///< of its body, about its point
  Given<Vec3> centre_of_mass;         ///< along, across, up from its point
  std::optional<Real> wll_N, mbs_N;
  Place place{};
};

struct Connector {
  Words id;
  std::vector<std::string> joins;  ///< ids of lines, blocks and anchors, or "brake_trolley", "brake_unit"
  std::optional<LineEnd> bearing;  ///< the first of them that is no line; filled in. Lines that end here bear on it
  std::optional<Words> size;
  std::optional<Real> wll_N, mbs_N;
  Place place{};
};

}  // namespace fairlead
