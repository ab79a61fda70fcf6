// A check compares what was solved with what was allowed. It computes no mechanics.
#pragma once

#include <span>
#include <string_view>
#include <variant>

#include "geometry/rig/rig.hpp"

namespace fairlead {

enum class Verdict { not_judged, undetermined, pass, fail };

/// A named number or word that a finding's sentence or remedy uses.
struct Fact {
  std::string_view name;
  std::variant<Quantity, Item, std::string> value;
};

struct Check;

/// Numbers, not prose: the sentence is made where it is printed. `value` and `bound` have the check's dimension.
struct Finding {
  const Check* check{};
  Item subject{};
  Verdict verdict = Verdict::undetermined;
  std::string why{};  ///< of undetermined and not judged
  double value{}, bound{};
  bool measured = false;  ///< value and bound hold something
  std::optional<Limit> limit{};
  std::optional<double> travel_m{};
  std::optional<Point3> at{}, at_other{};  ///< at_other: of a distance, its other end
  Place place{};
  std::vector<Fact> facts{};
  int waiver = -1;  ///< index into layout.waivers
};

struct Check {
  std::string_view name;      ///< "fleet-angle"
  std::string_view title;     ///< "Fleet angle at every sheave"
  std::string_view sentence;  ///< "line {value} off the groove's plane at travel {travel}"; {limit} and facts by name
  std::string_view formula, source;
  std::string_view remedy;  ///< what would help when it fails; a clause with the same placeholders
  Dimension dimension;
  void (*run)(const Rig&, std::vector<Finding>&);
};

/// The only list of checks, in the order of a finding's weight.
std::span<const Check* const> all_checks();
const Check* find_check(std::string_view name);

/// Verdict of a value that may not exceed its limit. Between value and bound nothing is known: undetermined.
Verdict at_most(const Extreme&, const std::optional<Limit>&);
/// Verdict of a value that may not fall below its limit.
Verdict at_least(const Extreme&, const std::optional<Limit>&);

struct Judged {
  Rig rig;
  std::vector<Finding> findings;  ///< in the order of the checks, then of their subjects
  Resolution resolution{};        ///< the finest that a verdict needed, here or where anchors may move to
};

/// Solves and checks; halves the resolution while only a gap between value and bound leaves a verdict open. Where
/// anchors may move every finding is the worst of the drawn place and of the corners of their movement (moved.hpp).
Judged judge(Layout, const Near& = {}, const Work& = {});

/// The same at one resolution: what only a gap leaves open stays undetermined, and waivers are not looked at.
Judged judge_at(Resolution, Layout, const Near& = {}, const Work& = {});

/// The rig of a concept, and what can be judged before anything has a place: concept_checks.
Judged judge(const Concept&, const Work& = {});
std::span<const Check* const> concept_checks();

/// 0 when every finding passed or is waived; 1 otherwise, and where nothing was judged.
int exit_status(std::span<const Finding>);

}  // namespace fairlead
