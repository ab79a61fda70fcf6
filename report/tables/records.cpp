#include "report/tables/records.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/words/explain.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

std::string day(const std::optional<Date>& date) { return date ? words::date_of(*date) : std::string("-"); }

std::string days_left(const RecordFinding& one) {
  if (!one.days_left) return "-";
  const long days = *one.days_left;
  if (one.kind == RecordKind::open_finding) return fmt::format("open {} d", -days);
  return days >= 0 ? fmt::format("{} d left", days) : fmt::format("{} d over", -days);
}

std::string measured(const RecordFinding& one, const Style& style) {
  if (!one.value) return "-";
  if (one.kind == RecordKind::cycles) return fmt::format("{:.0f}", *one.value);
  std::string words = diameter(*one.value, style);
  if (one.worn) words += fmt::format(", {:.1f} % worn", 100 * *one.worn);
  return words;
}

std::string limit(const RecordFinding& one, const Style& style) {
  if (!one.limit) return "-";
  return (one.kind == RecordKind::cycles ? fmt::format("{:.0f}", *one.limit) : diameter(*one.limit, style)) +
         (one.basis.empty() ? "" : " (" + one.basis + ")");
}

}  // namespace

std::string diameter(double m, const Style& style) {
  constexpr double inch_m = 0.0254;
  const std::string mm = fmt::format("{:.2f} mm", 1000 * m), inches = fmt::format("{:.3f} in", m / inch_m);
  if (words::in_both(Dimension::length, style)) return fmt::format("{} ({})", mm, inches);
  return style.units == Units::us ? inches : mm;
}

Table register_of_parts(const Records& records) {
  Table table{
      "Register of parts", {"part", "serial", "batch", "in service", "retire by", "inspect by", "cycles"}, {}, {}};
  for (const RegisteredPart& one : records.input.parts)
    table.rows.push_back({one.part, one.serial, one.batch.empty() ? "-" : one.batch, day(one.in_service),
                          day(one.retire_by), day(one.inspect_by),
                          one.cycles ? fmt::format("{:.0f}", *one.cycles) : "-"});
  return table;
}

Table records_open(const Records& records, const Style& style) {
  Table table{"Not in order", {"verdict", "part", "what", "days", "measured", "limit", "why"}, {}, {}};
  for (const Verdict verdict : {Verdict::fail, Verdict::undetermined, Verdict::not_judged})
    for (const RecordFinding& one : records.findings)
      if (one.verdict == verdict)
        table.rows.push_back({std::string(words::word_for(verdict)), one.part, std::string(keyword(one.kind)),
                              days_left(one), measured(one, style), limit(one, style), one.why});
  table.notes = {
      std::string(words::wear_references()),
      "A diameter passes where it keeps its limit by 1.645 of its standard uncertainties, and fails where it misses it "
      "by as many."};
  return table;
}

Table records_passed(const Records& records, const Style& style) {
  Table table{"In order", {"part", "what", "days", "measured", "limit"}, {}, {}};
  for (const RecordFinding& one : records.findings)
    if (one.verdict == Verdict::pass && one.kind != RecordKind::registered)
      table.rows.push_back(
          {one.part, std::string(keyword(one.kind)), days_left(one), measured(one, style), limit(one, style)});
  return table;
}

}  // namespace fairlead::tables
