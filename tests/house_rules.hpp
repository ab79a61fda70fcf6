// The rules of the house as functions on the text of one file, so that each can be shown to bite.
#pragma once

#include <ostream>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace fairlead::house {

/// What is wrong and where; line 0: in no line.
struct Breach {
  int line;
  std::string what;
  bool operator==(const Breach&) const = default;
};
using Breaches = std::vector<Breach>;
inline void PrintTo(const Breach& breach, std::ostream* out) { *out << breach.line << ": " << breach.what; }

/// What a folder may include, from its line in a CMakeLists.txt.
struct Part {
  std::string folder;
  std::set<std::string> uses, packages;
  bool operator==(const Part&) const = default;
};
using Parts = std::vector<Part>;  ///< in the order of the build files

/// The fairlead_part(...) calls of a build file.
Parts parts_of(const std::string& cmake);
const Part* find_part(const Parts&, std::string_view folder);

/// A part uses parts declared before it: the house reads in one order.
Breaches uses_out_of_order(const Parts&);

/// Includes that the file's part does not name. It may include its own part and those it USES; of packages, those it
/// names and those of geometry/quantity, on which every part stands.
Breaches strange_includes(const std::string& file, const std::string& text, const Parts&);

/// Streams, clocks, threads and the like where they may not be. Comments and literals do not count.
Breaches banned(const std::string& file, const std::string& text);

/// CGAL or Eigen/Dense in a header: they cost seconds in every file that sees it.
Breaches heavy_headers(const std::string& file, const std::string& text);

/// More than 400 lines.
Breaches too_long(const std::string& text);

/// Constants of this type ("Check", "SheetKind") that `text` defines and the text of the list does not name.
Breaches unlisted(const std::string& type, const std::string& text, const std::string& list);

}  // namespace fairlead::house
