// OBJ: vertices and polygons as text (OBJ-FILE).
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "geometry/sites/reading.hpp"

namespace fairlead::sites {
namespace {

/// Words that say nothing of where a surface is, and those of free-form surfaces, which are not read.
constexpr std::array<std::string_view, 13> passed_over = {
    "vt", "vn", "vp", "g", "o", "s", "usemtl", "mtllib", "mg", "lod", "shadow_obj", "trace_obj", "usemap"};
constexpr std::array<std::string_view, 5> free_form = {"surf", "curv", "curv2", "cstype", "call"};

/// Of "12/5/7" the 12.
std::optional<std::int64_t> integer_before_slash(std::string_view word) {
  std::size_t end = 0;
  while (end < word.size() && word[end] != '/') ++end;  // a few letters: faster than a search
  return integer_of(word.substr(0, end));
}

struct Reader {
  Gathering gathering;
  Words words;
  std::int64_t vertices;  ///< of the whole file, where known: those that no index may pass
  std::int64_t greatest = 0;
  std::vector<std::uint32_t> corners;
  std::size_t strange = 0, strange_line = 0;
  std::string strange_word;

  void element(bool polyline) {
    corners.clear();
    for (std::string_view word = next(); !word.empty(); word = next()) {
      const auto index = integer_before_slash(word);
      const auto so_far = static_cast<std::int64_t>(gathering.vertices());
      if (!index || *index == 0) {
        gathering.error(words.line(), 0, fmt::format("{} is no vertex", quoted(word)), "vertices are counted from 1");
        return;
      }
      const std::int64_t vertex = *index > 0 ? *index : so_far + *index + 1;
      if (vertex < 1 || vertex > vertices) {
        gathering.error(words.line(), 0, fmt::format("vertex {} is not there", *index), "get the whole file");
        return;
      }
      greatest = std::max(greatest, vertex);
      corners.push_back(static_cast<std::uint32_t>(vertex - 1));
    }
    if (corners.empty()) gathering.error(words.line(), 0, "an element has no vertex", "name its vertices");
    if (!polyline && !corners.empty()) gathering.polygon(corners);
    for (std::size_t i = 1; polyline && i < corners.size(); ++i)
      gathering.polygon(std::array{corners[i - 1], corners[i]});
    if (polyline && corners.size() == 1) gathering.polygon(corners);
  }
  /// The next word; a backslash at the end of a line goes on in the next.
  std::string_view next() {
    std::string_view word = words.word();
    while (word == "\\" && words.next_line()) word = words.word();
    return word;
  }
  bool line() {
    const std::string_view word = next();
    if (word == "v") {
      const std::string_view c[3] = {next(), next(), next()};
      const std::size_t before = gathering.vertices();
      gathering.vertex(c, words.line());
      if (gathering.vertices() == before) gathering.mesh.coordinates.insert(gathering.mesh.coordinates.end(), 3, 0);
    } else if (word == "f" || word == "l") {
      element(word == "l");
    } else if (word == "p") {  // each of its vertices is a point
      for (std::string_view one = next(); !one.empty(); one = next()) {
        const auto index = integer_before_slash(one);
        const auto vertex =
            index && *index < 0 ? static_cast<std::int64_t>(gathering.vertices()) + *index + 1 : index.value_or(0);
        if (vertex < 1 || vertex > vertices) {
          gathering.error(words.line(), 0, fmt::format("{} is no vertex", quoted(one)), "vertices are counted from 1");
          break;
        }
        greatest = std::max(greatest, vertex);
        gathering.polygon(std::array{static_cast<std::uint32_t>(vertex - 1)});
      }
    } else if (std::find(free_form.begin(), free_form.end(), word) != free_form.end()) {
      gathering.error(words.line(), 0,
                      fmt::format("{} is of a curved surface, and only polygons are read", quoted(word)),
                      "export the file as triangles");
    } else if (!word.empty() && word[0] != '#' &&
               std::find(passed_over.begin(), passed_over.end(), word) == passed_over.end()) {
      if (strange++ == 0) strange_line = words.line(), strange_word = quoted(word);
    }
    return gathering.within_limits(words.line(), 0);
  }
  void all() {
    do {
      if (!line()) break;
      // What a comment or a name ends with does not go on in the next line.
    } while (words.next_line());
    if (strange > 0)
      gathering.mesh.notes.push_back(fmt::format("line {}: {} is no word of an OBJ file; passed over ({} such lines)",
                                                 strange_line, strange_word, strange));
  }
};

}  // namespace

ReadMesh read_obj(std::string_view text, const ReadLimits& limits) {
  constexpr std::int64_t most = std::int64_t{1} << 32;
  Reader reader{Gathering(limits), Words(text), most, 0, {}, 0, 0, {}};
  reader.all();
  if (const auto vertices = static_cast<std::int64_t>(reader.gathering.vertices()); reader.greatest > vertices) {
    // A vertex may stand behind the faces that name it, so only now it is known that one is missing; where is found
    // anew.
    Reader again{Gathering(limits), Words(text), vertices, 0, {}, 0, 0, {}};
    again.all();
    return again.gathering.finish(3, true);
  }
  return reader.gathering.finish(3, true);
}

}  // namespace fairlead::sites
