// How riders stop: every corner of riders, weather, brake and main line, the backup brake, and the way back to ready.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "geometry/arrest/approach.hpp"
#include "geometry/arrest/instants.hpp"
#include "geometry/arrest/leans.hpp"
#include "geometry/arrest/motion.hpp"
#include "geometry/arrest/settle.hpp"
#include "geometry/mainline/states.hpp"
#include "geometry/reeving/sweep.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::arrest {

enum class Wind { none, head, tail };

/// The layout's numbers. Positions along are from the main line's start support.
struct Inputs {
  std::array<double, 2> rider_kg{};  ///< lightest, heaviest
  double rider_trolley_kg{}, brake_trolley_kg{};
  double hanging_m{};  ///< from the wheel to the rider's centre of mass
  double lanyard_N_per_m{}, lanyard_damping{};
  double bumper_N_per_m{}, bumper_damping{}, bumper_give_m{};
  mainline::Span rolling;
  double drag_area_m2{};
  std::vector<double> air_kg_per_m3;                     ///< per state of the main line
  double wind_m_per_s{};                                 ///< along the line, either way; 0: none
  std::optional<mainline::Span> measured_speed_m_per_s;  ///< arrival as measured: it wins over what is computed
  std::optional<double> start_m;                         ///< of the push-off; absent: no approach is computed
  mainline::Span push_off_m_per_s;
  reeving::BrakeUnit unit;
  mainline::Span brake_share;  ///< of the nominal magnetic tension: tolerance, hot, wet, worn
  double return_share{};       ///< of the magnetic tension that also acts while line is drawn in
  double moving_mass_kg{};     ///< of the unit's rotor and drum, as felt at its line
  double extension_limit_m{};
  double static_N{};  ///< resistance of the empty brake trolley beside rolling
  bool held_back = false, coupled = false;
  double rest_m{}, travel_m{};
  std::optional<double> backup_m;  ///< where the backup brake engages
  std::optional<Curve> backup_N;   ///< its force over its compression, from 0
  std::optional<double> backup_stroke_m;
  bool operator==(const Inputs&) const = default;
};

/// One extreme rider, weather, brake and main line.
struct Corner {
  int path{};  ///< index into the main line's paths: its state, and lightest or heaviest. Of a Plain arrest: 0, 1
  bool heaviest{}, fastest{};
  Wind wind{};
  bool high_rolling{}, strong_brake{};
  bool operator==(const Corner&) const = default;
};

/// Every corner that differs from another, by path, then speed, wind, rolling, brake (innermost).
std::vector<Corner> corners_of(const Inputs&, const mainline::MainLine&);
/// Those of a Plain arrest.
std::vector<Corner> plain_corners(const Inputs&);
/// The bodies and the unit of a corner.
Bodies bodies_of(const Inputs&, const Corner&, double air_kg_per_m3);
Unit unit_of(const Inputs&, const Corner&);

/// Arrivals of every corner, brakes left out of account.
struct Approaches {
  std::vector<Corner> corners;
  /// Per corner; Unsolved where no push-off is given.
  std::vector<Solved<Approach>> computed;
  /// Per corner: as measured, else as computed; NaN where the rider stalls short.
  std::vector<double> speed_m_per_s;
  double fastest_m_per_s{};  ///< 0: every rider stalls short

  /// Of a corner's rider at contact. A measured speed comes without it: then that computed for the same rider and
  /// weather stands in, and 0 where nothing is or he stalls.
  double acceleration_m_per_s2(std::size_t corner) const;
};

/// Unsolved when a speed is neither measured nor computed.
Solved<Approaches> solve_approaches(const Inputs&, const mainline::MainLine&, const Work& = {});

