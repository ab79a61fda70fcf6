// Keys of the layout as a reader of a drawing takes them, who never sees the file.
#pragma once

#include <string>
#include <string_view>

namespace fairlead::words {

/// The text with the names of keys and sections in words: "the layout gives no limits.rest_shift" becomes "the layout
/// gives no limit of rest shift", "give a [backup_brake]" "give a backup brake". Ids and file names stay as they are.
std::string keys_in_words(std::string_view text);

}  // namespace fairlead::words
