// STL: triangles, binary (80 bytes of anything, their number, 50 bytes each) or as text (STL-FILE).
#include <fmt/format.h>

#include <cstring>

#include "geometry/sites/reading.hpp"

namespace fairlead::sites {
namespace {

constexpr std::size_t header = 84, record = 50;

/// Binary data holds zeros soon, text never.
bool looks_like_text(std::string_view head) {
  return Words(head).word_of_any_line().size() >= 5 && is_word(Words(head).word_of_any_line().substr(0, 5), "solid") &&
         head.substr(0, 1024).find('\0') == head.npos;
}

ReadMesh read_text(std::string_view text, const ReadLimits& limits) {
  Gathering gathering(limits);
  Words words(text);
  bool in_solid = false;
  const auto expect = [&](std::string_view wanted, std::string_view found) {
    if (is_word(found, wanted)) return true;
    const std::size_t line = words.line();
    if (found.empty())
      gathering.error(line, 0, fmt::format("the file ends where \"{}\" should follow: it is cut short", wanted),
                      "get the whole file");
    else
      gathering.error(line, 0, fmt::format("{} stands where \"{}\" should", quoted(found), wanted),
                      "export the file anew");
    return false;
  };
  /// From behind "facet" to the end of the loop; false where the text is no facet.
  const auto facet = [&] {
    if (!expect("normal", words.word_of_any_line())) return false;
    for (int i = 0; i < 3; ++i) words.word_of_any_line();  // not trusted, so not read
    if (!expect("outer", words.word_of_any_line()) || !expect("loop", words.word_of_any_line())) return false;
    const std::size_t begin = gathering.mesh.coordinates.size();
    std::size_t corners = 0;
    std::string_view next = words.word_of_any_line();
    for (; is_word(next, "vertex"); next = words.word_of_any_line(), ++corners) {
      const std::string_view c[3] = {words.word_of_any_line(), words.word_of_any_line(), words.word_of_any_line()};
      if (corners >= 3) {  // a fan: the first corner, the one before, this one
        std::vector<double>& all = gathering.mesh.coordinates;
        if (all.size() < begin + 9) continue;  // one of them was no vertex, which is told
        const std::vector<double> again{all[begin],          all[begin + 1],      all[begin + 2],
                                        all[all.size() - 3], all[all.size() - 2], all[all.size() - 1]};
        all.insert(all.end(), again.begin(), again.end());
      }
      gathering.vertex(c, words.line());
      if (!gathering.within_limits(words.line(), 0)) return false;
    }
    if (corners > 3) ++gathering.mesh.fanned;
    if (!expect("endloop", next)) return false;
    if (corners < 3) gathering.error(words.line(), 0, fmt::format("a facet has {} corners", corners), "give it three");
    return expect("endfacet", words.word_of_any_line());
  };
  for (;;) {
    const std::string_view word = words.word_of_any_line();
    if (word.empty()) {
      if (in_solid) expect("endsolid", word);
      break;
    }
    if (in_solid && is_word(word, "facet")) {
      if (!facet()) break;
    } else if (expect(in_solid ? "endsolid" : "solid", word)) {
      words.rest();  // its name
      in_solid = !in_solid;
    } else {
      break;
    }
  }
  return gathering.finish(3, false);
}

}  // namespace

ReadMesh read_stl(std::span<const std::byte> bytes, const ReadLimits& limits) {
  const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  std::uint32_t count = 0;
  if (bytes.size() >= header) std::memcpy(&count, bytes.data() + 80, sizeof count);
  const std::size_t expected = header + record * std::size_t{count};
  const bool binary = bytes.size() >= header && bytes.size() == expected;
  if (!binary && looks_like_text(text)) return read_text(text, limits);
  Gathering gathering(limits);
  if (bytes.size() < header) {
    gathering.error(0, bytes.size(),
                    fmt::format("the file has {} bytes, and an STL file at least {}", bytes.size(), header),
                    "get the whole file");
  } else if (!binary) {
    gathering.error(0, bytes.size(),
                    fmt::format("the file says that it holds {} triangles, which take {} bytes, and has {}", count,
                                expected, bytes.size()),
                    bytes.size() < expected ? "get the whole file" : "export the file anew");
  } else if (count > limits.most_items) {
    gathering.error(0, 80, fmt::format("the file has {} triangles, and a site at most {}", count, limits.most_items),
                    "thin it out, or cut away what is far from the line");
  } else if (count > 0) {
    Mesh mesh;
    mesh.items = {.coordinates = bytes.data() + header + 12, .stride = record, .count = count};
    return mesh;
  }
  return gathering.finish(3, false);
}

}  // namespace fairlead::sites
