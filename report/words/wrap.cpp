#include "report/words/wrap.hpp"

#include <algorithm>

namespace fairlead::words {

int width_of(std::string_view utf8) {
  return static_cast<int>(std::count_if(utf8.begin(), utf8.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string wrapped(std::string_view first, std::string_view text, int columns) {
  std::string lines(first);
  const int indent = width_of(first);
  int at = indent;
  while (!text.empty()) {
    const std::string_view word = text.substr(0, text.find(' '));
    text.remove_prefix(std::min(word.size() + 1, text.size()));
    if (word.empty()) continue;
    const int width = width_of(word);
    if (at > indent && at + 1 + width > columns) {
      lines += '\n' + std::string(static_cast<std::size_t>(indent), ' ');
      at = indent;
    }
    if (at > indent) lines += ' ', ++at;
    lines += word;
    at += width;
  }
  while (lines.ends_with(' ')) lines.pop_back();
  return lines + '\n';
}

}  // namespace fairlead::words
