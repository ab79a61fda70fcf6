// What every anchor, line, sheave and block carries: one load case at a time, and the self-check that nothing was
// forgotten.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "geometry/anchorage/node.hpp"
#include "geometry/loads/arrested.hpp"
#include "geometry/mainline/states.hpp"
#include "geometry/reeving/sweep.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::loads {

inline constexpr int no_anchor = -1;

/// The anchors of one line's ends; `no_anchor` for an end on the brake trolley, on a block or at the brake unit.
struct LineAnchors {
  int from = no_anchor, to = no_anchor;
  bool operator==(const LineAnchors&) const = default;
};

/// What acts. The passages first; then what is looked at beside them.
enum class Action {
  at_rest,
  returning,  ///< lines that came back, or are coming: friction hinders that
  wind,
  peak_tension,   ///< the most the unit can pull of a rider who hangs at rest
  arrest,         ///< an instant of a simulated arrest, the line paid out
  arrest_return,  ///< the same, the line drawn in
  rider_on_span,
  both_lines,    ///< riders on the open span of the main line and of every parallel line at once
  rescue,        ///< two persons on the main line
  backup_brake,  ///< the heaviest rider at full travel, the backup brake pulling all it can
  ice,           ///< and the other two: nobody rides
  storm,
  ice_and_wind,
  member_lost  ///< any of these, with one member of an anchor gone
};

/// A line hung between two anchors and the wind on it, per unstretched metre.
struct Blown {
  mainline::Cable cable;
  Vec3 wind_N_per_m;
  bool operator==(const Blown&) const = default;
};

/// Weather in which nobody rides. The brake trolley's weight is spread along the main line.
struct Weather {
  Action action{};
  int state{};  ///< of the main line: the lines of the arrest system rest as in it
  Blown main_line;
  std::vector<Blown> beside;  ///< per parallel line
  bool operator==(const Weather&) const = default;
};

/// The greatest wind across in which anybody rides.
struct RiddenWind {
  double line_N_per_m{}, rider_N{};  ///< on the main line per unstretched metre; on the side of a rider on any line
  std::vector<double> beside_N_per_m{};
  bool operator==(const RiddenWind&) const = default;
};

/// A parallel line; it is bare but in Action::both_lines.
struct Beside {
  int from{}, to{};
  std::vector<mainline::Cable> in_state;  ///< per state of the main line
  double rider_N{};                       ///< weight of what rolls on it; 0: nothing does
  bool operator==(const Beside&) const = default;
};

/// What holds the backup brake, and the most it pulls there downstream along the main line.
struct Backup {
  int anchor = no_anchor;
  double force_N{}, engages_m{};  ///< from the start support, in plan
  bool operator==(const Backup&) const = default;
};

/// A part that holds an anchor's point.
struct Member {
  std::string name;
  int anchor{};
  anchorage::Member part;
  bool may_be_lost = false;
  bool operator==(const Member&) const = default;
};

/// How an anchor stands on what carries it, where that is known.
struct Footing {
  std::optional<Point3> base;
  std::optional<Vec3> cone_axis;
  bool operator==(const Footing&) const = default;
};

/// Which anchor holds what; indices into the layout's anchors.
struct Inputs {
  std::vector<Point3> anchors;
  std::vector<int> sheave_anchor;         ///< per sheave of the reeving; `no_anchor` for one on a block (a support
                                          ///< line's wheel or a mounted sheave) or on the trolley
  std::vector<LineAnchors> line_anchors;  ///< per line of the reeving, its support lines included
  std::vector<int> block_anchor;          ///< per block of the reeving: of its mount; `no_anchor` for one that shifts
  int unit_anchor{}, start_anchor{}, end_anchor{};
  double unit_weight_N{};  ///< of the brake unit on its anchor; 0 where the layout gives no mass
  /// Where the main line passes over a saddle at its support and runs on to an anchor behind. The length of its states
  /// is that of the span alone: nothing is fed over a saddle from one state to the next.
  int start_back_anchor = no_anchor, end_back_anchor = no_anchor;
  double saddle_friction = 1;  ///< greater over lesser tension when it slips there, >= 1
  double rescuer_N{};          ///< 0: there is no rescue
  Backup backup;
  std::vector<Beside> beside;
  std::vector<Weather> weather;
  std::vector<RiddenWind> ridden_wind;  ///< per state of the main line, from either side; empty: none is given
  Arrested arrested;
  std::vector<Footing> footings;  ///< per anchor; may be shorter where nothing is known of the rest
  std::vector<Member> members;
  bool operator==(const Inputs&) const = default;
};

/// What moves in a case of an arrest.
struct Moving {
  int corner{};  ///< of Inputs::arrested
  double t_s{}, rider_travel_m{}, unit_tension_N{};
  Vec3 lanyard_N;         ///< of the rider on his trolley
  Vec3 inertia_N;         ///< minus mass times acceleration of both trolleys
  double left_along_N{};  ///< along the main line, what is left between these and the main line at rest under its load:
                          ///< rolling resistance, and what the model of the motion leaves out
};

