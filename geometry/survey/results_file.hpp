// What a crew wrote down at unmanned tests: a comma-separated file, a number a line. Its first line names the columns
// test, quantity, value, unit and uncertainty in any order; text, quotes, comments and blanks are those of a points
// file.
#pragma once

#include <string_view>
#include <vector>

#include "geometry/survey/quantities_file.hpp"

namespace fairlead {

enum class Trialled {
  // As the test was made:
  mass,         ///< of the test mass with its lanyard, without the trolley it hangs from
  release,      ///< chainage of where it was let go
  temperature,  ///< of the main line
  wind,         ///< along the line at its height, toward the landing positive
  // What was seen:
  arrival_speed,    ///< along the main line, as it meets the brake trolley
  stopping_travel,  ///< farthest the brake trolley came from its mark
  extension,        ///< greatest of the brake unit
  line_tension,     ///< greatest at the brake unit, by a load cell
  pull_on,          ///< along the main line, as the brake trolley is drawn slowly toward the landing
  let_back,         ///< likewise, as it is let slowly back toward its mark
  return_time,      ///< of the empty trolley, let go there, to its mark
  rest_shift,       ///< of the trolley's place after its return from its mark, downstream positive
  returned,         ///< 1: the trolley came back by itself; 0: it did not
  touches,          ///< how many things touched that may not
  slack,            ///< how many lines were seen slack
  backup_reached    ///< how often the backup brake was met
};
inline constexpr std::size_t trialled = static_cast<std::size_t>(Trialled::backup_reached) + 1;

const QuantityKind& kind_of(Trialled);

struct TrialRow : QuantityRow {
  Trialled what{};
  bool operator==(const TrialRow&) const = default;
};

/// The rows of a file in its order, each with a number that may be, no test with the same quantity twice; what is not
/// counted has an uncertainty above 0. Which tests there are only the plan tells.
tl::expected<std::vector<TrialRow>, PointsErrors> read_trial_results(std::string_view text);

}  // namespace fairlead
