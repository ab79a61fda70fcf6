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

/// Numbers are never broken; columns of words give way, the widest first, until the table fits or no word would.
std::vector<int> widths_of(const Shown& table) {
  std::vector<int> widths, least;
  for (std::size_t column = 0; column < table.headings.size(); ++column) {
    int whole = widest_word(table.headings[column]), narrow = whole;
    for (const auto& row : table.rows) {
      whole = std::max(whole, width_of(row[column]));
      narrow = std::max(narrow, table.numeric[column] ? width_of(row[column]) : widest_word(row[column]));
    }
    widths.push_back(whole);
    least.push_back(narrow);
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

}  // namespace

std::string write(const Table& table, const Style& style) {
  const Shown shown = tables::shown(table, style);
  std::string text = shown.title + '\n';
  if (!shown.rows.empty()) {
    const std::vector<int> widths = widths_of(shown);
    text += row_text(shown, shown.headings, widths, true);
    const int width = std::accumulate(widths.begin(), widths.end(), gap * (static_cast<int>(widths.size()) - 1));
    text += std::string(static_cast<std::size_t>(width), '-') + '\n';
    for (const auto& row : shown.rows) text += row_text(shown, row, widths, false);
  }
  for (const std::string& note : shown.notes) text += words::wrapped("  ", note);
  return text;
}

}  // namespace fairlead::text
