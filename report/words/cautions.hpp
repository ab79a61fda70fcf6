// What every output says besides its numbers: the one list for terminal, JSON, sheets and README.
#pragma once

#include <span>
#include <string_view>

namespace fairlead::words {

/// What the reader must do or know before anyone rides, whatever the verdict; whole sentences.
std::span<const std::string_view> cautions();

/// What this version does not compute or judge; whole sentences.
std::span<const std::string_view> not_checked();

/// What stands for the rig where there is none yet: what a concept's estimate leaves out; whole sentences.
std::span<const std::string_view> first_estimate();

}  // namespace fairlead::words
