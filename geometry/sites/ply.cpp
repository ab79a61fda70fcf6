// PLY: vertices and faces, as text or binary. Where the binary records are of one size they are used as they stand
// (PLY-FILE).
#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cstring>

#include "geometry/sites/ply_header.hpp"

namespace fairlead::sites {
namespace {

using ply::Element, ply::Header, ply::Order, ply::Property, ply::Type;

const Element* find(const Header& header, std::string_view name) {
  const auto found = std::find_if(header.elements.begin(), header.elements.end(),
                                  [&](const Element& element) { return element.name == name; });
  return found == header.elements.end() ? nullptr : &*found;
}

bool is_corner_list(const Property& property) {
  return property.count && (property.name == "vertex_indices" || property.name == "vertex_index");
}

/// The bytes behind the header, number by number.
class Body {
 public:
  Body(std::span<const std::byte> bytes, const Header& header)
      : order_(header.order),
        bytes_(bytes),
        at_(header.bytes),
        first_line_(header.lines),
        words_({reinterpret_cast<const char*>(bytes.data()) + header.bytes, bytes.size() - header.bytes}) {}

  /// No number is left, or a word is none.
  std::optional<double> number(Type type) {
    if (order_ == Order::ascii) {
      const std::string_view word = words_.word_of_any_line();
      if (word.empty()) return ended_ = true, std::nullopt;
      const auto value = number_of(word);
      if (!value) wrong_word_ = word;
      return value;
    }
    const std::size_t size = ply::size_of(type);
    if (bytes_.size() - at_ < size) return ended_ = true, std::nullopt;
    std::byte raw[8]{};
    std::copy_n(bytes_.begin() + static_cast<std::ptrdiff_t>(at_), size, raw);
    if (order_ == Order::big_endian) std::reverse(raw, raw + size);
    at_ += size;
    const auto as = [&]<class T>(T value) {
      std::memcpy(&value, raw, sizeof value);
      return static_cast<double>(value);
    };
    switch (type) {
      case Type::int8:
        return as(std::int8_t{});
      case Type::uint8:
        return as(std::uint8_t{});
      case Type::int16:
        return as(std::int16_t{});
      case Type::uint16:
        return as(std::uint16_t{});
      case Type::int32:
        return as(std::int32_t{});
      case Type::uint32:
        return as(std::uint32_t{});
      case Type::float32:
        return as(float{});
      case Type::float64:
        break;
    }
    return as(double{});
  }
  std::size_t line() const { return order_ == Order::ascii ? first_line_ + words_.line() : 0; }
  std::size_t offset() const { return order_ == Order::ascii ? 0 : at_; }
  /// Numbers that may still follow.
  std::size_t left() const { return order_ == Order::ascii ? (words_.left() + 1) / 2 : bytes_.size() - at_; }
  bool anything_behind() { return order_ == Order::ascii ? !words_.word_of_any_line().empty() : at_ < bytes_.size(); }
  std::string what_is_wrong(const Element& element, std::size_t i) const {
    if (!ended_) return fmt::format("{} is no number", quoted(wrong_word_));
    return fmt::format("the file ends within {} {} of {}", quoted(element.name), i + 1, element.count);
  }

