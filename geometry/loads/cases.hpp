// Load cases: what acts, what it is called, and its forces.
#pragma once

#include <compare>
#include <tuple>

#include "geometry/loads/books.hpp"

namespace fairlead::loads {

/// One pose of one sweep, or with sweep -1 one of the cases beside the passages. In the order of the list of cases,
/// those with a member lost last.
struct CaseKey {
  Action action{};
  int sweep = -1, pose = -1;
  Slip slip{};
  int lost = -1;  ///< the member that is gone
  bool operator==(const CaseKey&) const = default;
  auto operator<=>(const CaseKey& other) const {
    return std::tie(lost, action, sweep, pose, slip) <=>
           std::tie(other.lost, other.action, other.sweep, other.pose, other.slip);
  }
};

struct Tension {
  double value_N{}, bound_N{};
};

/// A case beside the passages.
struct Single {
  Action action{};
  std::string name;
  std::string family;  ///< of each one is always listed: the first of the greatest measure; empty: where it governs
  double measure_N{};
  double travel_m{};
  Balance balance;
  std::vector<double> gap_N;           ///< per anchor: by how much its force may be greater beside the place looked at
  std::vector<int> left_out{};         ///< anchors that a case of the same action is the worst for, as this one is not
  std::array<Tension, 2> main_line{};  ///< at or behind its start and its end
  std::vector<Tension> beside{};       ///< per parallel line
};

/// What the cases are made from.
struct Rigged {
  const Inputs& in;
  const Books& books;
  const mainline::MainLine& main_line;
  const reeving::Inputs& reeving_in;
  const reeving::Reeving& reeved;

  const mainline::StatePath& path_of(int sweep) const;
  const mainline::State& state_of(int sweep) const;
  const mainline::State& state_on(int path) const;
  mainline::Loading loading_on(int path) const { return main_line.paths[static_cast<std::size_t>(path)].loading; }
  /// Weight of brake trolley, rider and his trolley on a path.
  double weight_on(int path) const;
  /// The sweep with its lines at rest and without wind, of a path or of a state with nobody on it; -1 without.
  int at_rest_sweep(std::size_t path) const;
  int empty_at_rest_sweep(int state) const;
};

Action action_of(const reeving::Inputs&, int sweep);

/// ", main line slipping backward over its saddles"; "" where it does not.
std::string words_for(Slip);
/// "side wind from the left"
std::string wind_words(Vec3 push, const reeving::Inputs&);

/// On every path of the heaviest rider: riders, and two persons where there is a rescuer, on the open span at the worst
/// places for either support and saddle; with the line and the trolley as they are with the rider farthest upstream
/// that the reeving knows. Riders also together with those of the parallel lines, each at the worst place for one of
/// its own supports. All of it in still air and in the wind from either side, at the places that are worst in still
/// air; the lines of the arrest system as in still air.
Solved<std::vector<Single>> span_cases(const Rigged&);
/// Two persons with the brake trolley at a pose of a sweep at rest.
Solved<Single> rescue_in_zone(const Rigged&, int sweep, int pose, Slip);
/// The backup brake at its most, with the heaviest rider at the end of the planned travel: the primary at its
/// retraction, which bounds the primary lost as well, and at its peak tension.
Solved<std::vector<Single>> backup_cases(const Rigged&);
/// Weather in which nobody rides, the trolley at its rest mark.
Solved<std::vector<Single>> weather_cases(const Rigged&);

/// The forces of a case from its books.
LoadCase with_forces(const Balance&);
LoadCase case_in_zone(const Rigged&, const CaseKey&);
LoadCase case_of(const Single&);

}  // namespace fairlead::loads