/// One set of forces that act at once. Force of the rig on the anchor, site frame, unfactored.
struct LoadCase {
  std::string name;  ///< "peak line tension, heaviest rider, cold": no length in it; a report sets the travel beside it
                     ///< in the units it shows
  Action action{};
  int sweep = -1, pose = -1;  ///< of the reeving; -1 beside the passages
  double travel_m{};          ///< of the trolley; of the rider, upstream of the mark and negative, where he is on the
                              ///< open span
  std::vector<Vec3> on_anchor_N;
  std::vector<double> in_member_N;            ///< per member, tension positive; NaN where the members do not hold
  std::vector<int> slack;                     ///< members that go slack
  int lost = -1;                              ///< the member that is gone
  std::optional<Moving> moving;               ///< of a simulated arrest
  Vec3 out_of_balance_N, out_of_balance_N_m;  ///< moments about the main line's start support; must vanish
  double largest_N{};                         ///< of all forces in the balance
};

/// The worst of one part over every pose of every sweep. Its bound stands over what lies between the poses
/// (worst_over in columns.hpp: estimated from the poses beside, infinite where the reeving knows nothing of what lies
/// between), and over every instant of the arrests (find_gaps in accounts_arrest.cpp: estimated as well).
struct Demand {
  Extreme force_N;  ///< pose: index into cases; -1 where the part never carries anything
};

/// Of one line. Connectors, terminations and the trolley's attachment are judged on the tension at the end they hold.
struct LineDemand {
  Extreme tension_N;     ///< greatest anywhere along it
  Extreme from_N, to_N;  ///< at its ends
};

/// Of one block.
struct BlockDemand {
  /// The greatest force that passes through it: of all groups of the forces on it (each sheave's and wheel's resultant,
  /// each line's end, its weight) the one with the greatest sum, which is what a section between this group and the
  /// rest must carry. Of forces along one line: all that pull one way.
  Extreme force_N;
  /// Couple that its carrier must hold about the support line's chord, which no wheels on one line can: a true carrier
  /// leans until it is gone. Zero for a block that turns freely.
  Extreme lean_N_m;
};

/// Of one member, in all cases in which all are there.
struct MemberDemand {
  Extreme tension_N, compression_N;
  int slack_case = -1;  ///< the first case in which it goes slack while the others hold
};

/// Why the members of an anchor do not hold it, and the first case of those in which they do not.
struct NotHeld {
  std::string why;
  int load_case = -1;
};

/// How an anchor stands under its load.
struct AnchorDemand {
  Extreme base_moment_N_m;  ///< where its base is known
  Extreme off_axis_rad;     ///< where its cone is known: of every load above 1 N, which is no load
  /// Of its point along, across and up, where members hold it; NaN where some case leaves it unknown.
  std::array<Extreme, 3> moved_m;
  std::array<Extreme, 3> pull_N;    ///< greatest pull either way along, across and up, each from a case of its own
  std::optional<NotHeld> not_held;  ///< then its members' demands and its movement are NaN
};

/// With one member gone.
struct LostDemand {
  int member{};
  std::vector<MemberDemand> others;  ///< per member; nothing loads those of other anchors
  std::optional<NotHeld> not_held;
};

struct Loads {
  /// By action; the governing case of every demand is among them. A case is one pose: nothing is mixed from several.
  std::vector<LoadCase> cases;
  std::vector<Demand> demands;        ///< per anchor; an anchor nothing is tied to has 0
  std::vector<LineDemand> lines;      ///< per line of the reeving
  std::vector<Demand> sheaves;        ///< per sheave of the reeving, wheels included: of its line on it
  std::vector<BlockDemand> blocks;    ///< per block of the reeving
  Demand main_line;                   ///< greatest tension along it and behind its saddles, in every case
  std::vector<Demand> beside;         ///< per parallel line: greatest tension along it
  std::vector<MemberDemand> members;  ///< per member
  std::vector<AnchorDemand> anchors;  ///< per anchor
  std::vector<LostDemand> lost;       ///< per member that may be lost, in their order
  std::string without_arrest;         ///< why simulated arrests are missing among the cases; empty: they are there
  // Self-checks over all poses, each a ratio judged at 1e-9.
  double worst_force_residual{};   ///< whole rig: |out of balance| / largest force
  double worst_moment_residual{};  ///< whole rig: |out of balance| / (largest force x size of the rig)
  double worst_block_residual{};   ///< of one block: forces / largest on it, moments / (largest on it x its size)
  double worst_line_residual{};    ///< of one line: its forces / its tension; tension that is not one along it but for
                                   ///< its load / its tension
  double worst_length_residual{};  ///< of one line: unstretched length that comes or goes unaccounted for / its length
};

/// Unsolved when any pose does not balance to 1e-9: then a force was left out or counted twice; or when a block, a
/// line's tension or a line's length does not close.
Solved<Loads> solve(const Inputs&, const mainline::MainLine&, const reeving::Inputs&, const reeving::Reeving&,
                    const Work& = {});

}  // namespace fairlead::loads
