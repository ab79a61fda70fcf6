#include "geometry/survey/points_row.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "geometry/quantity/utf8.hpp"

namespace fairlead::points_row {
namespace {

constexpr std::string_view blanks = " \t";

}  // namespace

std::optional<Flaw> split(std::string_view line, std::vector<Cell>& cells) {
  cells.clear();
  for (std::size_t at = 0;;) {
    const std::size_t begin = std::min(line.find_first_not_of(blanks, at), line.size());
    if (begin < line.size() && line[begin] == '"') {
      std::size_t close = begin + 1;
      while (close < line.size() && (line[close] != '"' || line.substr(close, 2) == "\"\""))
        close += line[close] == '"' ? 2 : 1;
      if (close >= line.size())
        return Flaw{begin, line.size() - begin, "the quote that opens here is not closed in this line",
                    "close it; a quote inside a text is written twice"};
      cells.push_back({line.substr(begin + 1, close - begin - 1), begin, close + 1 - begin, true});
      const std::size_t next = std::min(line.find_first_not_of(blanks, close + 1), line.size());
      if (next < line.size() && line[next] != ',')
        return Flaw{next, std::min(line.find(',', next), line.size()) - next, "text follows behind the closing quote",
                    "put the whole text in quotes; a quote inside it is written twice"};
      at = next;
    } else {
      const std::size_t end = std::min(line.find(',', begin), line.size());
      std::string_view text = line.substr(begin, end - begin);
      text = text.substr(0, text.find_last_not_of(blanks) + 1);
      if (const std::size_t quote = text.find('"'); quote != text.npos)
        return Flaw{begin + quote, 1, "a quote stands inside a text without quotes",
                    "put the whole text in quotes and write the quote inside it twice"};
      cells.push_back({text, begin, std::max<std::size_t>(text.size(), 1)});
      at = end;
    }
    if (at >= line.size()) return std::nullopt;
    ++at;  // the comma
  }
}

std::string plain(const Cell& cell) {
  std::string text(cell.text);
  if (cell.quoted)
    for (std::size_t at = 0; (at = text.find("\"\"", at)) != text.npos; ++at) text.erase(at, 1);
  return text;
}

std::string as_cell(std::string_view text) {
  const bool blank_ends =
      !text.empty() && (blanks.find(text.front()) != blanks.npos || blanks.find(text.back()) != blanks.npos);
  // At the head of a file a byte order mark would be taken for the file's, and lost.
  const bool marked = text.starts_with("\xEF\xBB\xBF");
  if (!blank_ends && !marked && text.find_first_of(",\"#") == text.npos) return std::string(text);
  std::string cell = "\"";
  for (const char c : text) cell += c == '"' ? std::string("\"\"") : std::string(1, c);
  return cell + '"';
}

std::string shown(std::string_view text) {
  constexpr std::size_t most = 40;
  std::size_t at = 0;
  for (std::size_t columns = 0; at < text.size() && columns < most; ++columns)
    at += std::max<std::size_t>(character_length(text, at), 1);
  return std::string(text.substr(0, at)) + (at < text.size() ? "..." : "");
}

Number number(const Cell& cell, std::string_view what) {
  const auto no = [&](std::string message, std::string instead) {
    return Number{0, Flaw{cell.at, cell.length, std::move(message), std::move(instead)}};
  };
  std::string_view digits = cell.text;
  if (digits.empty()) return no(fmt::format("the {} is missing", what), "write a number");
  if (digits.size() > 1 && digits[0] == '+' && digits[1] != '-') digits.remove_prefix(1);
  double value = 0;
  const char* end = digits.data() + digits.size();
  const auto [stop, error] = std::from_chars(digits.data(), end, value);
  const bool number = error == std::errc{} && std::isfinite(value);
  if (number && stop == end) return {value, std::nullopt};
  const std::string message = fmt::format("the {} \"{}\" is no number", what, shown(cell.text));
  if (number && std::string_view("eE.'_ ").find(*stop) == std::string_view::npos)
    return no(message, fmt::format("write {}; the unit is stated once, for the whole file",
                                   std::string_view(digits.data(), static_cast<std::size_t>(stop - digits.data()))));
  return no(message, "write it like 1234.567");
}

}  // namespace fairlead::points_row
