// A test mass let go up the line: how it arrives and how it is stopped, once and over all that is not known of a day.
#pragma once

#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead::trial {

using mainline::Span;

/// The main line as the layout's coldest and warmest weather makes it, with one stiffness and one tension or sag of
/// their ranges. `cold` and `warm` index TestMass::states.
struct Variant {
  std::size_t cold{}, warm{};
};

/// A test mass on the rig: on the way to the brake trolley, and with it.
struct TestMass {
  double kg{};  ///< of the mass with its lanyard, as riders are weighed: without the trolley it hangs from
  struct OnState {
    int state{};            ///< index into mainline::MainLine::states
    mainline::Path toward;  ///< to the brake trolley at its mark
    arrest::Track track;
  };
  std::vector<OnState> states;
  std::vector<Variant> variants;
};

/// Where a release may lie, along from the start support: between the riders' push-off, where the layout has one, else
/// where paths begin, and the brake trolley at its mark.
Span releases(const Rig&);

/// Unsolved where the rig has no arrest, or no mass a track.
Solved<std::vector<TestMass>> test_masses(const Rig&, const std::vector<double>& kg, const Work& = {});

/// All that makes one ride another, of one test mass and release.
struct Conditions {
  double wind_m_per_s{};  ///< along the line, toward the landing positive
  double rolling{};       ///< resistance over normal force
  double brake_share{1};  ///< of the nominal magnetic tension
  double drag_area_m2{};
  double pull_share{1};  ///< of the pull that the reeving brings from the unit to the trolley, as computed
};

struct Ride {
  bool arrives{};  ///< all else is 0 where it stalls short
  double arrival_speed_m_per_s{};
  arrest::Outcome outcome{};
  double stopping_travel_m{}, extension_m{}, line_tension_N{};
};

/// In one state of the main line, let go at rest at release_m along.
Solved<Ride> ride(const Rig&, const TestMass&, std::size_t state, double release_m, const Conditions&);

/// Between which what is not known of a test lies.
struct Unknowns {
  Span wind_m_per_s, rolling, brake_share;
  Span warmth{0, 1};  ///< 0: the layout's coldest, 1: its warmest
};
/// All that the layout allows: either wind, every weather, the brake with its tolerance, hot or worn.
Unknowns unknowns_of(const Rig&);

/// Of all corners of the unknowns and their middle. Between cold and warm a value is taken to change straight.
struct Predicted {
  Span arrival_speed_m_per_s;
  bool may_stall = false;          ///< in some corner it stalls short of the brake trolley: then every span begins at 0
  std::optional<std::string> ill;  ///< why the test is not to be made: what it does in some corner but stop
  Span stopping_travel_m, extension_m, line_tension_N;
};
/// Unsolved where a ride is, and where the mass stalls short in every corner.
Solved<Predicted> predict(const Rig&, const TestMass&, double release_m, const Unknowns&);

/// How fast it arrives in the fastest corner (tail wind, least rolling resistance) and in the slowest one; 0: it
/// stalls.
Solved<Span> arrival_speeds(const Rig&, const TestMass&, double release_m, const Unknowns&);
/// One end of them alone.
Solved<double> arrival_speed(const Rig&, const TestMass&, double release_m, const Unknowns&, double Span::*end);

}  // namespace fairlead::trial
