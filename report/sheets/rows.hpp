// Where a table is parted that goes on from box to box of a sheet.
#pragma once

#include <functional>
#include <vector>

#include "report/tables/table.hpp"

namespace fairlead::sheets {

/// Fewer rows of a table stand alone only where there are no more.
inline constexpr std::size_t least_rows = 4;

/// The rows that stand in one box: from where the part before it ends, up to `to`.
struct RowsInBox {
  std::size_t box{}, to{};
};

/// Whether rows [from, to) of a table fit a box, with its title and headings and, with its last row, its notes.
using RowsFit = std::function<bool(std::size_t box, std::size_t from, std::size_t to)>;

/// The rows from `from` on as far as so many boxes have room for them, in their order: all of the table in the first
/// box that holds it whole, else from box to box. A row whose first cell is empty stays with the row before it.
std::vector<RowsInBox> rows_in_boxes(const Table&, std::size_t from, std::size_t boxes, const RowsFit&);

}  // namespace fairlead::sheets
