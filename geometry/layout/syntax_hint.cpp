#include "geometry/layout/syntax_hint.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/layout/outline.hpp"

namespace fairlead {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }
bool contains(std::string_view text, std::string_view part) { return text.find(part) != text.npos; }

// The line with one byte for each of its columns.
std::string in_columns(std::string_view line) {
  std::string columns;
  for (const char c : line)
    if (const auto byte = static_cast<unsigned char>(c); (byte & 0xC0) != 0x80) columns += byte < 0x80 ? c : '?';
  return columns;
}

// "cannot redefine existing table 'anchor'": it stands twice, unless it is of a kind there may be many of.
std::string repetition(std::string_view what) {
  const std::size_t quote = what.find('\'');
  const std::string_view name = what.substr(quote + 1, what.rfind('\'') - quote - 1);
  const Outline* section = layout_outline().find(name);
  return section && section->kind == Outline::Kind::tables ? fmt::format("write [[{}]] above each of them", name)
                                                           : "it stands above already: keep one";
}

// A line that breaks off before it says something: a quote or bracket not closed, a value forgotten.
std::string broken_off(const std::string& line) {
  const std::size_t first = line.find_first_not_of(" \t"), last = line.find_last_not_of(" \t");
  if (std::count(line.begin(), line.end(), '"') % 2 == 1) return "close the quotes";
  if (last != line.npos && line[last] == '=') return "write a value after the =";
  if (std::count(line.begin(), line.end(), '{') > std::count(line.begin(), line.end(), '}'))
    return "close it with } in the same line";
  if (first != line.npos && line[first] == '[')
    return fmt::format("close it with {}", line.substr(first, 2) == "[[" ? "]]" : "]");
  return "";
}

// "0,016": the comma is a decimal point in half the world and a thousands mark in the other half.
std::string without_comma(const std::string& line, std::size_t comma) {
  const std::size_t from = line.find_last_not_of("0123456789", comma - 1) + 1;
  const std::size_t to = std::min(line.find_first_not_of("0123456789", comma + 1), line.size());
  const std::string whole = line.substr(from, comma - from), part = line.substr(comma + 1, to - comma - 1);
  if (part.empty()) return "";
  const bool thousands = part.size() == 3 && whole != "0";
  return fmt::format("write {}.{}{}", whole, part, thousands ? fmt::format(" or {}{}", whole, part) : "");
}

// The value at `at` as it should stand: in quotes, or as a date.
std::string rewritten(const std::string& line, std::size_t at) {
  const std::size_t begin = line.find_first_not_of(" \t", line.find_last_of("=[,", at) + 1);
  std::string value = line.substr(begin, std::min(line.find_first_of(",]}#", at), line.size()) - begin);
  value.erase(value.find_last_not_of(" \t") + 1);
  if (value.find_first_of("\"'") != value.npos) return "write it in quotes, feet and inches as \"12 ft 6 in\"";
  const bool separated =
      std::count_if(value.begin(), value.end(), [](char c) { return c == '.' || c == '/' || c == '-'; }) == 2;
  if (separated && value.find_first_not_of("0123456789./-") == value.npos) return "write a date as 2026-05-14";
  return fmt::format("write \"{}\"", value);
}

}  // namespace

std::string syntax_hint(std::string_view what, std::string_view whole_line, unsigned column) {
  if (contains(what, "cannot redefine existing")) return repetition(what);
  const std::string line = in_columns(whole_line);
  const std::size_t at = column - 1;
  if (at >= line.size()) return broken_off(line);
  if (contains(what, "after '\\r'")) return "save the file with the line ends of Unix or Windows";
  if (contains(what, "expected '='")) return "write key = value";

  const char here = line[at];
  const std::size_t before = at == 0 ? line.npos : line.find_last_not_of(" \t", at - 1);
  if (before == line.npos) return "";
  const char last = line[before];
  if (contains(what, "table header: expected ']'") && is_letter(here))
    return "a name has no blanks: join its words by _";
  if (here == '"' && last == '"' && before + 1 == at) return "within quotes write inches as in, not as \"";
  if (here == ',' && is_digit(last) && before + 1 == at) return without_comma(line, at);
  const bool begins = contains("=[,", std::string_view(&last, 1));  // a value begins here
  if (here == '(' && begins) return "write square brackets";
  if (here == '.' && begins) return "write a zero before the point";
  const bool unit = is_digit(last) && (is_letter(here) || contains("%'\"./-", std::string_view(&here, 1)));
  return unit || (begins && is_letter(here)) ? rewritten(line, at) : "";
}

}  // namespace fairlead
