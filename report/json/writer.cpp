#include "report/json/writer.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>

namespace fairlead::json {
namespace {

/// Bytes of the UTF-8 character `text` begins with; 0 where it begins with none: a file's name may be any bytes.
std::size_t bytes_of_character(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const std::size_t length = byte(0) < 0x80   ? 1
                             : byte(0) < 0xC2 ? 0
                             : byte(0) < 0xE0 ? 2
                             : byte(0) < 0xF0 ? 3
                             : byte(0) < 0xF5 ? 4
                                              : 0;
  if (length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0) != 0x80) return 0;
  // Overlong forms, surrogates, and what lies beyond the last character.
  if ((byte(0) == 0xE0 && byte(1) < 0xA0) || (byte(0) == 0xED && byte(1) > 0x9F) ||
      (byte(0) == 0xF0 && byte(1) < 0x90) || (byte(0) == 0xF4 && byte(1) > 0x8F))
    return 0;
  return length;
}

static_assert(digits == 10, "append_plain counts them");
constexpr double powers_of_ten[] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13};

/// Appends a number of plain size to ten significant digits: the very characters std::to_chars gives, in a fraction of
/// its time, which is most of what writing a record takes. False where that is not certain; nothing is appended then.
bool append_plain(std::string& out, double value) {
  constexpr int ten = digits;
  constexpr std::uint64_t beyond = 10'000'000'000;
  const double size = std::abs(value);
  if (size == 0) return out += '0', true;
  if (!(size >= 1e-4 && size < 1e9)) return false;
  int behind = 13;  // digits behind the point, so that ten are significant
  while (behind > 1 && size * powers_of_ten[behind] >= 1e10) --behind;
  // A power that is a double itself and one product: off by half a unit in its last place, 1e-6, at most.
  const double scaled = size * powers_of_ten[behind];
  auto figures = static_cast<std::uint64_t>(scaled);
  const double rest = scaled - static_cast<double>(figures);
  if (std::abs(rest - 0.5) < 1e-5) return false;
  if (rest > 0.5) ++figures;
  if (figures < beyond / 10 || figures >= beyond) return false;  // rounding carried into another digit
  char figure[ten];
  const auto set = [&figure](int from, std::uint32_t five) {
    for (int i = from + 4; i >= from; --i, five /= 10) figure[i] = static_cast<char>('0' + five % 10);
  };
  set(0, static_cast<std::uint32_t>(figures / 100'000));
  set(5, static_cast<std::uint32_t>(figures % 100'000));
  const int whole = std::max(ten - behind, 0);  // figures before the point
  int last = ten;
  while (last > whole && figure[last - 1] == '0') --last;
  char text[24];
  char* at = text;
  if (value < 0) *at++ = '-';
  if (whole == 0) *at++ = '0';
  at = std::copy(figure, figure + whole, at);
  if (last > whole) {
    *at++ = '.';
    at = std::fill_n(at, std::max(behind - ten, 0), '0');
    at = std::copy(figure + whole, figure + last, at);
  }
  out.append(text, at);
  return true;
}

}  // namespace

void Writer::open(char bracket) {
  out_ += bracket;
  ++depth_;
  empty_ = true;
}

void Writer::close(char bracket) {
  --depth_;
  if (!empty_) out_.append("\n").append(2 * static_cast<std::size_t>(depth_), ' ');
  out_ += bracket;
  empty_ = false;
}

void Writer::element() {
  if (!empty_) out_ += ',';
  out_.append("\n").append(2 * static_cast<std::size_t>(depth_), ' ');
  empty_ = false;
}

void Writer::begin(std::string_view key) {
  element();
  put(key);
  out_ += ": ";
}

void Writer::put(double value, int significant) {
  if (!std::isfinite(value)) return put_null();
  if (significant == digits && append_plain(out_, value)) return;
  char text[32];
  // + 0.0 turns -0 into 0.
  const auto end = std::to_chars(text, text + sizeof text, value + 0.0, std::chars_format::general, significant).ptr;
  out_.append(text, end);
}

void Writer::put(long value) {
  char text[24];
  out_.append(text, std::to_chars(text, text + sizeof text, value).ptr);
}

void Writer::put(Vec3 v, int significant) {
  out_ += '[';
  put(v.x, significant);
  out_ += ',';
  put(v.y, significant);
  out_ += ',';
  put(v.z, significant);
  out_ += ']';
}

void Writer::put(std::string_view words) {
  constexpr char hex[] = "0123456789abcdef";
  out_ += '"';
  while (!words.empty()) {
    const char c = words.front();
    const auto byte = static_cast<unsigned char>(c);
    const std::size_t length = bytes_of_character(words);
    if (length == 0) {
      out_ += "\\ufffd";
    } else if (c == '"' || c == '\\') {
      out_.append("\\").append(1, c);
    } else if (byte < 0x20) {
      out_.append("\\u00").append(1, hex[byte >> 4]).append(1, hex[byte & 15]);
    } else {
      out_.append(words.substr(0, length));
    }
    words.remove_prefix(std::max(length, std::size_t{1}));
  }
  out_ += '"';
}

}  // namespace fairlead::json
