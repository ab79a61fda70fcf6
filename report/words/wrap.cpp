#include "report/words/wrap.hpp"

#include <algorithm>

#include "geometry/quantity/units.hpp"

namespace fairlead::words {
namespace {

std::string_view next_word(std::string_view text) { return text.substr(0, text.find(' ')); }

bool is_number(std::string_view word) {
  if (word.starts_with('(')) word.remove_prefix(1);
  if (word.starts_with('-')) word.remove_prefix(1);
  return !word.empty() && word.front() >= '0' && word.front() <= '9';
}

/// "m", "lbf);" and the inches of 12'-6 1/2".
bool is_unit(std::string_view word) {
  word = word.substr(0, word.find_last_not_of(").,;:") + 1);
  const auto units = all_units();
  return (is_number(word) && word.ends_with('"')) ||
         std::any_of(units.begin(), units.end(), [&](const Unit& unit) { return unit.name == word; });
}

/// What stays on one line: a word, or a number with its unit.
std::string_view next_piece(std::string_view text) {
  const std::string_view word = next_word(text);
  if (word.size() == text.size() || !is_number(word)) return word;
  const std::string_view after = next_word(text.substr(word.size() + 1));
  return is_unit(after) ? text.substr(0, word.size() + 1 + after.size()) : word;
}

}  // namespace

int width_of(std::string_view utf8) {
  return static_cast<int>(std::count_if(utf8.begin(), utf8.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string wrapped(std::string_view first, std::string_view text, int columns) {
  std::string lines(first);
  const int indent = width_of(first);
  int at = indent;
  while (!text.empty()) {
    const std::string_view piece = next_piece(text);
    text.remove_prefix(std::min(piece.size() + 1, text.size()));
    if (piece.empty()) continue;
    const int width = width_of(piece);
    if (at > indent && at + 1 + width > columns) {
      lines += '\n' + std::string(static_cast<std::size_t>(indent), ' ');
      at = indent;
    }
    if (at > indent) lines += ' ', ++at;
    lines += piece;
    at += width;
  }
  while (lines.ends_with(' ')) lines.pop_back();
  return lines + '\n';
}

}  // namespace fairlead::words
