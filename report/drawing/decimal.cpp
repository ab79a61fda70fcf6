#include "report/drawing/decimal.hpp"

namespace fairlead::drawing {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }
/// Of a name that a number is part of: "sheave.R1", "site_2.5".
bool in_word(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '/'; }

/// Where a run of digits and points that begins at `from` ends; a point without a digit behind it is a full stop.
std::size_t number_end(std::string_view text, std::size_t from) {
  std::size_t end = from;
  while (end < text.size() && (digit(text[end]) || (text[end] == '.' && end + 1 < text.size() && digit(text[end + 1]))))
    ++end;
  return end;
}

/// Whether what stands behind a comma and a blank is a number, its sign before it, and one of the two has a point.
bool number_at(std::string_view text, bool pointed) {
  for (const std::string_view sign : {"\u2212", "-", "+"})
    if (text.starts_with(sign)) {
      text.remove_prefix(sign.size());
      break;
    }
  const std::string_view number = text.substr(0, number_end(text, 0));
  return !number.empty() && (pointed || number.find('.') != number.npos);
}

}  // namespace

std::string with_comma(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    if (!digit(text[i])) {
      out += text[i++];
      continue;
    }
    const std::size_t end = number_end(text, i);
    const std::string_view number = text.substr(i, end - i);
    const std::size_t point = number.find('.');
    const bool one = point != number.npos && number.find('.', point + 1) == number.npos;
    const bool named = i > 0 && (in_word(text[i - 1]) || text[i - 1] == '.');
    out += number;
    if (one && !named) out[out.size() - number.size() + point] = ',';
    i = end;
    if (text.substr(i).starts_with(", ") && number_at(text.substr(i + 2), one)) {
      out += "; ";
      i += 2;
    }
  }
  return out;
}

void set_decimal_comma(Drawing& drawing) {
  for (auto& entity : drawing.entities)
    if (auto* label = std::get_if<Label>(&entity); label && label->layer != Layer::title_block)
      label->text = with_comma(label->text);
}

}  // namespace fairlead::drawing