struct CornerResult {
  Corner corner;
  double arrival_speed_m_per_s{};                ///< what the arrest begins with
  std::optional<double> computed_speed_m_per_s;  ///< of the approach, where it was computed and he arrives
  double speed_over_wave{};                      ///< greatest v/c of the approach; NaN where it was not computed
  // Of who stalls short, where the approach is computed; nothing else is then known:
  std::optional<double> hangs_at_m;             ///< along: there he hangs at last
  std::optional<double> back_at_start_m_per_s;  ///< he rolls back over the start at that speed
  Solved<Motion> motion = unsolved("not solved");
  std::optional<FinalRest> rest;  ///< where the motion stops or creeps
  std::vector<Leans> leans;       ///< over the travel from the mark on
  std::vector<LoadInstant> load_instants;

  bool arrives() const { return arrival_speed_m_per_s > 0; }
  /// He stops, or creeps on to a place where he stays, within travel and extension.
  bool comes_to_rest(double extension_limit_m) const;
  /// Of the motion, or of where he creeps on to after it; NaN where no motion is solved.
  double farthest_travel_m() const;
  Peak greatest_extension_m() const;
};

/// The backup brake alone, the primary lost at contact, in its worst corner.
struct BackupAlone {
  int corner = -1;
  double speed_m_per_s{};     ///< where it engages
  double compression_m{};     ///< at which he stops; the whole stroke where he does not
  double residual_m_per_s{};  ///< left at the end of the stroke; 0: it stops him
  double force_N{};           ///< greatest on the way
};

/// The brake trolley left somewhere along its travel when the next rider is sent.
struct NotReset {
  /// Farthest from the mark, in steps of dispatch_step_m, at which every corner that arrives still comes to rest within
  /// travel and extension, no lanyard slack; NaN: not even from the mark. Places between were looked at in the corners
  /// that come farthest.
  double farthest_m{};
  int first_failing = -1;  ///< corner that fails a step beyond; -1: none to the end of the travel
};
inline constexpr double dispatch_step_m = 0.25;

/// One empty path.
struct Reset {
  int path{};
  double least_reserve_N{}, at_travel_m{};   ///< along the track toward the mark, greatest rolling resistance
  std::vector<double> travel_m, reserve_N;   ///< at the poses
  bool returns{};                            ///< from the end of the travel
  double time_s{}, speed_at_mark_m_per_s{};  ///< with the least rolling resistance and drag
  double ratio_at_which_it_stops{};          ///< n of n:1, all else as it is; infinite beyond 20
};

/// Which corner is the worst for what: index into corners; -1 where none is solved.
struct Governing {
  int stop_travel = -1, shortest_stop = -1, farthest_travel = -1, extension = -1, line_speed = -1, load_raw = -1,
      load_filtered = -1, load_held = -1, load_onset = -1, deceleration = -1, swing_forward = -1, swing_back = -1,
      unit_tension = -1, earliest_rest = -1, latest_rest = -1, arrival_speed = -1;
};

struct Arrest {
  std::vector<CornerResult> corners;  ///< in the order of corners_of
  Governing governing;
  Solved<BackupAlone> backup = unsolved("not solved");
  NotReset not_reset;
  std::vector<Reset> resets;   ///< per empty path
  double lift_difference_m{};  ///< greatest difference of the track's height between peak tension and lines at rest
};

/// Everything above. Corners run on work.threads threads.
Solved<Arrest> solve(const Inputs&, const Approaches&, const mainline::MainLine&, const reeving::Inputs&,
                     const reeving::Reeving&, const Work& = {});

/// The track of one of the main line's paths with a rider.
Solved<Track> track_of(const Inputs&, int path, const reeving::Inputs&, const reeving::Reeving&);
/// The history of one corner, for a plot; empty where its motion is not solved.
std::vector<Instant> history(const Inputs&, const Approaches&, const mainline::MainLine&, const reeving::Inputs&,
                             const reeving::Reeving&, int corner);

/// Before there are coordinates: a straight main line and an ideal reduction. Speeds must be measured or chosen.
/// Corners have path 0 (lightest) and 1 (heaviest); one reset.
struct Plain {
  double ratio = 1, efficiency = 1, slope{}, rest_extension_m{};
};
Solved<Arrest> solve_plain(const Inputs&, const Plain&, const Work& = {});

/// The worst of every result over the solved corners.
Governing governing_of(const std::vector<CornerResult>&);

}  // namespace fairlead::arrest
