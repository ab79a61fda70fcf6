#include "geometry/survey/ids.hpp"

#include <bit>

namespace fairlead {
namespace {

constexpr unsigned place_bits = 40;
constexpr std::uint64_t place_mask = (std::uint64_t{1} << place_bits) - 1;

/// FNV-1a, and its upper bits stirred into the lower ones.
std::uint64_t hash_of(std::string_view id) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  for (const char c : id) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
  hash ^= hash >> 32;
  hash *= 0x9e3779b97f4a7c15u;
  return hash ^ hash >> 29;
}

}  // namespace

// A quarter more, so that a run of full slots stays short.
Ids::Ids(std::size_t most, std::function<bool(std::size_t, std::string_view)> is_at)
    : is_at_(std::move(is_at)), slots_(std::bit_ceil(most + most / 4 + 1)) {}

std::optional<std::size_t> Ids::note(std::string_view id, std::size_t at) {
  const std::uint64_t hash = hash_of(id);
  const std::size_t mask = slots_.size() - 1;
  for (std::size_t slot = hash & mask;; slot = (slot + 1) & mask) {
    std::uint64_t& here = slots_[slot];
    if (here == 0) {
      here = (hash & ~place_mask) | (at + 1);
      return std::nullopt;
    }
    const auto first = static_cast<std::size_t>((here & place_mask) - 1);
    if (((here ^ hash) & ~place_mask) == 0 && is_at_(first, id)) return first;
  }
}

}  // namespace fairlead
