// The errors found while a layout is read, and where they point.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "geometry/layout/read.hpp"

namespace fairlead {

/// Index into Layout::files of the command line. Its one line holds every --set; columns count along it.
inline constexpr unsigned short command_line_file = 1;

class Errors {
 public:
  Errors(std::string_view text, std::string name, const std::vector<Override>&);

  /// What stands at `place` is so many columns long; an error there underlines them.
  void measure(Place place, unsigned columns) { columns_.insert_or_assign(key(place), columns); }
  /// The place of a byte of the text.
  Place place_at(std::size_t byte) const;
  /// At a place of the file or the command line; line 0 of the file is the file as a whole.
  void add(Place, std::string message, std::string instead = "");
  /// A line of the text, counted from 1, without its end.
  std::string_view line(unsigned number) const;
  bool none() const { return found_.empty(); }
  std::size_t count() const { return found_.size(); }
  /// In the order of their places; many more than a reader can use end in a count.
  Diagnostics sorted() const;

  /// Columns at which key and value of the n-th --set begin.
  Place key_of_override(std::size_t n) const { return {command_line_file, 0, override_columns_[n].first}; }
  Place value_of_override(std::size_t n) const { return {command_line_file, 0, override_columns_[n].second}; }

 private:
  static std::pair<unsigned, unsigned> key(Place place) {
    return {place.file == command_line_file ? 0 : place.line, place.column};
  }
  std::string_view text_;
  std::vector<std::size_t> line_starts_;
  std::string name_, command_line_;
  std::vector<std::pair<unsigned, unsigned>> override_columns_;
  std::map<std::pair<unsigned, unsigned>, unsigned> columns_;
  Diagnostics found_;
};

/// Columns (code points) of UTF-8 text; a byte that belongs to none counts as one.
unsigned columns_of(std::string_view text);

}  // namespace fairlead
