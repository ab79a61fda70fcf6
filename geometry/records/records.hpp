// The parts of a rig in service: whether each is in the register and in date, has wear left, and what was found on it
// and is still open. Nothing is assumed that the register does not say: without a limit there is no pass.
#pragma once

#include "geometry/checks/check.hpp"
#include "geometry/records/register_file.hpp"
#include "geometry/survey/measurements_file.hpp"

namespace fairlead {

enum class RecordKind {
  registered,  ///< it stands in the register
  serial,      ///< its serial is that of the layout: the layout's data is that of this very unit
  retirement,
  inspection,
  cycles,
  wear,
  open_finding
};

constexpr std::string_view keyword(RecordKind kind) {
  constexpr std::string_view words[] = {"registered", "serial", "retirement",  "inspection",
                                        "cycles",     "wear",   "open finding"};
  return words[static_cast<std::size_t>(kind)];
}

/// One thing judged of one part.
struct RecordFinding {
  RecordKind kind{};
  std::string part;
  Verdict verdict = Verdict::undetermined;
  std::string why;                ///< of what is no pass
  std::optional<long> days_left;  ///< of dates: 0 on the last day, negative after it; of an open finding, days since
  std::optional<double> value, uncertainty, limit;  ///< cycles, or metres of a diameter
  std::optional<double> worn;                       ///< share of the baseline diameter that is gone
  std::string basis;                                ///< who sets the limit
};

struct RecordsInput {
  std::vector<RegisteredPart> parts;
  std::vector<LoggedFinding> log;
  std::vector<Measurement> measurements;  ///< of which the diameters are looked at
};

struct Records {
  RecordsInput input;
  std::optional<Date> date;  ///< at which it is judged; none: nothing with a date is
  std::vector<RecordFinding>
      findings;  ///< by part as the layout has them, then what the register has besides; the log last
  Verdict verdict = Verdict::undetermined;  ///< the worst of all
};

/// What is wrong with each file against the layout.
struct RecordsErrors {
  PointsErrors parts, log, measurements;
};

/// What of a layout wears and is kept in a register, by the words of its files: main line, support and parallel lines,
/// sheaves, blocks, connectors, lines, brake unit and trolley.
std::vector<std::string> parts_in_service(const Layout&);

/// A part that the register has and the layout does not is refused, and so is a diameter of what is not in the
/// register.
tl::expected<Records, RecordsErrors> judge_records(const Layout&, std::optional<Date>, RecordsInput);

}  // namespace fairlead
