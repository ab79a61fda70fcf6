#include "report/tables/table.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

/// What a whole column is shown in: a lone number may choose its unit by its size, numbers to be compared may not.
struct ColumnUnit {
  const Unit* unit{};
  int decimals{};
  std::string_view name = unit->name;  ///< in the heading

  std::string number(double si) const {
    const double number = (si - unit->offset) / unit->to_si;
    const std::string text = fmt::format("{:.{}f}", number, decimals);
    return text.find_first_of("123456789") == std::string::npos ? fmt::format("{:.{}f}", 0.0, decimals) : text;
  }
};

/// The unit and decimals the column's greatest number is printed with; nothing for feet and inches, or without a unit.
std::optional<ColumnUnit> unit_for(Quantity greatest, const Style& style) {
  if (words::in_tenths(greatest, style)) return ColumnUnit{find_unit("ft", Dimension::length), 2, words::tenths_unit};
  const std::string text = print_quantity(greatest, style.units);
  const std::size_t blank = text.find(' ');
  const std::string number = text.substr(0, blank);
  if (blank == std::string::npos || number.find_first_not_of("-.0123456789") != std::string::npos) return std::nullopt;
  const Unit* unit = find_unit(text.substr(blank + 1), greatest.dimension);
  if (!unit) return std::nullopt;
  const std::size_t point = number.find('.');
  const int decimals = point == std::string::npos ? 0 : static_cast<int>(number.size() - point - 1);
  // Beside 20 kN a load of 0.12 kN still has to be read.
  return ColumnUnit{unit, unit->name == "kN" ? 2 : decimals};
}

struct ColumnStyle {
  std::optional<ColumnUnit> first, second;  ///< second: in brackets

  std::string heading() const {
    if (!first) return {};
    return second ? fmt::format(", {} ({})", first->name, second->name) : fmt::format(", {}", first->name);
  }
  std::string text(Quantity quantity, const Style& style) const {
    if (!first || !std::isfinite(quantity.si)) return words::shown(quantity, style);
    return second ? fmt::format("{} ({})", first->number(quantity.si), second->number(quantity.si))
                  : first->number(quantity.si);
  }
};

ColumnStyle style_of(const Table& table, std::size_t column, const Style& style) {
  std::optional<Quantity> greatest;
  for (const auto& row : table.rows) {
    const auto* quantity = std::get_if<Quantity>(&row[column]);
    if (!quantity || !std::isfinite(quantity->si)) continue;
    if (greatest && greatest->dimension != quantity->dimension) return {};
    if (!greatest || std::abs(quantity->si) > std::abs(greatest->si)) greatest = *quantity;
  }
  if (!greatest) return {};
  if (!words::in_both(greatest->dimension, style)) return {unit_for(*greatest, words::single(style)), {}};
  return {unit_for(*greatest, {Units::si}), unit_for(*greatest, {Units::us, style.tenths})};
}

}  // namespace

Shown shown(const Table& table, const Style& style) {
  Shown out{table.title, table.headings, {}, table.notes, std::vector<bool>(table.headings.size(), false)};
  out.rows.assign(table.rows.size(), std::vector<std::string>(table.headings.size()));
  for (std::size_t column = 0; column < table.headings.size(); ++column) {
    const ColumnStyle column_style = style_of(table, column, style);
    out.headings[column] += column_style.heading();
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      const Cell& cell = table.rows[row][column];
      if (const auto* words = std::get_if<std::string>(&cell)) out.rows[row][column] = *words;
      if (const auto* quantity = std::get_if<Quantity>(&cell)) {
        out.rows[row][column] = column_style.text(*quantity, style);
        out.numeric[column] = true;
      }
    }
  }
  return out;
}

}  // namespace fairlead::tables
