// STL: triangles, binary (80 bytes of anything, their number, 50 bytes each) or as text (STL-FILE).
#include <fmt/format.h>

#include <algorithm>
#include <cstring>
#include <optional>
#include <vector>

#include "geometry/sites/reading.hpp"

namespace fairlead::sites {
namespace {

constexpr std::size_t header = 84, record = 50;

/// Binary data holds zeros soon, text never.
bool looks_like_text(std::string_view head) {
  return Words(head).word_of_any_line().size() >= 5 && is_word(Words(head).word_of_any_line().substr(0, 5), "solid") &&
         head.substr(0, 1024).find('\0') == head.npos;
}

std::string cut_short(std::string_view wanted) {
  return fmt::format("the file ends where \"{}\" should follow: it is cut short", wanted);
}

/// From a place between facets on; where the text ends it may still be in a solid.
struct Read {
  bool in_solid;
  std::size_t line;
};
Read read_on(std::string_view text, bool in_solid, Gathering& gathering) {
  Words words(text);
  const auto expect = [&](std::string_view wanted, std::string_view found) {
    if (is_word(found, wanted)) return true;
    const std::size_t line = words.line();
    if (found.empty())
      gathering.error(line, 0, cut_short(wanted), "get the whole file");
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
    if (word.empty()) return {in_solid, words.line()};
    if (in_solid && is_word(word, "facet")) {
      if (!facet()) break;
    } else if (expect(in_solid ? "endsolid" : "solid", word)) {
      words.rest();  // its name
      in_solid = !in_solid;
    } else {
      break;
    }
  }
  return {false, words.line()};
}

/// Where the parts of a text begin: at facets that begin a line, some millions of letters apart.
std::vector<std::size_t> parts_of(std::string_view text) {
  constexpr std::size_t part = std::size_t{4} << 20;
  constexpr std::string_view facet = "facet";
  std::vector<std::size_t> begins{0};
  for (std::size_t at = part; at < text.size(); at += part) {
    while ((at = text.find('\n', at)) != text.npos) {
      at = std::min(text.find_first_not_of(" \t", at + 1), text.size());
      if (is_word(text.substr(at, facet.size()), facet)) break;
    }
    if (at == text.npos) break;
    begins.push_back(at);
  }
  return begins;
}

/// A sound text; of any other nothing, for only who reads it from its beginning knows its lines.
std::optional<Mesh> read_parts(std::string_view text, const ReadLimits& limits, const Work& work) {
  const std::vector<std::size_t> begins = parts_of(text);
  std::vector<Gathering> parts;
  while (parts.size() < begins.size()) parts.emplace_back(limits);
  std::vector<char> sound(begins.size(), false);
  for_each_index(work, static_cast<int>(begins.size()), [&](int i) {
    const auto n = static_cast<std::size_t>(i);
    const bool last = n + 1 == begins.size();
    const std::string_view part = text.substr(begins[n], last ? text.npos : begins[n + 1] - begins[n]);
    constexpr std::size_t usual_letters = 16;  // to a coordinate; memory that is not needed is not touched
    parts[n].mesh.coordinates.reserve(part.size() / usual_letters);
    sound[n] = read_on(part, n > 0, parts[n]).in_solid != last && parts[n].errors.first.empty();
  });
  std::vector<std::size_t> to{0};
  for (const Gathering& part : parts) to.push_back(to.back() + part.mesh.coordinates.size());
  if (std::find(sound.begin(), sound.end(), false) != sound.end() || to.back() / 9 > limits.most_items) return {};
  Gathering whole(limits);
  whole.mesh.coordinates.resize(to.back());
  for_each_index(work, static_cast<int>(parts.size()), [&](int i) {
    Mesh& part = parts[static_cast<std::size_t>(i)].mesh;
    std::copy(part.coordinates.begin(), part.coordinates.end(),
              whole.mesh.coordinates.begin() + static_cast<std::ptrdiff_t>(to[static_cast<std::size_t>(i)]));
    part.coordinates = {};
  });
  for (const Gathering& part : parts) whole.mesh.fanned += part.mesh.fanned;
  auto mesh = whole.finish(3, false);
  return mesh ? std::optional(std::move(*mesh)) : std::nullopt;
}

ReadMesh read_text(std::string_view text, const ReadLimits& limits, const Work& work) {
  if (auto mesh = read_parts(text, limits, work)) return std::move(*mesh);
  Gathering gathering(limits);
  if (const Read read = read_on(text, false, gathering); read.in_solid)
    gathering.error(read.line, 0, cut_short("endsolid"), "get the whole file");
  return gathering.finish(3, false);
}

}  // namespace

ReadMesh read_stl(std::span<const std::byte> bytes, const ReadLimits& limits, const Work& work) {
  const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  std::uint32_t count = 0;
  if (bytes.size() >= header) std::memcpy(&count, bytes.data() + 80, sizeof count);
  const std::size_t expected = header + record * std::size_t{count};
  const bool binary = bytes.size() >= header && bytes.size() == expected;
  if (!binary && looks_like_text(text)) return read_text(text, limits, work);
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
