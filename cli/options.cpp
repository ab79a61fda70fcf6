#include "cli/options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdio>

#include "cli/interrupt.hpp"
#include "cli/progress.hpp"
#include "cli/rows.hpp"
#include "geometry/quantity/nearest.hpp"
#include "geometry/records/units_file.hpp"

namespace fairlead::cli {
namespace {

Override override_of(const std::string& option) {
  const std::size_t equals = option.find('=');
  if (equals == std::string::npos || equals == 0)
    throw Unusable{"error: --set " + option +
                   ": write --set KEY=VALUE, for example --set brake_trolley.travel=\"12 m\"\n"};
  return {option.substr(0, equals), option.substr(equals + 1)};
}

Date date_of(const std::string& text) {
  Date date;
  const auto number = [&](std::size_t from, std::size_t count, int& into) {
    const char *begin = text.data() + from, *end = begin + count;
    const auto [stop, error] = std::from_chars(begin, end, into);
    return error == std::errc{} && stop == end && into > 0;
  };
  const auto exists = [](const Date& d) {
    return std::chrono::year_month_day{std::chrono::year{d.year}, std::chrono::month(static_cast<unsigned>(d.month)),
                                       std::chrono::day(static_cast<unsigned>(d.day))}
        .ok();
  };
  const bool shaped = text.size() == 10 && text[4] == '-' && text[7] == '-';
  if (!shaped || !number(0, 4, date.year) || !number(5, 2, date.month) || !number(8, 2, date.day) || !exists(date))
    throw Unusable{"error: --date " + text + ": write a date of the calendar as YYYY-MM-DD, for example 2026-05-14\n"};
  return date;
}

/// A waiver of a check that does not exist would wave nothing through, and nobody would notice.
void refuse_unknown_waivers(const Layout& layout) {
  std::string message;
  std::vector<std::string> names;
  for (const Check* check : all_checks()) names.emplace_back(check->name);
  for (const Waiver& waiver : layout.waivers) {
    if (find_check(waiver.check.value)) continue;
    Diagnostic diagnostic;
    diagnostic.file = layout.files[waiver.check.place.file];
    diagnostic.place = waiver.check.place;
    diagnostic.message = "waiver: no check is named \"" + waiver.check.value + "\"";
    const auto near = nearest(waiver.check.value, names);
    diagnostic.instead = near ? "write \"" + *near + "\"" : "see fairlead explain";
    message += fairlead::print(diagnostic);
  }
  if (!message.empty()) throw Unusable{message};
}

/// What the options change in a layout.
struct Asked {
  std::vector<Override> overrides;
  std::optional<Date> date;
};

/// The unit's data take the place of the layout's; a change that is tried comes behind them.
std::vector<Override> loan_of(const JudgeOptions& options) {
  if (options.loan.empty()) return {};
  constexpr FileKind units_kind{"a file of units", "the file of units", std::size_t{1024} * 1024};
  std::string sha256, message;
  const std::vector<UnitDatum> data = contents(options.units_file, units_kind, sha256, message, read_units);
  if (!message.empty()) throw Unusable{message};
  std::vector<Override> changes = swapped_in(data, options.loan);
  if (!changes.empty()) return changes;
  std::vector<std::string> serials;
  for (const UnitDatum& one : data)
    if (std::ranges::find(serials, one.serial) == serials.end()) serials.push_back(one.serial);
  throw Unusable{"error: --loan " + options.loan + ": " + options.units_file +
                 fmt::format(" has no such unit; known: {}\n", fmt::join(serials, ", "))};
}

Asked asked_by(const JudgeOptions& options) {
  Asked asked;
  asked.overrides = loan_of(options);
  for (const std::string& option : options.set) asked.overrides.push_back(override_of(option));
  if (!options.date.empty()) asked.date = date_of(options.date);
  return asked;
}

/// What was read, or all of its errors.
template <class Whole>
Whole told(tl::expected<Whole, Diagnostics> whole) {
  if (whole) return std::move(*whole);
  std::string message;
  for (const Diagnostic& diagnostic : whole.error()) message += fairlead::print(diagnostic);
  throw Unusable{message};
}

Layout dated(Layout layout, const Asked& asked) {
  refuse_unknown_waivers(layout);
  if (asked.date) layout.judged_on = Given<Date>{*asked.date, {}};
  return layout;
}

}  // namespace

Layout read(const JudgeOptions& options) {
  const Asked asked = asked_by(options);
  return dated(told(read_layout(options.layout, asked.overrides, {.threads = options.threads})), asked);
}

std::variant<Layout, Concept> read_either(const JudgeOptions& options) {
  const Asked asked = asked_by(options);
  std::variant<Layout, Concept> whole =
      told(read_layout_or_concept(options.layout, asked.overrides, {.threads = options.threads}));
  if (auto* layout = std::get_if<Layout>(&whole)) return dated(std::move(*layout), asked);
  if (asked.date) throw Unusable{"error: --date: nothing in a concept is judged by a date: leave it out\n"};
  return whole;
}

void refuse_changed_scans(const Layout& layout) {
  std::string message;
  for (const Structure& structure : layout.structures) {
    if (!structure.site || structure.site->unchanged()) continue;
    Diagnostic diagnostic;
    diagnostic.file = layout.files[structure.file->place.file];
    diagnostic.place = structure.file->place;
    diagnostic.message = "structure \"" + structure.id.value + "\": " + structure.file->value +
                         " was written while it was read, and nothing that was found holds";
    diagnostic.instead = "run again once it is whole";
    message += fairlead::print(diagnostic);
  }
  if (message.empty()) return;
  clear_progress();
  throw Unusable{message};
}

Style style_of(const JudgeOptions& options) {
  Style style;
  style.units = options.units == "si" ? Units::si : options.units.starts_with("us") ? Units::us : Units::both;
  style.tenths = options.units == "us-tenths";
  return style;
}

Work work_of(const JudgeOptions& options) {
  // First: a thread that does not block the alarm would be ended by it, and the program with it.
  auto progress = tell_on_terminal();
  return {stop_on_interrupt(), std::move(progress), options.threads};
}

Dossier judge(const JudgeOptions& options) {
  Dossier dossier{fairlead::judge(read(options), {}, work_of(options))};
  refuse_changed_scans(dossier.judged.rig.layout);
  return dossier;
}

void print(const std::string& text) {
  clear_progress();
  if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
    throw Unusable{"error: standard output could not be written\n"};
}

}  // namespace fairlead::cli
