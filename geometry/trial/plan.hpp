// The plan of unmanned tests: what is pulled by hand, which mass is let go where and in which order, what is measured
// at each, what is predicted for it from everything that is not known, and what it is accepted by.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/survey/results_file.hpp"
#include "geometry/trial/ride.hpp"

namespace fairlead::trial {

/// A limit on one measured number.
struct Acceptance {
  enum class Sense { at_most, at_least, size_at_most } sense{};
  double at{};        ///< SI
  std::string basis;  ///< who says so: the layout's words, or the plan itself
};

/// One thing to measure at one test.
struct Expected {
  Trialled what{};
  /// Between these in every corner of what is not known. None where only the limit speaks, or `why` tells what is
  /// missing.
  std::optional<Span> predicted{};
  std::string why{};
  std::optional<Acceptance> limit{};
  bool if_there = false;    ///< measured only where the rig has what measures it: a load cell
  std::string unlimited{};  ///< the layout's key that would set the limit it does not give; empty: it has none for this
};

enum class Kind { hand_pull, test_mass };

struct Test {
  std::string id;  ///< "H1", "M1": in the plan's order
  Kind kind{};
  double travel_m{};  ///< of the brake trolley: where the hand pull is read
  // Of a test mass:
  double mass_kg{};
  double at_most_m_per_s{};                ///< the arrival speed its release is found for, in the fastest corner
  double release_m{};                      ///< along from the start support
  std::optional<double> slow_release_m{};  ///< where the slowest corner arrives as fast; none: from nowhere
  double energy_J{};                       ///< of mass and trolley, arriving so
  bool may_stall = false;                  ///< in some corner
  std::optional<std::string> ill{};        ///< why it is not to be made
  std::vector<Expected> expected;
};

struct Plan {
  std::vector<Test> tests;          ///< hand pulls from the mark on, then masses by rising energy
  double fastest_m_per_s{};         ///< of the arrivals the layout's arrest was judged for
  std::vector<std::string> gaps{};  ///< what the plan leaves untested, in words

  const Test* find(std::string_view id) const;
};

/// Lightest, middle and heaviest of the riders' range at three speeds up to the fastest arrival the arrest was judged
/// for. Each is let go where the fastest corner (tail wind, least rolling resistance) arrives just so fast, rounded
/// toward the trolley to release_step_m: no test arrives faster than it says. Unsolved where the arrest is.
inline constexpr double release_step_m = 0.1;
Solved<Plan> plan(const Rig&, const Work& = {});

/// What is measured at a test of that kind, with what it is accepted by; nothing predicted yet.
std::vector<Expected> expected_of(const Rig&, Kind, double travel_m);

/// Fills in what a ride predicts for a test mass.
void expect(const Rig&, const Solved<Predicted>&, std::vector<Expected>&);

}  // namespace fairlead::trial
