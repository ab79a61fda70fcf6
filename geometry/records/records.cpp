#include "geometry/records/records.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "geometry/records/columns_file.hpp"

namespace fairlead {
namespace {

/// Of a normal error the one-sided 95 % (JCGM106).
constexpr double guard = 1.645;

std::string iso(const Date& date) { return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day); }

class Recorder {
 public:
  Recorder(const Layout& layout, std::optional<Date> date, RecordsInput input) : layout_(layout) {
    out_.input = std::move(input);
    out_.date = date;
  }

  tl::expected<Records, RecordsErrors> judge() {
    in_service_ = parts_in_service(layout_);
    refuse();
    if (!errors_.parts.first.empty() || !errors_.log.first.empty() || !errors_.measurements.first.empty())
      return tl::unexpected<RecordsErrors>(std::move(errors_));
    for (const std::string& part : in_service_) {
      const RegisteredPart* row = registered(part);
      add({.kind = RecordKind::registered,
           .part = part,
           .verdict = row ? Verdict::pass : Verdict::undetermined,
           .why = row ? "" : "it does not stand in the register"});
      if (row) look(*row);
    }
    for (const LoggedFinding& one : out_.input.log) look(one);
    out_.verdict = out_.findings.empty() ? Verdict::undetermined : Verdict::pass;
    for (const Verdict bad : {Verdict::not_judged, Verdict::undetermined, Verdict::fail})
      if (std::ranges::find(out_.findings, bad, &RecordFinding::verdict) != out_.findings.end()) out_.verdict = bad;
    return std::move(out_);
  }

 private:
  void add(RecordFinding one) { out_.findings.push_back(std::move(one)); }

  const RegisteredPart* registered(const std::string& part) const {
    const auto found = std::ranges::find(out_.input.parts, part, &RegisteredPart::part);
    return found == out_.input.parts.end() ? nullptr : &*found;
  }

  bool known(const std::string& part) const { return std::ranges::find(in_service_, part) != in_service_.end(); }

  template <class Row>
  void refuse_strangers(const std::vector<Row>& rows, PointsErrors& errors) const {
    for (const Row& one : rows) {
      if (known(one.part)) continue;
      if (errors.first.size() == most_csv_errors) {
        ++errors.more;
        continue;
      }
      const Stranger stranger = stranger_of(one.part, in_service_);
      errors.first.push_back({.line = one.line,
                              .column = one.part_at.column,
                              .length = one.part_at.length,
                              .message = stranger.message,
                              .instead = stranger.instead,
                              .source_line = one.source_line});
    }
  }

  void refuse() {
    refuse_strangers(out_.input.parts, errors_.parts);
    refuse_strangers(out_.input.log, errors_.log);
    for (const Measurement& one : out_.input.measurements) {
      if (one.measurand != Measurand::diameter || registered(one.item)) continue;
      errors_.measurements.first.push_back(
          error_at(one, one.item_at, fmt::format("\"{}\" does not stand in the register", one.item.substr(0, 80)),
                   known(one.item) ? "give it a line there" : stranger_of(one.item, in_service_).instead));
    }
  }

  void look(const RegisteredPart& row) {
    if (row.part == "brake_unit") look_at_serial(row);
    look_at_date(RecordKind::retirement, row, row.retire_by, "retire_by");
    look_at_date(RecordKind::inspection, row, row.inspect_by, "inspect_by");
    look_at_cycles(row);
    look_at_wear(row);
  }

  /// The layout's numbers are those of one unit: another in its place is not what was judged.
  void look_at_serial(const RegisteredPart& row) {
    RecordFinding one{.kind = RecordKind::serial, .part = row.part};
    const auto& of_layout = layout_.brake_unit.serial;
    if (!of_layout) {
      one.verdict = Verdict::not_judged;
      one.why = "the layout does not say whose data it has: give brake_unit.serial";
    } else if (of_layout->value == row.serial) {
      one.verdict = Verdict::pass;
    } else {
      one.verdict = Verdict::fail;
      one.why = fmt::format(
          "\"{}\" is in service, and the layout has the data of \"{}\": give it those of the unit in "
          "service and judge it again",
          row.serial, of_layout->value);
    }
    add(std::move(one));
  }

