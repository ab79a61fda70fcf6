#include <algorithm>
#include <numeric>

#include "report/formats/text.hpp"
#include "report/words/wrap.hpp"

namespace fairlead::text {
namespace {

using tables::Shown;
using words::width_of;

constexpr int gap = 2;  ///< blanks between columns

std::vector<std::string> in_lines(std::string_view text, int columns) {
  std::vector<std::string> lines;
  const std::string wrapped = words::wrapped("", text, columns);
  for (std::size_t at = 0; at < wrapped.size();) {
    const std::size_t end = wrapped.find('\n', at);
    lines.push_back(wrapped.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

int widest_word(std::string_view text) {
  int widest = 0;
  for (const std::string& word : in_lines(text, 1)) widest = std::max(widest, width_of(word));
  return widest;
}

/// Of a column: with its words unbroken, and as narrow as they let it be.
struct Widths {
  int whole{}, least{};
};
Widths widths_of(const Shown& table, std::size_t column) {
  const int heading = widest_word(table.headings[column]);
  Widths widths{heading, heading};
  for (const auto& row : table.rows) {
    widths.whole = std::max(widths.whole, width_of(row[column]));
    widths.least = std::max(widths.least, table.numeric[column] ? width_of(row[column]) : widest_word(row[column]));
  }
  return widths;
}

/// Numbers are never broken; columns of words give way, the widest first, until the table fits or no word would.
std::vector<int> widths_of(const Shown& table) {
  std::vector<int> widths, least;
  for (std::size_t column = 0; column < table.headings.size(); ++column) {
    const Widths of = widths_of(table, column);
    widths.push_back(of.whole);
    least.push_back(of.least);
  }
  const int room = words::page_columns - gap * (static_cast<int>(widths.size()) - 1);
  for (int excess = std::accumulate(widths.begin(), widths.end(), 0) - room; excess > 0; --excess) {
    std::size_t give = widths.size();
    for (std::size_t i = 0; i < widths.size(); ++i)
      if (widths[i] > least[i] && (give == widths.size() || widths[i] > widths[give])) give = i;
    if (give == widths.size()) break;
    --widths[give];
  }
  return widths;
}

std::string row_text(const Shown& table, const std::vector<std::string>& row, const std::vector<int>& widths,
                     bool to_the_bottom) {
  std::vector<std::vector<std::string>> cells;
  std::size_t height = 1;
  for (std::size_t i = 0; i < row.size(); ++i) {
    cells.push_back(in_lines(row[i], widths[i]));
    height = std::max(height, cells.back().size());
  }
  if (to_the_bottom)
    for (auto& cell : cells) cell.insert(cell.begin(), height - cell.size(), "");
  std::string text;
  for (std::size_t line = 0; line < height; ++line) {
    std::string out;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const std::string words = line < cells[i].size() ? cells[i][line] : "";
      const auto blanks = static_cast<std::size_t>(std::max(0, widths[i] - width_of(words)));
      out.append(i ? gap : 0, ' ').append(table.numeric[i] ? blanks : 0, ' ').append(words);
      out.append(table.numeric[i] ? 0 : blanks, ' ');
    }
    out.erase(out.find_last_not_of(' ') + 1);
    text += out + '\n';
  }
  return text;
}

std::string rows_text(const Shown& table) {
  if (table.rows.empty()) return "";
  const std::vector<int> widths = widths_of(table);
  std::string text = row_text(table, table.headings, widths, true);
  const int width = std::accumulate(widths.begin(), widths.end(), gap * (static_cast<int>(widths.size()) - 1));
  text += std::string(static_cast<std::size_t>(width), '-') + '\n';
  for (const auto& row : table.rows) text += row_text(table, row, widths, false);
  return text;
}

std::string notes_text(const Shown& table) {
  std::string text;
  for (const std::string& note : table.notes) text += words::wrapped("  ", note);
  return text;
}

/// Some of a table's columns.
Shown picked(const Shown& table, const std::vector<std::size_t>& columns) {
  Shown part{table.title, {}, std::vector<std::vector<std::string>>(table.rows.size()), {}, {}};
  for (const std::size_t column : columns) {
    part.headings.push_back(table.headings[column]);
    part.numeric.push_back(table.numeric[column]);
    for (std::size_t row = 0; row < table.rows.size(); ++row) part.rows[row].push_back(table.rows[row][column]);
  }
  return part;
}

/// Which columns stand beside one another.
std::vector<std::vector<std::size_t>> parts_of(const Shown& table) {
  constexpr int enough = 24;  // for words that may be broken
  const auto width = [&](std::size_t column) {
    const Widths of = widths_of(table, column);
    return gap + std::max(of.least, std::min(of.whole, enough));
  };
  std::vector<std::vector<std::size_t>> parts{{0}};
  int used = width(0) - gap;
  for (std::size_t column = 1; column < table.headings.size(); ++column) {
    if (parts.back().size() > 1 && used + width(column) > words::page_columns) {
      parts.push_back({0});
      used = width(0) - gap;
    }
    parts.back().push_back(column);
    used += width(column);
  }
  return parts;
}

}  // namespace

std::string write(const Table& table, const Style& style) {
  const Shown shown = tables::shown(table, style);
  return shown.title + '\n' + rows_text(shown) + notes_text(shown);
}

std::string write_in_parts(const Table& table, const Style& style) {
  const Shown shown = tables::shown(table, style);
  std::string text = shown.title + '\n';
  if (!shown.rows.empty()) {
    const auto parts = parts_of(shown);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (i > 0) text += '\n';
      text += rows_text(picked(shown, parts[i]));
    }
  }
  return text + notes_text(shown);
}

}  // namespace fairlead::text
