// The header of a PLY file: its byte order and what its elements are made of.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/sites/reading.hpp"

namespace fairlead::sites::ply {

enum class Type { int8, uint8, int16, uint16, int32, uint32, float32, float64 };
constexpr std::size_t size_of(Type type) {
  constexpr std::size_t sizes[] = {1, 1, 2, 2, 4, 4, 4, 8};
  return sizes[static_cast<int>(type)];
}

struct Property {
  std::string name;
  Type type{};
  std::optional<Type> count;  ///< of a list: the type of its length
};
struct Element {
  std::string name;
  std::size_t count{};
  std::vector<Property> properties;
  /// Bytes of one in a binary file; none where it has a list.
  std::optional<std::size_t> size() const;
};
enum class Order { ascii, little_endian, big_endian };
struct Header {
  Order order{};
  std::vector<Element> elements;
  std::size_t bytes{};  ///< of the header
  std::size_t lines{};
};

/// Errors go to the gathering.
std::optional<Header> read_header(std::string_view text, Gathering&);

}  // namespace fairlead::sites::ply
