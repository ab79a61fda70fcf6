// Numbers that a crew writes down on a site, one a line: what files of measurements and of trial results have in
// common. The first line names the columns in any order, that of what is measured and then quantity, value, unit and
// uncertainty; text, quotes, comments and blanks are those of a points file.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/quantity/dimension.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

struct QuantityKind {
  std::string_view word;
  Dimension dimension{};   ///< none: it is counted, and has neither unit nor uncertainty
  double least{}, most{};  ///< what it may be, SI
};

/// Where something stands in its line.
struct Columns {
  unsigned column{}, length = 1;  ///< from 1, characters
  bool operator==(const Columns&) const = default;
};

struct QuantityRow {
  std::string item;
  std::size_t quantity{};  ///< index into QuantitiesFormat::kinds
  double value{};          ///< SI
  double uncertainty{};    ///< standard, > 0, SI; 0 of what is counted
  unsigned line{};         ///< of the file, from 1
  Columns item_at, quantity_at, value_at;
  std::string source_line;
  bool operator==(const QuantityRow&) const = default;
};

struct QuantitiesFormat {
  std::string_view item;       ///< the column that says what is measured: "item"
  std::string_view row;        ///< what a line holds: "measurement"
  std::string_view item_hint;  ///< what to write where it is missing
  std::span<const QuantityKind> kinds;
};

/// An error at the place of a row: for what only the layout tells.
PointsError error_at(const QuantityRow&, Columns, std::string message, std::string instead);

inline constexpr std::size_t largest_quantities_file = std::size_t{1} * 1024 * 1024;

/// The rows of a file in its order, each with a number that may be and an uncertainty above 0, no item with the same
/// quantity twice. A file without one is refused; what an item is only the layout tells.
tl::expected<std::vector<QuantityRow>, PointsErrors> read_quantities(std::string_view text, const QuantitiesFormat&);

}  // namespace fairlead
