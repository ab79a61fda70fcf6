// Everything that follows from a layout: the stages, each with its inputs and its result.
#pragma once

#include <memory>
#include <optional>

#include "geometry/arrest/arrest.hpp"
#include "geometry/clearance/clearance.hpp"
#include "geometry/layout/concept.hpp"
#include "geometry/layout/layout.hpp"
#include "geometry/loads/loads.hpp"
#include "geometry/mainline/states.hpp"
#include "geometry/reeving/sweep.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead {

/// A stage sees its inputs and the results before it, nothing else; equal ones give the same result.
template <class In, class Out>
struct Stage {
  Solved<In> inputs = unsolved("no inputs");
  std::shared_ptr<const Solved<Out>> result = std::make_shared<const Solved<Out>>(unsolved("not solved"));

  const Out* solved() const { return result->has_value() ? &**result : nullptr; }
};

/// The main line's own directions. Chainage of a point p = dot(p - origin, along) + chainage_of_origin_m.
struct Frame {
  Point3 origin;                    ///< the main line's start support
  Vec3 along, across, up{0, 0, 1};  ///< unit, right-handed; along is horizontal, toward the landing
  double span_m{}, rise_m{}, chainage_of_origin_m{};

  double chainage_m(Point3 p) const { return dot(p - origin, along) + chainage_of_origin_m; }
  double across_m(Point3 p) const { return dot(p - origin, across); }
};

/// Largest gap between a value and its bound that a sweep leaves.
struct Resolution {
  double length_m = 20e-3, angle_rad = 1e-3;
};

struct Rig {
  Layout layout;
  std::optional<Concept> idea;  ///< given where this is the rig of a concept: see solve below
  Frame frame;
  Stage<mainline::Inputs, mainline::MainLine> main_line;
  Stage<arrest::Inputs, arrest::Approaches> approach;
  Stage<reeving::Inputs, reeving::Reeving> reeving;
  Stage<arrest::Inputs, arrest::Arrest> arrest;
  Stage<loads::Inputs, loads::Loads> loads;
  Stage<clearance::Inputs, clearance::Clearances> clearance;
  bool arrest_held = false;  ///< the arrest is that of the design this rig was moved from
  std::vector<Item> lines;   ///< what each line of the reeving is: a [[line]] or a [[support_line]]
  std::vector<Item> bodies;  ///< what each block of the reeving is: the [[block]]s, then the mounted [[sheave]]s
  std::vector<int> reeved;   ///< the reeving's sheaves as indices into layout.sheaves; -1: the wheel of a support line
  int braking_line = -1;     ///< index into layout.lines of the line that ends at the unit
  std::optional<double> nominal_ratio;   ///< n of n:1; below 1 the reduction is upside down, and is not solved
  std::vector<std::string> assumptions;  ///< what was estimated or taken for granted on the way, in words
};

/// Reuse the stages of `design` whose inputs are equal. hold_arrest: take its arrest although the reeving differs; the
/// rig then says so. drawn: clearances hold what no finding reads as well, the moments and profiles of the sheets.
struct Near {
  const Rig* design = nullptr;
  bool hold_arrest = false;
  bool drawn = true;
};

/// Runs every stage. A stage that cannot be solved says why, and so do the stages after it.
Rig solve(Layout, const Near& = {}, Resolution = {}, const Work& = {});

/// The rig of a concept: over an ideal reduction on a straight main line its arrest, every other stage Unsolved. What a
/// concept has of a layout's sections stands in `layout`, where nothing has a place and chainages count from the rest
/// mark.
Rig solve(const Concept&, const Work& = {});

}  // namespace fairlead
