// Which program made a report.
#pragma once

#include <string_view>

namespace fairlead::words {

/// "0.1.0"
std::string_view program_version();

}  // namespace fairlead::words
