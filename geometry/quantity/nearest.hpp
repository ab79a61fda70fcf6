// The name somebody probably meant.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace fairlead {

/// The known name closest to `word` by edit distance (a swap of neighbours counts once), if it is close enough to be
/// a slip of the finger: within a third of the longer one's letters. Ties go to the first.
std::optional<std::string> nearest(std::string_view word, std::span<const std::string> known);

}  // namespace fairlead
