// What is being done, on a terminal, once it has taken a second.
#pragma once

#include <functional>
#include <string_view>

namespace fairlead::cli {

/// For Work::progress. Where standard error is no terminal it says nothing, and nothing else ever reads what it says.
std::function<void(std::string_view what, double done)> tell_on_terminal();

/// Takes the line off the terminal again, if one is there.
void clear_progress();

}  // namespace fairlead::cli
