// What governs an arrest, worked out again step by step with a pocket calculator.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead {

/// A number as it is printed: its value is the printed one.
struct Figure {
  std::string symbol, says, from;  ///< "v", "arrival speed along the main line", "layout"
  double value{};
  int decimals{};
  std::string unit;  ///< SI, angles in degrees
  double off{};      ///< how far the exact number may lie from it

  std::string text() const;  ///< "-1.25"
};

struct CalculationStep {
  std::string title;
  std::string formula;  ///< "v1 = vx * me / (me + mB)"
  std::string put_in;   ///< its right side with the inputs' printed numbers
  std::vector<Figure> inputs;
  Figure result;  ///< evaluate(put_in), rounded
  /// The solver's own number where it has one, unrounded, and how far the result may be off it: what the rounding of
  /// the inputs and of the result can amount to.
  std::optional<double> solver;
  double tolerance{};
  std::string source;
};

/// One force on the anchor that is resolved in long hand.
struct AnchorForce {
  std::string what;  ///< "line L1 beyond sheave R1"
  Figure tension;
  Vec3 direction;  ///< unit vector along, across, up, to four decimals
  Vec3 force_N;    ///< tension times direction, to the newton
};
struct AnchorCalculation {
  int anchor = -1, load_case = -1;  ///< the case that governs it
  std::vector<AnchorForce> forces;
  Vec3 sum_N;            ///< of force_N
  Vec3 solver_N;         ///< of the load case: along, across, up
  double tolerance_N{};  ///< what rounding and the weight of line on the sheaves can amount to, a component
};

struct Calculation {
  int corner = -1;  ///< that governs the stopping travel: steps of contact and brake are its
  std::vector<CalculationStep> steps;
  std::optional<AnchorCalculation> anchor;
};

/// Unsolved where the arrest is, and where no corner is solved.
Solved<Calculation> calculation(const Rig&);

}  // namespace fairlead
