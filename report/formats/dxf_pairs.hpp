// What a DXF file consists of: pairs of a group code and a value, a line each.
#pragma once

#include <string>
#include <string_view>

#include "report/drawing/drawing.hpp"

namespace fairlead::formats {

/// Writes pairs, and gives out the handles by which they name each other.
class DxfPairs {
 public:
  void put(int code, std::string_view value);
  void put(int code, const char* value) { put(code, std::string_view(value)); }
  void put(int code, int value) { put(code, std::to_string(value)); }
  void real(int code, double value);
  /// x under the code, y under code + 10.
  void point(int code, drawing::Paper);
  /// The same with z = 0 under code + 20.
  void point3(int code, drawing::Paper);
  /// Words as text that any reader of the release takes: what is not ASCII as \U+XXXX, and what it would take for a
  /// command of its own likewise.
  void words(int code, std::string_view utf8);
  void handle(int code, unsigned handle);

  unsigned new_handle() { return next_++; }
  unsigned next_handle() const { return next_; }
  std::string& text() { return text_; }

 private:
  std::string text_;
  unsigned next_ = 1;
};

}  // namespace fairlead::formats
