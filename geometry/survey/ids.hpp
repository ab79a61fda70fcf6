// Which ids of a text stand in it more than once, of millions, in eight bytes each: where each stands is kept, not what
// it says.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string_view>
#include <vector>

namespace fairlead {

/// Asks for the id at a place of the text again: of another id whose hash is alike as far as it is kept it is told
/// apart by that, so that no two ids are ever taken for one.
class Ids {
 public:
  /// Of no more than `most` ids.
  Ids(std::size_t most, std::function<bool(std::size_t at, std::string_view id)> is_at);

  /// Notes that an id stands there; where it stood first if it has been noted before. `at`: below 2^40.
  std::optional<std::size_t> note(std::string_view id, std::size_t at);

 private:
  std::function<bool(std::size_t, std::string_view)> is_at_;
  std::vector<std::uint64_t> slots_;  ///< upper 24 bits of the hash, and one more than the place; 0: empty
};

}  // namespace fairlead
