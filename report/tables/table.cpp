#include "report/tables/table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

/// What numbers that are compared are shown in: in both systems the second in brackets.
struct Numbers {
  words::Alike first;
  std::optional<words::Alike> second;

  std::string heading() const {
    if (first.unit().empty()) return {};
    return second ? fmt::format(", {} ({})", first.unit(), second->unit()) : fmt::format(", {}", first.unit());
  }
  std::string without_unit(double si) const {
    return second && std::isfinite(si) ? fmt::format("{} ({})", first.number(si), second->number(si))
                                       : first.number(si);
  }
  std::string with_unit(double si) const {
    return second && std::isfinite(si) ? fmt::format("{} ({})", first.shown(si), second->shown(si)) : first.shown(si);
  }
};

Numbers numbers_for(Quantity greatest, bool fine, const Style& style) {
  if (!words::in_both(greatest.dimension, style)) return {words::Alike(greatest, words::single(style), fine), {}};
  return {words::Alike(greatest, {Units::si}, fine), words::Alike(greatest, {Units::us, style.tenths}, fine)};
}

/// Of some cells: the greatest number, where all are of one dimension, and whether there is a small one.
struct Met {
  std::optional<Quantity> greatest{};
  std::optional<Quantity> least{};  ///< but for nought
  bool mixed{};

  void add(const Cell& cell) {
    const auto* quantity = std::get_if<Quantity>(&cell);
    if (!quantity || !std::isfinite(quantity->si)) return;
    mixed = mixed || (greatest && greatest->dimension != quantity->dimension);
    greatest = greatest ? words::greater(*greatest, *quantity) : *quantity;
    if (quantity->si != 0 && (!least || std::abs(quantity->si) < std::abs(least->si))) least = *quantity;
  }
  std::optional<Numbers> numbers(bool fine, const Style& style) const {
    if (!greatest || mixed) return std::nullopt;
    constexpr double shown_as_kN = 1000;
    const bool wanted = fine || std::abs(greatest->si) < shown_as_kN;
    return numbers_for(*greatest, wanted && least && words::small_beside(*greatest, *least), style);
  }
};

Compared compared_with(const Table& table, std::size_t column) {
  for (const Compared& columns : table.compared)
    if (std::find(columns.begin(), columns.end(), column) != columns.end()) return columns;
  return {column};
}

/// A number of a column whose rows tell of different things, in the unit of its row.
std::string in_its_row(const Table& table, std::size_t row, const Compared& columns, Quantity quantity,
                       const Style& style) {
  Met met;
  for (const std::size_t column : columns)
    if (const auto* other = std::get_if<Quantity>(&table.rows[row][column]);
        other && other->dimension == quantity.dimension)
      met.add(*other);
  const auto numbers = columns.size() > 1 ? met.numbers(false, style) : std::nullopt;
  return numbers && std::isfinite(quantity.si) ? numbers->with_unit(quantity.si) : words::shown(quantity, style);
}

}  // namespace

Shown shown(const Table& table, const Style& style) {
  Shown out{table.title, table.headings, {}, table.notes, std::vector<bool>(table.headings.size(), false)};
  out.rows.assign(table.rows.size(), std::vector<std::string>(table.headings.size()));
  for (std::size_t column = 0; column < table.headings.size(); ++column) {
    const Compared columns = compared_with(table, column);
    Met met;
    for (const auto& row : table.rows)
      for (const std::size_t with : columns) met.add(row[with]);
    const auto numbers = met.numbers(columns.size() == 1, style);
    if (numbers) out.headings[column] += numbers->heading();
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      const Cell& cell = table.rows[row][column];
      if (const auto* words = std::get_if<std::string>(&cell)) out.rows[row][column] = *words;
      if (const auto* quantity = std::get_if<Quantity>(&cell)) {
        out.rows[row][column] = !numbers                      ? in_its_row(table, row, columns, *quantity, style)
                                : std::isfinite(quantity->si) ? numbers->without_unit(quantity->si)
                                                              : words::shown(*quantity, style);
        out.numeric[column] = true;
      }
    }
  }
  return out;
}

}  // namespace fairlead::tables
