// Text in lines of at most so many columns.
#pragma once

#include <string>
#include <string_view>

namespace fairlead::words {

inline constexpr int page_columns = 100;

/// Columns a text takes on a terminal: its code points. No wide or combining ones are expected in a layout.
int width_of(std::string_view utf8);

/// `text` broken at blanks, but not between a number and its unit; the first line begins with `first`, the others with
/// as many blanks as `first` is wide. Every line ends in a newline. A word longer than a line keeps a line of its own.
std::string wrapped(std::string_view first, std::string_view text, int columns = page_columns);

}  // namespace fairlead::words
