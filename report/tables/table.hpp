// A table before it has a place on paper or screen.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "report/dossier.hpp"

namespace fairlead {

/// Empty, words, or a number that is shown in the style's units.
using Cell = std::variant<std::monostate, std::string, Quantity>;

/// Columns whose numbers are compared along a row, the components of a force or a value and its limit: one unit for
/// them all, or one a row where the rows tell of different things.
using Compared = std::vector<std::size_t>;

/// Every row has as many cells as there are headings. Notes belong beneath: signs, frames, what is left out.
struct Table {
  std::string title;
  std::vector<std::string> headings;
  std::vector<std::vector<Cell>> rows;
  std::vector<std::string> notes;
  std::vector<Compared> compared{};
};

namespace tables {

/// A table in words: where every number of a column has the same unit, the unit stands in the heading alone.
struct Shown {
  std::string title;
  std::vector<std::string> headings;
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> notes;
  std::vector<bool> numeric;  ///< per column: set flush right
};
Shown shown(const Table&, const Style&);

inline Cell cell(double si, Dimension dimension) { return Quantity{si, dimension}; }
template <class T>
Cell cell(const std::optional<T>& si, Dimension dimension) {
  return si ? cell(*si, dimension) : Cell{};
}

}  // namespace tables
}  // namespace fairlead
