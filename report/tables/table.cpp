#include "report/tables/table.hpp"

#include <cmath>
#include <optional>

#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

/// "19.4 kN (4365 lbf)" as number "19.4 (4365)" and unit "kN (lbf)".
struct Split {
  std::string number, unit;
};

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ' ')
      words.emplace_back();
    else
      words.back() += c;
  }
  return words;
}

/// Nothing where the text is no number with one unit, or two in one: "unknown", "12 ft 6 in".
std::optional<Split> split(const std::string& text) {
  const std::vector<std::string> words = words_of(text);
  if (words.size() == 2) return Split{words[0], words[1]};
  if (words.size() == 4 && words[2].starts_with('(') && words[3].ends_with(')'))
    return Split{words[0] + ' ' + words[2] + ')', words[1] + " (" + words[3]};
  return std::nullopt;
}

std::string text_of(const Cell& cell, const Style& style) {
  if (const auto* words = std::get_if<std::string>(&cell)) return *words;
  if (const auto* quantity = std::get_if<Quantity>(&cell)) return words::shown(*quantity, style);
  return {};
}

/// The unit that every known number of the column has; empty where they differ or have none.
std::string common_unit(const Table& table, std::size_t column, const Style& style) {
  std::optional<std::string> unit;
  for (const auto& row : table.rows) {
    const auto* quantity = std::get_if<Quantity>(&row[column]);
    if (!quantity || !std::isfinite(quantity->si)) continue;
    const auto parts = split(text_of(row[column], style));
    const std::string here = parts ? parts->unit : "";
    if (unit && *unit != here) return {};
    unit = here;
  }
  return unit.value_or("");
}

}  // namespace

Shown shown(const Table& table, const Style& style) {
  Shown out{table.title, table.headings, {}, table.notes, std::vector<bool>(table.headings.size(), false)};
  out.rows.assign(table.rows.size(), std::vector<std::string>(table.headings.size()));
  for (std::size_t column = 0; column < table.headings.size(); ++column) {
    const std::string unit = common_unit(table, column, style);
    if (!unit.empty()) out.headings[column] += ", " + unit;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      const Cell& cell = table.rows[row][column];
      const bool number = std::holds_alternative<Quantity>(cell);
      const std::string text = text_of(cell, style);
      const auto parts = number && !unit.empty() ? split(text) : std::nullopt;
      out.rows[row][column] = parts ? parts->number : text;
      if (number) out.numeric[column] = true;
    }
  }
  return out;
}

}  // namespace fairlead::tables
