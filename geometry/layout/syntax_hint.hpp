// What to write instead of the usual slips of TOML's grammar, where the library says no more than what it expected.
#pragma once

#include <string>
#include <string_view>

namespace fairlead {

/// `what` is the library's complaint about this line and column; "" where its cause is not known.
std::string syntax_hint(std::string_view what, std::string_view line, unsigned column);

}  // namespace fairlead
