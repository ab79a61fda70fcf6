// Where a command writes to and in which format.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace fairlead::cli {

/// The one of `formats` ("text", "json", "pdf", ..., "/" for a folder) that is asked for, by --format or by what the
/// file's name ends in; text where neither says. Throws Unusable where they contradict, or the name ends in none of
/// them.
std::string format_of(const std::string& format, const std::string& output,
                      std::initializer_list<std::string_view> formats);

}  // namespace fairlead::cli
