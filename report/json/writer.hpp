// Writes JSON as it goes. A library's document object would cost several times the text's own size and time, and
// prints the shortest digits that read back instead of the ten that are promised.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::json {

inline constexpr int digits = 10, residual_digits = 2;  ///< significant

/// Members of objects stand on lines of their own, columns of numbers on one. NaN and infinities are null.
class Writer {
 public:
  void number(std::string_view key, double value, int significant = digits) { begin(key), put(value, significant); }
  void number(std::string_view key, std::optional<double> value) {
    begin(key), value ? put(*value, digits) : put_null();
  }
  void count(std::string_view key, long value) { begin(key), put(value); }
  void text(std::string_view key, std::string_view value) { begin(key), put(value); }
  void flag(std::string_view key, bool value) { begin(key), out_ += value ? "true" : "false"; }
  void null(std::string_view key) { begin(key), put_null(); }
  void vector(std::string_view key, Vec3 v, int significant = digits) { begin(key), put(v, significant); }
  void vector(std::string_view key, Point3 p) { begin(key), put(p); }

  /// "key": { whatever `members` writes }
  template <class Members>
  void object(std::string_view key, Members members) {
    begin(key), braced(members);
  }
  /// "key": [ an object for each item ]
  template <class Items, class Members>
  void objects(std::string_view key, const Items& items, Members members) {
    begin(key), open('[');
    for (const auto& item : items) element(), braced([&] { members(item); });
    close(']');
  }
  /// "key": [ get(item), ... ] on one line; numbers, whole numbers, points, vectors, words (null where an
  /// optional holds none).
  template <class Items, class Get>
  void column(std::string_view key, const Items& items, Get get) {
    begin(key);
    out_ += '[';
    bool first = true;
    for (const auto& item : items) {
      if (!first) out_ += ',';
      first = false;
      put(get(item));
    }
    out_ += ']';
  }
  /// The whole document: what `members` writes, as one object.
  template <class Members>
  static std::string document(Members members) {
    Writer writer;
    writer.out_.reserve(std::size_t{1} << 20);  // a megabyte, the size of a plain rig's record
    writer.braced([&] { members(writer); });
    return std::move(writer.out_) + '\n';
  }

 private:
  Writer() = default;

  template <class Members>
  void braced(Members members) {
    open('{');
    members();
    close('}');
  }
  void open(char bracket);
  void close(char bracket);
  void element();  ///< the comma and the line before the next member or element
  void begin(std::string_view key);

  void put(double value) { put(value, digits); }
  void put(double value, int significant);
  void put(long value);
  void put(int value) { put(static_cast<long>(value)); }
  void put(std::string_view words);
  void put(std::optional<std::string_view> words) { words ? put(*words) : put_null(); }
  void put(Vec3 v, int significant = digits);
  void put(Point3 p) { put(Vec3{p.x, p.y, p.z}); }
  void put_null() { out_ += "null"; }

  std::string out_;
  int depth_ = 0;
  bool empty_ = true;  ///< nothing yet inside the innermost bracket
};

}  // namespace fairlead::json
