#include "report/formats/dxf_pairs.hpp"

#include <fmt/format.h>

#include "report/formats/document.hpp"

namespace fairlead::formats {

void DxfPairs::put(int code, std::string_view value) {
  text_ += fmt::format("{:>3}\r\n", code);
  text_.append(value).append("\r\n");
}

void DxfPairs::real(int code, double value) {
  constexpr int decimals = 6;  // of a millimetre, or of 1
  std::string text = number(value, decimals);
  // Some readers tell a number from a count by its point.
  if (text.find('.') == std::string::npos) text += ".0";
  put(code, text);
}

void DxfPairs::point(int code, drawing::Paper p) {
  real(code, p.x_mm);
  real(code + 10, p.y_mm);
}

void DxfPairs::point3(int code, drawing::Paper p) {
  point(code, p);
  real(code + 20, 0);
}

void DxfPairs::words(int code, std::string_view utf8) {
  std::string out;
  for (const char32_t c : drawing::code_points(utf8)) {
    // %%d, ^J and \P are commands in a text.
    const bool plain = c >= 0x20 && c < 0x7F && c != U'%' && c != U'^' && c != U'\\';
    if (plain || (c == U'%' && !out.ends_with('%')))
      out += static_cast<char>(c);
    else
      out += fmt::format("\\U+{:04X}", static_cast<std::uint32_t>(c));
  }
  put(code, out);
}

void DxfPairs::handle(int code, unsigned handle) { put(code, fmt::format("{:X}", handle)); }

}  // namespace fairlead::formats