  void look_at_date(RecordKind kind, const RegisteredPart& row, const std::optional<Date>& due, const char* column) {
    RecordFinding one{.kind = kind, .part = row.part, .verdict = Verdict::not_judged};
    if (!due) {
      one.why = fmt::format("no {} given", column);
    } else if (!out_.date) {
      one.why = "no date to judge it at: give --date or project.date";
    } else {
      one.days_left = days_between(*out_.date, *due);
      one.verdict = *one.days_left >= 0 ? Verdict::pass : Verdict::fail;
      if (*one.days_left < 0) one.why = fmt::format("it was due on {}", iso(*due));
    }
    add(std::move(one));
  }

  void look_at_cycles(const RegisteredPart& row) {
    if (!row.cycles && !row.most_cycles) return;
    RecordFinding one{.kind = RecordKind::cycles,
                      .part = row.part,
                      .value = row.cycles,
                      .limit = row.most_cycles,
                      .basis = row.basis};
    if (!row.most_cycles) {
      one.verdict = Verdict::not_judged;
      one.why = "no most_cycles given";
    } else if (!row.cycles) {
      one.why = "its cycles were not counted";
    } else {
      one.verdict = *row.cycles <= *row.most_cycles ? Verdict::pass : Verdict::fail;
      if (one.verdict == Verdict::fail) one.why = "it has run more cycles than it may";
    }
    add(std::move(one));
  }

  void look_at_wear(const RegisteredPart& row) {
    const auto measured = std::ranges::find_if(out_.input.measurements, [&](const Measurement& one) {
      return one.measurand == Measurand::diameter && one.item == row.part;
    });
    const bool read = measured != out_.input.measurements.end();
    if (!read && !row.baseline_m && !row.least_m) return;
    RecordFinding one{.kind = RecordKind::wear, .part = row.part, .limit = row.least_m, .basis = row.basis};
    if (read) {
      one.value = measured->value;
      one.uncertainty = measured->uncertainty;
      if (row.baseline_m) one.worn = 1 - measured->value / *row.baseline_m;
    }
    if (!row.least_m) {
      one.verdict = Verdict::not_judged;
      one.why = "no least_mm given";
    } else if (!read) {
      one.why = "its diameter was not measured";
    } else {
      const double off_m = guard * measured->uncertainty;
      one.verdict = measured->value - off_m >= *row.least_m  ? Verdict::pass
                    : measured->value + off_m < *row.least_m ? Verdict::fail
                                                             : Verdict::undetermined;
      if (one.verdict == Verdict::fail) one.why = "it is worn beyond what it may be";
      if (one.verdict == Verdict::undetermined) one.why = "it is too near its limit for how well it was measured";
    }
    add(std::move(one));
  }

  /// Until it is closed, whatever the date.
  void look(const LoggedFinding& row) {
    if (row.closed && (!out_.date || *row.closed <= *out_.date)) return;
    RecordFinding one{.kind = RecordKind::open_finding,
                      .part = row.part,
                      .verdict = Verdict::fail,
                      .why = fmt::format("{}, found {}: {}", row.id, iso(row.found), row.what)};
    if (out_.date) one.days_left = days_between(*out_.date, row.found);
    add(std::move(one));
  }

  const Layout& layout_;
  std::vector<std::string> in_service_;
  Records out_;
  RecordsErrors errors_;
};

template <class List>
void add_ids(const List& list, std::vector<std::string>& ids) {
  for (const auto& one : list) ids.push_back(one.id.value);
}

}  // namespace

std::vector<std::string> parts_in_service(const Layout& layout) {
  std::vector<std::string> ids{"main_line"};
  add_ids(layout.parallel_lines, ids);
  add_ids(layout.support_lines, ids);
  add_ids(layout.sheaves, ids);
  add_ids(layout.blocks, ids);
  add_ids(layout.connectors, ids);
  add_ids(layout.lines, ids);
  ids.emplace_back("brake_unit");
  ids.emplace_back("brake_trolley");
  return ids;
}

tl::expected<Records, RecordsErrors> judge_records(const Layout& layout, std::optional<Date> date, RecordsInput input) {
  return Recorder(layout, date, std::move(input)).judge();
}

}  // namespace fairlead
