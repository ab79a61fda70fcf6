// The lines of a comma-separated file as cells, with all that is wrong with them: what the readers of points and of
// measurements stand on.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "geometry/survey/points_file.hpp"
#include "geometry/survey/points_row.hpp"

namespace fairlead {

inline constexpr std::size_t most_csv_errors = 200;  ///< of one file; who has more has one cause for many

/// The text without a byte order mark, or the one error of a text that holds what no line does: UTF-16, a control
/// character, no UTF-8.
tl::expected<std::string_view, PointsErrors> lines_of(std::string_view text);

class CsvLines {
 protected:
  explicit CsvLines(std::string_view text) : rest_(text) {}
  ~CsvLines() = default;

  enum class Row { cells, flawed, end };
  /// The next line that is neither blank nor a comment: split into cells_, or with its flaw among the errors.
  Row next_row();

  void add(points_row::Flaw);  ///< in the line last read
  void add(const points_row::Cell&, std::string message, std::string instead);
  void add_of_file(std::string message, std::string instead);
  static PointsError error_of(points_row::Flaw, unsigned number, std::string_view line);
  /// All errors in the order of their places, no more than most_csv_errors and the number of the others. `later`: of
  /// lines read before, found once all were.
  void add_later(std::vector<PointsError> later, std::size_t more);

  std::string_view line_;
  unsigned number_ = 0;  ///< of the line
  std::vector<points_row::Cell> cells_;
  PointsErrors errors_;

 private:
  bool next_line();

  std::string_view rest_;
};

}  // namespace fairlead
