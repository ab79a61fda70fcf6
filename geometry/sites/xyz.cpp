// XYZ: a point a line, x y z and what may follow, between blanks, commas or semicolons.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/sites/reading.hpp"

namespace fairlead::sites {
namespace {

/// The next cell of a line. A comma or semicolon parts cells only where the first point's line has one, blanks only
/// where it has none: so "1,5 2,5 3,5" is no three cells.
std::string_view next_cell(std::string_view& line, char parting) {
  constexpr std::string_view blanks = " \t\r";
  line.remove_prefix(std::min(line.find_first_not_of(blanks), line.size()));
  std::size_t end = parting == ' ' ? line.find_first_of(blanks) : line.find(parting);
  end = std::min(end, line.size());
  std::string_view cell = line.substr(0, end);
  line.remove_prefix(std::min(end + 1, line.size()));
  return cell.substr(0, cell.find_last_not_of(blanks) + 1);
}

}  // namespace

ReadMesh read_xyz(std::string_view text, const ReadLimits& limits) {
  Gathering gathering(limits);
  Words words(text);
  char parting = 0;
  bool more_columns = false, heading = false;
  do {
    std::string_view line = words.rest();
    if (line.empty() || line[0] == '#' || line.starts_with("//")) continue;
    if (parting == 0) {
      const std::size_t at = line.find_first_of(",;");
      const char found = at == line.npos ? ' ' : line[at];
      std::string_view copy = line;
      if (!heading && !number_of(next_cell(copy, found)) && (line[0] < '0' || line[0] > '9') && line[0] != '-' &&
          line[0] != '.' && line[0] != '+') {
        heading = true;
        gathering.mesh.notes.push_back(fmt::format("line {}: {} is taken for a heading", words.line(), quoted(line)));
        continue;
      }
      parting = found;
    }
    const std::string_view c[3] = {next_cell(line, parting), next_cell(line, parting), next_cell(line, parting)};
    more_columns = more_columns || !line.empty();
    gathering.vertex(c, words.line());
    if (gathering.vertices() > limits.most_items) break;
  } while (words.next_line());
  if (more_columns) gathering.mesh.notes.emplace_back("columns behind the third are not read");
  return gathering.finish(1, false);
}

}  // namespace fairlead::sites
