#include "geometry/records/register_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "geometry/quantity/nearest.hpp"
#include "geometry/quantity/utf8.hpp"
#include "geometry/records/columns_file.hpp"

namespace fairlead {
namespace {

/// What the readers of both files do alike: one of every line, each by a key of its own, of a part that is known.
template <class One>
class RecordsReader : public ColumnsFile {
 protected:
  RecordsReader(std::string_view text, std::span<const RecordColumn> columns, std::string_view row,
                const std::vector<std::string>& known)
      : ColumnsFile(text, columns, row), known_(known) {}
  ~RecordsReader() = default;

  /// `row` makes one of the line last read. `none`, `instead`: what is said of a file without a line.
  template <class MakeOne>
  tl::expected<std::vector<One>, PointsErrors> all(const MakeOne& row, const char* none, const char* instead) {
    while (next()) rows_.push_back(row());
    if (rows_.empty() && errors_.first.empty()) add_of_file(none, instead);
    add_later({}, 0);  // in the order of their places
    if (!errors_.first.empty()) return tl::unexpected<PointsErrors>(std::move(errors_));
    return std::move(rows_);
  }

  Columns columns_where(const std::string& is) const {
    for (const points_row::Cell& cell : cells_)
      if (points_row::plain(cell) == is)
        return {columns_of(line_.substr(0, cell.at)) + 1, std::max(1u, columns_of(line_.substr(cell.at, cell.length)))};
    return {1, 1};
  }

  void refuse_stranger(std::size_t column, const std::string& part) {
    if (known_.empty() || std::ranges::find(known_, part) != known_.end()) return;
    const Stranger stranger = stranger_of(part, known_);
    wrong(column, stranger.message, stranger.instead);
  }

  /// A second line of the same key; `what`: "the finding ", or "".
  void refuse_second(std::size_t column, const std::string& key, const char* what, const char* instead) {
    if (const auto [at, fresh] = first_.try_emplace(key, number_); !fresh)
      wrong(column, fmt::format("{}\"{}\" stands in line {} already", what, points_row::shown(key), at->second),
            instead);
  }

 private:
  const std::vector<std::string>& known_;
  std::vector<One> rows_;
  std::map<std::string, unsigned> first_;
};

enum Register : std::size_t {
  part,
  serial,
  batch,
  in_service,
  retire_by,
  inspect_by,
  cycles,
  most_cycles,
  baseline_mm,
  least_mm,
  basis
};
constexpr std::array<RecordColumn, 11> register_columns{{{"part", true},
                                                         {"serial", true},
                                                         {"batch"},
                                                         {"in_service"},
                                                         {"retire_by"},
                                                         {"inspect_by"},
                                                         {"cycles"},
                                                         {"most_cycles"},
                                                         {"baseline_mm"},
                                                         {"least_mm"},
                                                         {"basis"}}};

constexpr double mm = 1e-3, least_diameter_mm = 0.01;

class RegisterReader : RecordsReader<RegisteredPart> {
 public:
  RegisterReader(std::string_view text, const std::vector<std::string>& known)
      : RecordsReader(text, register_columns, "part", known) {}

  tl::expected<std::vector<RegisteredPart>, PointsErrors> read() {
    return all([this] { return row(); }, "there is no part in the file",
               "begin it with a line like part,serial,in_service,retire_by,inspect_by and write a line for each");
  }

 private:
  RegisteredPart row() {
    RegisteredPart one{.part = text(part),
                       .serial = text(serial),
                       .batch = text(batch),
                       .in_service = date(in_service),
                       .retire_by = date(retire_by),
                       .inspect_by = date(inspect_by),
                       .cycles = number(cycles, 0),
                       .most_cycles = number(most_cycles, 0),
                       .baseline_m = number(baseline_mm, least_diameter_mm),
                       .least_m = number(least_mm, least_diameter_mm),
                       .basis = text(basis),
                       .line = number_,
                       .part_at = columns_where(text(part)),
                       .source_line = std::string(line_)};
    for (auto* length : {&one.baseline_m, &one.least_m})
      if (*length) **length *= mm;
    if ((one.most_cycles || one.least_m) && one.basis.empty())
      wrong(one.most_cycles ? most_cycles : least_mm, "a limit stands here, and nobody who sets it",
            "say in the column basis whose limit it is");
    if (one.in_service && one.retire_by && *one.retire_by < *one.in_service)
      wrong(retire_by, "it was to be retired before it was put in service", "check both dates");
    if (one.baseline_m && one.least_m && *one.least_m > *one.baseline_m)
      wrong(least_mm, "the least diameter is greater than the baseline", "check both and their unit");
    refuse_stranger(part, one.part);
    refuse_second(part, one.part, "", "keep the line of what is in service now");
    return one;
  }
};

enum Log : std::size_t { id, found, log_part, what, closed, by, how };
constexpr std::array<RecordColumn, 7> log_columns{
    {{"id", true}, {"found", true}, {"part", true}, {"what", true}, {"closed"}, {"by"}, {"how"}}};

class LogReader : RecordsReader<LoggedFinding> {
 public:
  LogReader(std::string_view text, const std::vector<std::string>& known)
      : RecordsReader(text, log_columns, "finding", known) {}

  tl::expected<std::vector<LoggedFinding>, PointsErrors> read() {
    return all([this] { return row(); }, "there is no finding in the file",
               "begin it with id,found,part,what,closed,by,how and write a line for each, or leave the log out");
  }

 private:
  LoggedFinding row() {
    LoggedFinding one{.id = text(id),
                      .found = date(found).value_or(Date{}),
                      .part = text(log_part),
                      .what = text(what),
                      .closed = date(closed),
                      .by = text(by),
                      .how = text(how),
                      .line = number_,
                      .part_at = columns_where(text(log_part)),
                      .source_line = std::string(line_)};
    if (given(closed) && (one.by.empty() || one.how.empty()))
      wrong(closed, fmt::format("it is closed, and not said by whom and how"), "fill in the columns by and how");
    if (!given(closed) && !(one.by.empty() && one.how.empty()))
      wrong(one.by.empty() ? how : by, "it is not closed",
            "write the day in the column closed, or leave by and how empty");
    if (one.closed && *one.closed < one.found) wrong(closed, "it was closed before it was found", "check both dates");
    refuse_stranger(log_part, one.part);
    refuse_second(id, one.id, "the finding ", "give it an id of its own");
    return one;
  }
};

}  // namespace

Stranger stranger_of(const std::string& part, const std::vector<std::string>& known) {
  constexpr std::size_t longest_id = 80;
  const auto near = part.size() <= longest_id ? nearest(part, known) : std::nullopt;
  return {fmt::format("the layout has no part \"{}\"", part.substr(0, longest_id)),
          near ? fmt::format("did you mean \"{}\"?", *near) : fmt::format("known: {}", fmt::join(known, ", "))};
}

tl::expected<std::vector<RegisteredPart>, PointsErrors> read_register(std::string_view text,
                                                                      const std::vector<std::string>& known) {
  const auto lines = lines_of(text);
  if (!lines) return tl::unexpected<PointsErrors>(lines.error());
  return RegisterReader(*lines, known).read();
}

tl::expected<std::vector<LoggedFinding>, PointsErrors> read_log(std::string_view text,
                                                                const std::vector<std::string>& known) {
  const auto lines = lines_of(text);
  if (!lines) return tl::unexpected<PointsErrors>(lines.error());
  return LogReader(*lines, known).read();
}

}  // namespace fairlead
