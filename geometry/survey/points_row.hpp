// One line of a points file as its cells.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fairlead::points_row {

struct Cell {
  std::string_view text;         ///< without blanks and quotes around it; a quote inside is still double
  std::size_t at{}, length = 1;  ///< bytes in the line, with its quotes
  bool quoted = false;
};

struct Flaw {
  std::size_t at{}, length = 1;  ///< bytes of the line
  std::string message, instead;
};

/// Splits a line without its end; cells of the line before are lost. What is wrong with its quotes, if anything.
std::optional<Flaw> split(std::string_view line, std::vector<Cell>& cells);

/// The text of a cell, its doubled quotes made single.
std::string plain(const Cell&);

/// The text as a cell of a line: in quotes where it needs them.
std::string as_cell(std::string_view text);

/// The number that a whole cell holds; the flaw says what else stands there. Neither infinite nor unknown.
struct Number {
  double value{};
  std::optional<Flaw> flaw;
};
Number number(const Cell&, std::string_view what);

/// What was written, for a message: no more than a few words of it.
std::string shown(std::string_view text);

}  // namespace fairlead::points_row
