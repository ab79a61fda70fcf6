#include "report/sheets/rows.hpp"

#include <algorithm>
#include <optional>

namespace fairlead::sheets {

namespace {

/// Where a table may be parted behind the row `from`, and its end: a row whose first cell is empty belongs to the row
/// before it.
std::vector<std::size_t> ends_after(const Table& table, std::size_t from) {
  std::vector<std::size_t> ends;
  for (std::size_t row = from + 1; row <= table.rows.size(); ++row)
    if (row == table.rows.size() || !std::holds_alternative<std::monostate>(table.rows[row].front()))
      ends.push_back(row);
  return ends;
}

/// The last end that fits, all before it taken to fit too; `none` where the first does not. By strides that double,
/// then halve: measuring a long table whole for every page it takes would take as long as its length squared.
template <class Fits>
std::size_t last_fitting(const std::vector<std::size_t>& ends, std::size_t none, const Fits& fits) {
  std::size_t held = 0, stride = 1;
  const auto reaches = [&] { return held + stride <= ends.size() && fits(ends[held + stride - 1]); };
  for (; reaches(); stride *= 2) held += stride;
  for (; stride > 0; stride /= 2)
    if (reaches()) held += stride;
  return held == 0 ? none : ends[held - 1];
}

/// An earlier end for a part where too few rows would be left behind it: it gives of its own until both are even.
std::size_t leaving_enough(const std::vector<std::size_t>& ends, std::size_t from, std::size_t to) {
  auto at = std::find(ends.begin(), ends.end(), to);
  const auto left = [&] { return ends.back() - *at; };
  if (at == ends.end() || left() == 0) return to;
  while (left() < least_rows && at != ends.begin() && ends.back() - *(at - 1) <= *(at - 1) - from) --at;
  return *at;
}

/// The next rows, and the box from `box` on that they stand in.
std::optional<RowsInBox> next_rows(const std::vector<std::size_t>& ends, std::size_t from, std::size_t box,
                                   std::size_t boxes, const RowsFit& fits) {
  const std::size_t all = ends.back();
  for (std::size_t b = box; from == 0 && b < boxes; ++b)
    if (fits(b, 0, all)) return RowsInBox{b, all};
  for (std::size_t b = box; all > least_rows && b < boxes; ++b) {
    const std::size_t last = last_fitting(ends, from, [&](std::size_t end) { return fits(b, from, end); });
    if (last == all || last >= from + least_rows) return RowsInBox{b, last};
  }
  return std::nullopt;
}

}  // namespace

std::vector<RowsInBox> rows_in_boxes(const Table& table, std::size_t from, std::size_t boxes, const RowsFit& fits) {
  const std::size_t all = table.rows.size();
  std::vector<RowsInBox> parts;
  for (std::size_t box = 0; from < all;) {
    const std::vector<std::size_t> ends = ends_after(table, from);
    auto part = next_rows(ends, from, box, boxes, fits);
    if (!part) break;
    // Few rows are left over only where they fit this sheet and more would not.
    const auto rest_fits = [&](std::size_t end) {
      for (std::size_t b = part->box + 1; b < boxes; ++b)
        if (fits(b, end, all)) return true;
      return false;
    };
    const std::size_t enough = leaving_enough(ends, from, part->to);
    const bool alone = enough < part->to && !rest_fits(enough) && !rest_fits(part->to);
    if (alone || (enough < part->to && rest_fits(enough))) part->to = enough;
    parts.push_back(*part);
    if (alone) break;
    from = part->to;
    box = part->box + 1;
  }
  return parts;
}

}  // namespace fairlead::sheets
