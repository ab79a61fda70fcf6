// How riders stop: every corner of riders, weather, brake and main line, the backup brake, and the way back to ready.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "geometry/arrest/motion.hpp"
#include "geometry/arrest/settle.hpp"
#include "geometry/mainline/states.hpp"
#include "geometry/reeving/sweep.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::arrest {

enum class Wind { none, head, tail };
inline constexpr const char* of_wind[] = {"no wind", "head wind", "tail wind"};

/// The layout's numbers. Positions along are from the main line's start support.
struct Inputs {
  std::array<double, 2> rider_kg{};  ///< lightest, heaviest
  double rider_trolley_kg{}, brake_trolley_kg{}, hanging_m{};
  double lanyard_N_per_m{}, lanyard_damping{};
  mainline::Span rolling;
  double drag_area_m2{};
  std::vector<double> air_kg_per_m3;                     ///< per state of the main line
  double wind_m_per_s{};                                 ///< along the line, either way; 0: none
  std::optional<mainline::Span> measured_speed_m_per_s;  ///< arrival as measured or given
  std::optional<double> start_m;                         ///< of the push-off
  mainline::Span push_off_m_per_s;
  reeving::BrakeUnit unit;
  mainline::Span brake_share;  ///< of the nominal magnetic tension: tolerance, hot, wet, worn
  double return_share{}, moving_mass_kg{}, extension_limit_m{};
  double static_N{};
  bool held_back = false;
  double rest_m{}, travel_m{};
  std::optional<double> backup_m;  ///< where the backup brake engages
  std::optional<Curve> backup_N;   ///< its force over its compression, from 0
  std::optional<double> backup_stroke_m;
  bool operator==(const Inputs&) const = default;
};

/// One extreme rider, weather, brake and main line.
struct Corner {
  int path{};  ///< index into the main line's paths: its state, and lightest or heaviest
  bool fastest{};
  Wind wind{};
  bool high_rolling{}, strong_brake{};
  bool operator==(const Corner&) const = default;
};

struct CornerResult {
  Corner corner;
  double arrival_speed_m_per_s{};                ///< what the arrest begins with
  std::optional<double> computed_speed_m_per_s;  ///< of the approach, where it was computed and he arrives
  std::optional<double> hangs_at_m;              ///< along: he stalls short and hangs there; nothing else is then known
  double speed_over_wave{};                      ///< v/c of the approach, greatest; 0 where it was not computed
  Solved<Motion> motion = unsolved("not solved");
  std::optional<FinalRest> rest;
};

/// One corner with the primary brake lost at contact: the backup brake alone.
struct BackupAlone {
  int corner = -1;            ///< the worst: index into corners
  double speed_m_per_s{};     ///< where it engages
  double compression_m{};     ///< at which he stops; the whole stroke where he does not
  double residual_m_per_s{};  ///< left at the end of the stroke; 0: it stops him
  double force_N{};
};

/// The brake trolley left somewhere along its travel when the next rider is sent.
struct NotReset {
  /// Farthest from the mark, in steps of Arrest::dispatch_step_m, from which all corners still stop within the travel
  /// and the extension, no lanyard slack; below 0: not even from the mark.
  double farthest_m{};
  int first_failing = -1;  ///< corner that fails beyond
};

/// One empty path.
struct Reset {
  int path{};
  double least_reserve_N{}, at_travel_m{};  ///< along the track toward the mark
  std::vector<double> travel_m, reserve_N;  ///< at the poses
  bool returns{};                           ///< from the end of the travel
  double time_s{}, speed_at_mark_m_per_s{};
  double ratio_at_which_it_stops{};  ///< n of n:1, all else as it is
};

/// Which corner is the worst for what: index into corners; -1 where none is solved.
struct Governing {
  int stop_travel = -1, shortest_stop = -1, extension = -1, line_speed = -1, load_raw = -1, load_filtered = -1,
      load_held = -1, deceleration = -1, swing_forward = -1, swing_back = -1, unit_tension = -1, earliest_rest = -1,
      latest_rest = -1, arrival_speed = -1;
};

struct Arrest {
  std::vector<CornerResult> corners;  ///< by path, then fastest, wind, rolling, brake
  Governing governing;
  std::optional<BackupAlone> backup;
  std::optional<NotReset> not_reset;
  std::vector<Reset> resets;   ///< per empty path
  double lift_difference_m{};  ///< greatest difference of the path at peak tension and with the line at rest
  static constexpr double dispatch_step_m = 0.25;
};

/// Everything above. Corners run on work.threads threads.
Solved<Arrest> solve(const Inputs&, const mainline::MainLine&, const reeving::Inputs&, const reeving::Reeving&,
                     const Work& = {});

/// The history of one corner, for a plot.
std::vector<Instant> history(const Inputs&, const mainline::MainLine&, const reeving::Inputs&, const reeving::Reeving&,
                             const CornerResult&);

}  // namespace fairlead::arrest
