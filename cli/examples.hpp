// What `--help` shows of how commands are called.
#pragma once

#include <string>
#include <string_view>

namespace fairlead::cli {

/// The foot of the help: examples of one command, of all where none is named, and what holds for them all.
std::string help_foot(std::string_view command = {});

}  // namespace fairlead::cli
