#include "geometry/records/register_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "geometry/quantity/utf8.hpp"
#include "geometry/records/columns_file.hpp"

namespace fairlead {
namespace {

/// What the readers of both files do alike.
class RecordsReader : public ColumnsFile {
 public:
  using ColumnsFile::ColumnsFile;

 protected:
  ~RecordsReader() = default;

  Columns columns(std::size_t column_of_cell) const {
    const points_row::Cell& cell = cells_[column_of_cell];
    return {columns_of(line_.substr(0, cell.at)) + 1, std::max(1u, columns_of(line_.substr(cell.at, cell.length)))};
  }

  template <class Row>
  Columns columns_where(const Row& is) const {
    for (std::size_t i = 0; i < cells_.size(); ++i)
      if (points_row::plain(cells_[i]) == is) return columns(i);
    return {1, 1};
  }

  template <class Rows>
  tl::expected<Rows, PointsErrors> finished(Rows rows, const char* none, const char* instead) {
    if (rows.empty() && errors_.first.empty()) add_of_file(none, instead);
    add_later({}, 0);  // in the order of their places
    if (!errors_.first.empty()) return tl::unexpected<PointsErrors>(std::move(errors_));
    return rows;
  }
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

class RegisterReader : RecordsReader {
 public:
  explicit RegisterReader(std::string_view text) : RecordsReader(text, register_columns, "part") {}

  tl::expected<std::vector<RegisteredPart>, PointsErrors> read() {
    while (next()) row();
    return finished(std::move(rows_), "there is no part in the file",
                    "begin it with a line like part,serial,in_service,retire_by,inspect_by and write a line for each");
  }

 private:
  void row() {
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
    if (const auto [at, fresh] = first_.try_emplace(one.part, number_); !fresh)
      wrong(part, fmt::format("\"{}\" stands in line {} already", points_row::shown(one.part), at->second),
            "keep the line of what is in service now");
    rows_.push_back(std::move(one));
  }

  std::vector<RegisteredPart> rows_;
  std::map<std::string, unsigned> first_;
};

enum Log : std::size_t { id, found, log_part, what, closed, by, how };
constexpr std::array<RecordColumn, 7> log_columns{
    {{"id", true}, {"found", true}, {"part", true}, {"what", true}, {"closed"}, {"by"}, {"how"}}};

class LogReader : RecordsReader {
 public:
  explicit LogReader(std::string_view text) : RecordsReader(text, log_columns, "finding") {}

  tl::expected<std::vector<LoggedFinding>, PointsErrors> read() {
    while (next()) row();
    return finished(std::move(rows_), "there is no finding in the file",
                    "begin it with id,found,part,what,closed,by,how and write a line for each, or leave the log out");
  }

 private:
  void row() {
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
    if (const auto [at, fresh] = first_.try_emplace(one.id, number_); !fresh)
      wrong(id, fmt::format("the finding \"{}\" stands in line {} already", points_row::shown(one.id), at->second),
            "give it an id of its own");
    rows_.push_back(std::move(one));
  }

  std::vector<LoggedFinding> rows_;
  std::map<std::string, unsigned> first_;
};

}  // namespace

tl::expected<std::vector<RegisteredPart>, PointsErrors> read_register(std::string_view text) {
  const auto lines = lines_of(text);
  if (!lines) return tl::unexpected<PointsErrors>(lines.error());
  return RegisterReader(*lines).read();
}

tl::expected<std::vector<LoggedFinding>, PointsErrors> read_log(std::string_view text) {
  const auto lines = lines_of(text);
  if (!lines) return tl::unexpected<PointsErrors>(lines.error());
  return LogReader(*lines).read();
}

}  // namespace fairlead
