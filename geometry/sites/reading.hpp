// What the readers of site files share: a place in a text, the list of errors, the mesh as it grows.
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "geometry/sites/readers.hpp"

namespace fairlead::sites {

/// 1: a blank; 2: the end of a line; 0: of a word. A table, for every letter of a gigabyte is looked at.
inline constexpr auto letter_kinds = [] {
  std::array<std::uint8_t, 256> of{};
  for (const unsigned char blank : {' ', '\t', '\r', '\v', '\f'}) of[blank] = 1;
  of['\n'] = 2;
  return of;
}();
inline std::uint8_t kind(char c) { return letter_kinds[static_cast<unsigned char>(c)]; }
inline bool is_blank(char c) { return kind(c) == 1; }

/// The words and numbers of a text. Carriage returns are blanks; a line ends with a line feed.
class Words {
 public:
  explicit Words(std::string_view text);
  std::size_t line() const { return line_; }
  const char* at() const { return at_; }
  std::size_t left() const { return static_cast<std::size_t>(end_ - at_); }
  /// The next word of this line; empty at its end.
  std::string_view word() {
    skip_blanks();
    const char* begin = at_;
    while (at_ != end_ && kind(*at_) == 0) ++at_;
    return {begin, static_cast<std::size_t>(at_ - begin)};
  }
  /// The next word of this line or one of the next; empty at the text's end.
  std::string_view word_of_any_line() {
    for (;;) {
      const std::string_view found = word();
      if (!found.empty() || !next_line()) return found;
    }
  }
  /// The rest of the line, without its end.
  std::string_view rest();
  /// To the next line; false where none is left.
  bool next_line();

 private:
  void skip_blanks() {
    while (at_ != end_ && is_blank(*at_)) ++at_;
  }
  const char *at_, *end_;
  std::size_t line_ = 1;
};

/// A finite or infinite number, or NaN, that fills the whole word; a plus sign may lead it.
std::optional<double> number_of(std::string_view word);
std::optional<std::int64_t> integer_of(std::string_view word);

/// Equal but for capitals; `lower` has none.
inline bool is_word(std::string_view word, std::string_view lower) {
  const auto same = [](char a, char b) { return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b; };
  return word == lower ||  // most of them
         (word.size() == lower.size() && std::equal(word.begin(), word.end(), lower.begin(), same));
}

/// What was written, for a message: no more than a few words of it, in quotes.
std::string quoted(std::string_view text);

/// A mesh in the making, with its errors.
struct Gathering {
  explicit Gathering(const ReadLimits& allowed) : limits(allowed) {}
  const ReadLimits& limits;
  Mesh mesh;
  ReadErrors errors;

  void error(std::size_t line, std::size_t offset, std::string message, std::string instead);
  /// Three words as a vertex of the mesh; an error, and no vertex, where they are no good numbers.
  void vertex(const std::string_view (&words)[3], std::size_t line);
  /// A vertex of which all coordinates must be known and near enough; an error else, but always a vertex.
  void vertex(const double (&c)[3], std::size_t line, std::size_t offset);
  /// A polygon as a fan from its first corner; lines and points as flat triangles.
  void polygon(std::span<const std::uint32_t> corners);
  /// False, with one error, where the mesh has more than is allowed.
  bool within_limits(std::size_t line, std::size_t offset);
  std::size_t vertices() const { return mesh.coordinates.size() / 3; }

  /// The mesh of indices, of corners that follow each other, or of points; its errors where there are any, or where
  /// there is nothing in it.
  ReadMesh finish(int corners, bool indexed);
};

/// The words of an error for a coordinate that is unknown or too far out; none for a good one.
std::optional<std::string> wrong_with(double coordinate, const ReadLimits&);
inline constexpr std::string_view farthest_words = "check the unit, and move the file's origin near to the site";

/// How many vertices no triangle has.
std::uint32_t loose_vertices(const Items&);

}  // namespace fairlead::sites
