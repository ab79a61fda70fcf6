// Characters of UTF-8 text.
#pragma once

#include <string_view>

namespace fairlead {

/// Bytes of the character that begins at `at`, from 1 to 4; 0 where the bytes are no UTF-8 (RFC 3629: no overlong
/// forms, no surrogates) or the text has ended.
std::size_t character_length(std::string_view text, std::size_t at);

bool is_utf8(std::string_view text);

/// Columns (code points) of UTF-8 text; a byte that belongs to none counts as one.
unsigned columns_of(std::string_view text);

}  // namespace fairlead
