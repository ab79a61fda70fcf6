// A comma-separated file whose first line names its columns in any order, some of which may be left out: what the
// register of parts and the log of findings have in common. Text, quotes, comments and blanks are those of a points
// file.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/layout/given.hpp"
#include "geometry/survey/csv_lines.hpp"

namespace fairlead {

struct RecordColumn {
  std::string_view word;
  bool required{};  ///< the column is there, and no cell of it is empty
};

class ColumnsFile : protected CsvLines {
 protected:
  /// `row`: what a line holds, "part".
  ColumnsFile(std::string_view text, std::span<const RecordColumn> columns, std::string_view row)
      : CsvLines(text), columns_(columns), row_(row), cell_of_(columns.size()) {}
  ~ColumnsFile() = default;

  /// The next line with a cell for every column of the header and none of the required ones empty; the header itself is
  /// read first. False at the end, and behind a header that can not be used.
  bool next();

  bool given(std::size_t column) const;          ///< and not empty
  std::string text(std::size_t column) const;    ///< empty where it is not given
  std::optional<Date> date(std::size_t column);  ///< an error where it is given and is no day of the calendar
  /// An error where it is given and is no number from `least` on.
  std::optional<double> number(std::size_t column, double least);
  void wrong(std::size_t column, std::string message, std::string instead);

 private:
  bool header();

  std::span<const RecordColumn> columns_;
  std::string_view row_;
  std::vector<std::optional<std::size_t>> cell_of_;
  std::size_t width_ = 0;
  bool named_ = false;
};

/// "2026-10-30" as a day of the calendar.
std::optional<Date> read_date(std::string_view text);

/// Days from one to the other, in the Gregorian calendar; negative where `to` comes first.
long days_between(const Date& from, const Date& to);

}  // namespace fairlead
