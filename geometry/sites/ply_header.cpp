#include "geometry/sites/ply_header.hpp"

#include <fmt/format.h>

#include <utility>

namespace fairlead::sites::ply {
namespace {

std::optional<Type> type_of(std::string_view word) {
  constexpr std::pair<std::string_view, Type> names[] = {
      {"char", Type::int8},   {"uchar", Type::uint8},   {"short", Type::int16},     {"ushort", Type::uint16},
      {"int", Type::int32},   {"uint", Type::uint32},   {"float", Type::float32},   {"double", Type::float64},
      {"int8", Type::int8},   {"uint8", Type::uint8},   {"int16", Type::int16},     {"uint16", Type::uint16},
      {"int32", Type::int32}, {"uint32", Type::uint32}, {"float32", Type::float32}, {"float64", Type::float64}};
  for (const auto& [name, type] : names)
    if (name == word) return type;
  return std::nullopt;
}

bool is_whole(std::optional<Type> type) { return type && *type != Type::float32 && *type != Type::float64; }

}  // namespace

std::optional<std::size_t> Element::size() const {
  std::size_t sum = 0;
  for (const Property& property : properties) {
    if (property.count) return std::nullopt;
    sum += size_of(property.type);
  }
  return sum;
}

std::optional<Header> read_header(std::string_view text, Gathering& gathering) {
  Header header;
  Words words(text);
  const auto refuse = [&](std::string message, std::string instead) {
    gathering.error(words.line(), 0, std::move(message), std::move(instead));
    return std::nullopt;
  };
  if (words.word() != "ply") return refuse("a PLY file begins with the line \"ply\"", "name a PLY file");
  bool formatted = false;
  while (words.next_line()) {
    const std::string_view word = words.word();
    if (word == "comment" || word == "obj_info") continue;
    if (word == "format") {
      const std::string_view order = words.word(), version = words.word();
      if (order == "ascii")
        header.order = Order::ascii;
      else if (order == "binary_little_endian")
        header.order = Order::little_endian;
      else if (order == "binary_big_endian")
        header.order = Order::big_endian;
      else
        return refuse(fmt::format("{} is no format of a PLY file", quoted(order)), "export the file anew");
      if (version != "1.0") return refuse(fmt::format("version {} is not known", quoted(version)), "write version 1.0");
      formatted = true;
    } else if (word == "element") {
      const std::string_view name = words.word(), number = words.word();
      const auto count = integer_of(number);
      if (!count || *count < 0)
        return refuse(fmt::format("{} is no number of elements", quoted(number)), "export the file anew");
      header.elements.push_back({std::string(name), static_cast<std::size_t>(*count), {}});
    } else if (word == "property") {
      if (header.elements.empty()) return refuse("a property stands before any element", "export the file anew");
      std::string_view type = words.word();
      Property property;
      if (type == "list") {
        property.count = type_of(words.word());
        if (!is_whole(property.count))
          return refuse("a list has no whole number for its length", "export the file anew");
        type = words.word();
      }
      const auto known = type_of(type);
      if (!known) return refuse(fmt::format("{} is no type of a number", quoted(type)), "export the file anew");
      property.type = *known;
      property.name = words.word();
      header.elements.back().properties.push_back(std::move(property));
    } else if (word == "end_header") {
      if (!formatted) return refuse("the header names no format", "export the file anew");
      words.next_line();
      header.bytes = text.size() - words.left();
      header.lines = words.line() - 1;
      return header;
    } else if (!word.empty()) {
      return refuse(fmt::format("{} is no word of a PLY header", quoted(word)), "export the file anew");
    }
  }
  return refuse("the header has no end", "get the whole file");
}

}  // namespace fairlead::sites::ply
