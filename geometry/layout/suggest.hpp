// What an author probably meant, for the "instead" of an error.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "geometry/layout/outline.hpp"

namespace fairlead {

/// "brake_unit" as it stands in a sentence: "brake unit".
std::string in_words(std::string_view name);

/// "did you mean "A1"?", or the known names where none is near and they are few; "" where there is nothing to say.
std::string did_you_mean(std::string_view written, const std::vector<std::string>& known);

/// The keys of a table.
std::vector<std::string> names_of(const Outline&);

/// An example as the file has it: 'A1' becomes "A1".
std::string with_double_quotes(std::string_view example);

/// "for example axle = [0, 1, 0]", or "" for a key without an example.
std::string example(const Key&);

}  // namespace fairlead
