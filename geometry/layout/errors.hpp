// The errors found while a layout is read, and where they point.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "geometry/layout/read.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

/// Indices into Layout::files. The command line's one line holds every --set; columns count along it. The points file
/// is there when the layout names one.
inline constexpr unsigned short command_line_file = 1, points_file = 2;

class Errors {
 public:
  Errors(std::string_view text, std::string name, const std::vector<Override>&);

  /// What stands at `place` is so many columns long; an error there underlines them.
  void measure(Place place, unsigned columns) { columns_.insert_or_assign(key(place), columns); }
  /// The place of a byte of the layout.
  Place place_at(std::size_t byte) const;
  /// At a place of a file or the command line; line 0 of a file is the file as a whole.
  void add(Place, std::string message, std::string instead = "");
  /// The points file, at whose lines errors may stand from now on; the text is kept elsewhere.
  void add_points_file(std::string name, std::string_view text);
  /// All errors of the points file.
  void add(const PointsErrors&);
  /// A line of the layout, counted from 1, without its end.
  std::string_view line(unsigned number) const { return files_[0].line(number); }
  bool none() const { return found_.empty(); }
  std::size_t count() const { return found_.size(); }
  /// In the order of their places; many more than a reader can use end in a count.
  Diagnostics sorted() const;

  /// Columns at which key and value of the n-th --set begin.
  Place key_of_override(std::size_t n) const { return {command_line_file, 0, override_columns_[n].first}; }
  Place value_of_override(std::size_t n) const { return {command_line_file, 0, override_columns_[n].second}; }

 private:
  struct File {
    std::string name;
    std::string_view text;
    std::vector<std::size_t> line_starts;
    std::string_view line(unsigned number) const;
  };
  static File file(std::string name, std::string_view text);
  using PlaceKey = std::tuple<unsigned short, unsigned, unsigned>;
  static PlaceKey key(Place place) { return {place.file, place.line, place.column}; }

  std::vector<File> files_;  // in the order of Layout::files
  std::string command_line_;
  std::vector<std::pair<unsigned, unsigned>> override_columns_;
  std::map<PlaceKey, unsigned> columns_;
  Diagnostics found_;
  std::size_t more_ = 0;  // of the points file, beyond those found
};

}  // namespace fairlead
