// The braking line as it hangs over all of its sheaves, between a place of its end on the trolley and the unit's
// outlet.
#pragma once

#include <vector>

#include "geometry/reeving/contact.hpp"

namespace fairlead::reeving {

/// The whole line for one attachment and one tension at the outlet. legs: sheaves + 1, from the trolley.
struct Reeved {
  Point3 attachment;
  Tension tension;
  std::vector<MetLeg> legs;
  std::vector<MetLegChange> legs_per_N;  ///< of each leg for a newton more along the whole line, attachment held
  std::vector<double> wrap_rad;
  double length_m{};      ///< outlet to attachment, legs and wraps
  double length_per_N{};  ///< its change per newton at the outlet, attachment held
  Vec3 pull_N;            ///< on the trolley
  Vec3 pull_per_N;        ///< its change per newton at the outlet
};

/// How the line answers a move of the attachment at constant outlet tension.
struct ReevedChange {
  double length_m{};
  Vec3 pull_N;
};

/// A wrap above this is a wrap below zero seen modulo a turn: no line turns three quarters round one redirect.
inline constexpr double greatest_wrap_rad = 1.5 * 3.14159265358979323846;

/// Solves `line` in place; its legs are the start when it was solved before. Unsolved where a leg cannot hang at that
/// tension, a point lies within a sheave, or the line lifts off a sheave.
tl::expected<void, Unsolved> reeve(const Inputs&, Point3 attachment, double outlet_tension_N, Reeved& line);

ReevedChange move_attachment(const Inputs&, const Reeved&, Vec3 move);

LegEnd first_end(const Inputs&, Point3 attachment, int leg);
LegEnd second_end(const Inputs&, int leg);

}  // namespace fairlead::reeving
