// The register of a rig's parts and the log of what was found on it, as comma-separated files that their owner keeps.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/layout/given.hpp"
#include "geometry/survey/quantities_file.hpp"

namespace fairlead {

/// One part in service. Columns: part, serial, batch, in_service, retire_by, inspect_by, cycles, most_cycles,
/// baseline_mm, least_mm, basis; part and serial are required, dates are like 2026-10-30.
struct RegisteredPart {
  std::string part;           ///< id in the layout, or main_line, brake_unit, brake_trolley
  std::string serial, batch;  ///< the second may be empty
  std::optional<Date> in_service, retire_by, inspect_by;
  std::optional<double> cycles, most_cycles;  ///< >= 0
  std::optional<double> baseline_m, least_m;  ///< diameter as it was put in service, and the least it may have; > 0
  std::string basis;                          ///< who sets most_cycles and least; there where one of them is
  unsigned line{};                            ///< of the file, from 1
  Columns part_at{};
  std::string source_line{};
};

/// One finding of an inspection. Columns: id, found, part, what, closed, by, how; the last three once it is closed.
struct LoggedFinding {
  std::string id;
  Date found;
  std::string part, what;
  std::optional<Date> closed;
  std::string by, how;  ///< who closed it, and by doing what; there where it is closed
  unsigned line{};
  Columns part_at{};
  std::string source_line{};
};

inline constexpr std::size_t largest_records_file = std::size_t{4} * 1024 * 1024;

/// Refused with all that is wrong. Of one part only one serial is in service: a loan unit takes the place of the line
/// of what it stands in for. `known`: the parts of the layout, and any other is refused; empty where they are not
/// known.
tl::expected<std::vector<RegisteredPart>, PointsErrors> read_register(std::string_view text,
                                                                      const std::vector<std::string>& known = {});
tl::expected<std::vector<LoggedFinding>, PointsErrors> read_log(std::string_view text,
                                                                const std::vector<std::string>& known = {});

/// What is said of a part that the layout does not have.
struct Stranger {
  std::string message, instead;
};
Stranger stranger_of(const std::string& part, const std::vector<std::string>& known);

}  // namespace fairlead
