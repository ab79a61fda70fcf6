#include "geometry/quantity/utf8.hpp"

#include <algorithm>

namespace fairlead {

std::size_t character_length(std::string_view text, std::size_t at) {
  if (at >= text.size()) return 0;
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u; };
  const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0) == 0x80; };
  const unsigned first = byte(at), second = byte(at + 1);
  if (first < 0x80) return 1;
  if (first < 0xC2 || first > 0xF4 || !follows(at + 1)) return 0;
  if (first < 0xE0) return 2;
  if ((first == 0xE0 && second < 0xA0) || (first == 0xED && second >= 0xA0) || !follows(at + 2)) return 0;
  if (first < 0xF0) return 3;
  if ((first == 0xF0 && second < 0x90) || (first == 0xF4 && second >= 0x90) || !follows(at + 3)) return 0;
  return 4;
}

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0, length = 0; at < text.size(); at += length) {
    length = character_length(text, at);
    if (length == 0) return false;
  }
  return true;
}

unsigned columns_of(std::string_view text) {
  const auto begins = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; };
  return static_cast<unsigned>(std::count_if(text.begin(), text.end(), begins));
}

}  // namespace fairlead