 private:
  Order order_;
  std::span<const std::byte> bytes_;
  std::size_t at_, first_line_;
  Words words_;
  bool ended_ = false;
  std::string_view wrong_word_;
};

/// Copies the vertices and faces number by number; anything that is not whole ends it with an error.
void read_one_by_one(Body body, const Header& header, std::size_t vertices, Gathering& gathering) {
  std::vector<std::uint32_t> corners;
  for (const Element& element : header.elements)
    for (std::size_t i = 0; i < element.count; ++i) {
      double c[3]{};
      const std::size_t line = body.line(), offset = body.offset();
      for (const Property& property : element.properties) {
        const auto stop = [&](std::string message) {
          gathering.error(body.line(), body.offset(), std::move(message), "get the whole file, or export it anew");
        };
        auto value = body.number(property.count.value_or(property.type));
        if (!value) return stop(body.what_is_wrong(element, i));
        if (!property.count) {
          if (element.name == "vertex" && property.name.size() == 1 && property.name[0] >= 'x' &&
              property.name[0] <= 'z')
            c[property.name[0] - 'x'] = *value;
          continue;
        }
        const bool faces = element.name == "face" && is_corner_list(property);
        if (!(*value >= 0 && *value <= static_cast<double>(body.left())) ||
            *value != static_cast<double>(static_cast<std::size_t>(*value)))
          return stop(fmt::format("a list of {} is longer than what is left of the file", *value));
        corners.clear();
        for (std::size_t left = static_cast<std::size_t>(*value); left > 0; --left) {
          value = body.number(property.type);
          if (!value) return stop(body.what_is_wrong(element, i));
          if (!faces) continue;
          if (!(*value >= 0 && *value < static_cast<double>(vertices)) ||
              *value != static_cast<double>(static_cast<std::uint32_t>(*value)))
            return stop(fmt::format("face {} has the vertex {}, and there are {}", i + 1, *value, vertices));
          corners.push_back(static_cast<std::uint32_t>(*value));
        }
        if (!faces) continue;
        if (corners.empty()) return stop(fmt::format("face {} has no corner", i + 1));
        gathering.polygon(corners);
      }
      if (element.name == "vertex") gathering.vertex(c, line == 0 ? 0 : body.line(), offset);
      if (!gathering.within_limits(body.line(), body.offset())) return;
    }
  if (body.anything_behind()) gathering.mesh.notes.emplace_back("what stands behind the last element is not read");
}

/// Where x, y, z of floats or of doubles follow each other in the vertex, their offset.
std::optional<std::size_t> offset_of_xyz(const Element& vertex) {
  std::size_t offset = 0;
  for (std::size_t i = 0; i < vertex.properties.size(); offset += ply::size_of(vertex.properties[i].type), ++i) {
    const auto& p = vertex.properties;
    if (p[i].name != "x") continue;
    const bool together = i + 2 < p.size() && p[i + 1].name == "y" && p[i + 2].name == "z" &&
                          p[i].type == p[i + 1].type && p[i].type == p[i + 2].type;
    if (together && (p[i].type == Type::float32 || p[i].type == Type::float64)) return offset;
    return std::nullopt;
  }
  return std::nullopt;
}

/// The mesh where it can be used as it stands: little-endian, vertices first and of one size, faces behind them, all
/// triangles with indices of four bytes. None where it can not, or where anything is wrong.
std::optional<Mesh> in_place(std::span<const std::byte> bytes, const Header& header) {
  static_assert(std::endian::native == std::endian::little);
  if (header.order != Order::little_endian || header.elements.empty() || header.elements.size() > 2)
    return std::nullopt;
  const Element& vertex = header.elements[0];
  const auto size = vertex.size();
  if (vertex.name != "vertex" || !size) return std::nullopt;
  const auto xyz = offset_of_xyz(vertex);
  if (!xyz || (bytes.size() - header.bytes) / *size < vertex.count) return std::nullopt;
  const std::size_t faces_at = header.bytes + *size * vertex.count;
  Mesh mesh;
  mesh.items.coordinates = bytes.data() + header.bytes + *xyz;
  mesh.items.stride = *size;
  mesh.items.wide = std::any_of(vertex.properties.begin(), vertex.properties.end(),
                                [](const Property& p) { return p.name == "x" && p.type == Type::float64; });
  if (header.elements.size() == 1 || header.elements[1].count == 0) {
    mesh.items.corners = 1;
    mesh.items.count = static_cast<std::uint32_t>(vertex.count);
    if (faces_at != bytes.size()) return std::nullopt;
    return mesh;
  }
  const Element& face = header.elements[1];
  if (face.name != "face" || face.properties.empty() || !is_corner_list(face.properties[0])) return std::nullopt;
  const Property& list = face.properties[0];
  if (ply::size_of(*list.count) != 1 || (list.type != Type::int32 && list.type != Type::uint32)) return std::nullopt;
  std::size_t stride = 1 + 3 * 4;
  for (std::size_t i = 1; i < face.properties.size(); ++i) {
    if (face.properties[i].count) return std::nullopt;
    stride += ply::size_of(face.properties[i].type);
  }
  if (bytes.size() - faces_at != stride * face.count) return std::nullopt;
  mesh.items.count = static_cast<std::uint32_t>(face.count);
  mesh.items.vertices = static_cast<std::uint32_t>(vertex.count);
  mesh.items.indices = bytes.data() + faces_at + 1;
  mesh.items.index_stride = stride;
  std::vector<std::uint8_t> used(vertex.count, 0);
  for (std::size_t i = 0; i < face.count; ++i) {
    const std::byte* at = bytes.data() + faces_at + stride * i;
    std::uint32_t corner[3];
    std::memcpy(corner, at + 1, sizeof corner);
    if (*at != std::byte{3} || corner[0] >= vertex.count || corner[1] >= vertex.count || corner[2] >= vertex.count)
      return std::nullopt;
    for (const std::uint32_t c : corner) used[c] = 1;
  }
  mesh.loose_vertices = static_cast<std::uint32_t>(std::count(used.begin(), used.end(), 0));
  return mesh;
}

}  // namespace

ReadMesh read_ply(std::span<const std::byte> bytes, const ReadLimits& limits) {
  Gathering gathering(limits);
  const auto refused = [&](std::size_t line, std::string message, std::string instead) {
    gathering.error(line, 0, std::move(message), std::move(instead));
    return gathering.finish(3, true);
  };
  const auto header = ply::read_header({reinterpret_cast<const char*>(bytes.data()), bytes.size()}, gathering);
  if (!header) return gathering.finish(3, true);
  const Element* vertex = find(*header, "vertex");
  const Element* face = find(*header, "face");
  const auto count_of = [](const Element& element, auto which) {
    return std::count_if(element.properties.begin(), element.properties.end(), which);
  };
  const auto named = [](std::string_view name) {
    return [name](const Property& p) { return p.name == name && !p.count; };
  };
  if (!vertex || count_of(*vertex, named("x")) != 1 || count_of(*vertex, named("y")) != 1 ||
      count_of(*vertex, named("z")) != 1)
    return refused(header->lines, "no element \"vertex\" has the properties x, y and z, each once",
                   "export the file anew");
  if (std::any_of(header->elements.begin(), header->elements.end(),
                  [](const Element& e) { return e.name == "tristrips" && e.count > 0; }))
    return refused(header->lines, "strips of triangles are not read", "export the file as triangles");
  const bool faces = face && face->count > 0;
  if (faces && count_of(*face, is_corner_list) != 1)
    return refused(header->lines, "the element \"face\" has no one list \"vertex_indices\"", "export the file anew");
  for (const Element& element : header->elements) {
    const auto same = [&](const Element& other) { return other.name == element.name; };
    if (std::count_if(header->elements.begin(), header->elements.end(), same) > 1)
      return refused(header->lines, fmt::format("the element {} stands twice", quoted(element.name)),
                     "export the file anew");
    const bool used = element.name == "vertex" || element.name == "face";
    if (used && element.count > (element.name == "vertex" ? 3 : 1) * std::size_t{limits.most_items})
      return refused(header->lines,
                     fmt::format("the file has {} of the element {}, and a site at most {}", element.count,
                                 quoted(element.name), limits.most_items),
                     "thin it out, or cut away what is far from the line");
    if (element.properties.empty() && element.count > 0)
      return refused(header->lines, fmt::format("the element {} has no properties", quoted(element.name)),
                     "export the file anew");
    if (!used && element.count > 0)
      gathering.mesh.notes.push_back(fmt::format("the element {} is not read", quoted(element.name)));
  }
  if (auto mesh = in_place(bytes, *header)) {
    if (mesh->items.count > 0 && mesh->items.count <= limits.most_items) return std::move(*mesh);
  }
  read_one_by_one(Body(bytes, *header), *header, vertex->count, gathering);
  return gathering.finish(faces ? 3 : 1, faces);
}

}  // namespace fairlead::sites
