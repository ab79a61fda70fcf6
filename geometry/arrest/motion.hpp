// From contact to the first rest: both trolleys, the rider as a pendulum, the brake unit.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/arrest/track.hpp"
#include "geometry/reeving/brake_unit.hpp"

namespace fairlead::arrest {

/// Speeds below this at the end of an arrest count as standing; a trolley that keeps moving faster creeps.
inline constexpr double standing_m_per_s = 0.05;

struct Bodies {
  double rider_kg{}, rider_trolley_kg{}, brake_trolley_kg{};
  double hanging_m{};        ///< from the wheel to the rider's centre of mass
  double lanyard_N_per_m{};  ///< 0: it does not give
  double lanyard_damping{};  ///< of critical, of the rider on the lanyard
  double bumper_N_per_m{};   ///< between the trolleys; 0: they meet rigidly
  double bumper_damping{};   ///< of critical, of the two bare trolleys on it
  double bumper_give_m{};    ///< how far it can be pressed
  double rolling{};          ///< resistance over normal force, of both trolleys
  double drag_kg_per_m{};    ///< half the air's density times drag area: drag over speed squared, of the rider
  double wind_m_per_s{};     ///< toward the landing
  bool held_back = false;    ///< a device keeps the brake trolley from rolling back
  bool coupled = false;      ///< from contact on the trolleys do not part
};

/// The brake unit in one of its conditions.
struct Unit {
  reeving::BrakeUnit law;
  double share = 1;       ///< of the nominal magnetic tension
  double return_share{};  ///< of the magnetic tension that also acts while line is drawn in
  double extension_limit_m{};
};

struct Contact {
  double x_m{};                    ///< travel of the brake trolley, at rest there
  double speed_m_per_s{};          ///< of the rider trolley, along the path
  double acceleration_m_per_s2{};  ///< of the approach there, from which the steady lean follows
};

enum class Outcome {
  stops,
  creeps,               ///< still faster than standing_m_per_s after longest_s, the mean of one swing
  lanyard_slack,        ///< the rider falls into the lanyard: nothing after that is known
  travel_exhausted,     ///< the end of the planned travel is reached
  extension_exhausted,  ///< the unit's line is out
};
inline constexpr double longest_s = 20;

/// The greatest of something and when.
struct Peak {
  double value{}, at_s{}, travel_m{};
};

struct Motion {
  Outcome outcome{};
  double lean_rad{};  ///< at contact, forward positive
  double speed_after_contact_m_per_s{}, swing_rate_after_contact_rad_per_s{};
  double lost_at_contact_J{};
  /// Farthest; as far as it came where it does not stop. It stops where it first stands still and has not gone on, one
  /// full swing later, faster than standing_m_per_s in the mean.
  double stop_travel_m{};
  double stop_time_s{};
  double end_travel_m{}, end_speed_m_per_s{}, end_s{};  ///< of the trolley where the record ends; creeping: mean speed
  double end_extension_m{};
  Peak extension_m, line_speed_m_per_s, unit_tension_N, line_force_N;  ///< line_force_N: along x on the brake trolley
  Peak trolley_speed_m_per_s;
  /// 0 or above: 0 where he is never seen to lean that way, then at the instant he came nearest to it.
  Peak swing_forward_rad, swing_back_rad;
  /// Lanyard force over the rider's weight, and deceleration of the rider trolley: raw (the instant of the impact left
  /// out, the one after it not), low-passed (2nd-order Butterworth at 5 Hz, run both ways), held for 0.2 s.
  Peak load_raw, load_filtered, load_held;
  Peak load_onset_per_s;  ///< rise of the low-passed load
  Peak deceleration_raw_m_per_s2, deceleration_filtered_m_per_s2, deceleration_held_m_per_s2;
  int separations{};  ///< times the rider trolley left the brake trolley and met it again
  double brake_work_J{}, rolling_and_drag_J{};
  double energy_residual{};  ///< over the energy before contact: what did not close
};

/// One instant, for plots and for load cases.
struct Instant {
  double t_s{}, travel_m{}, speed_m_per_s{}, lean_rad{}, extension_m{}, line_speed_m_per_s{};
  double unit_tension_N{}, line_force_N{}, lanyard_N{}, acceleration_m_per_s2{}, load_filtered{};
  double brake_travel_m{}, brake_speed_m_per_s{}, brake_acceleration_m_per_s2{};  ///< of the brake trolley
  bool apart = false;
};

/// Equations of motion in geometry/NOTATION.md, "Arrest". Integrated by Dormand and Prince's fifth-order pair with
/// dense output; events and peaks are found between steps. `record`, where given, takes an instant every
/// record_step_s; `edges` those just before and after every event. Unsolved when a step does not converge or energy
/// does not close to 1e-6.
inline constexpr double record_step_s = 5e-3;
Solved<Motion> solve_motion(const Track&, const Bodies&, const Unit&, const Contact&,
                            std::vector<Instant>* record = nullptr, std::vector<Instant>* edges = nullptr);
/// The same for who asks only how far riders come: of the peaks, extension_m alone is filled in. A rigid lanyard that
/// pulls with less than half a percent of the rider's weight counts as slack, for it is looked at less often.
Solved<Motion> solve_reach(const Track&, const Bodies&, const Unit&, const Contact&);

}  // namespace fairlead::arrest
