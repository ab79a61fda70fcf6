#include "geometry/layout/digest.hpp"

#include <fmt/format.h>
#include <nettle/sha2.h>

#include <array>
#include <vector>

namespace fairlead {

std::string sha256_of(std::initializer_list<std::string_view> bytes) {
  sha256_ctx context;
  sha256_init(&context);
  for (const std::string_view each : bytes)
    sha256_update(&context, each.size(), reinterpret_cast<const std::uint8_t*>(each.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  sha256_digest(&context, digest.size(), digest.data());
  std::string hex;
  for (const std::uint8_t byte : digest) hex += fmt::format("{:02x}", byte);
  return hex;
}

std::string digest_of(std::span<const std::byte> bytes, const Work& work) {
  constexpr std::size_t piece = std::size_t{8} << 20;
  const std::size_t count = (bytes.size() + piece - 1) / piece;
  std::vector<std::string> pieces(count);
  for_each_index(work, static_cast<int>(count), [&](int i) {
    const auto part = bytes.subspan(static_cast<std::size_t>(i) * piece)
                          .first(std::min(piece, bytes.size() - static_cast<std::size_t>(i) * piece));
    pieces[static_cast<std::size_t>(i)] = sha256_of({{reinterpret_cast<const char*>(part.data()), part.size()}});
  });
  std::string all;
  for (const std::string& each : pieces) all += each;
  return sha256_of({all});
}

}  // namespace fairlead
