// The decimal marker of a drawing.
#pragma once

#include <string>
#include <string_view>

#include "report/drawing/drawing.hpp"

namespace fairlead::drawing {

/// The text with a comma for the point within numbers, and where commas between numbers would then be read as theirs,
/// semicolons: "(0.6000, -0.8000)" becomes "(0,6000; -0,8000)". Versions, dates, names and full stops stay.
std::string with_comma(std::string_view text);

/// Every number of a drawing but for what names things: the title block.
void set_decimal_comma(Drawing&);

}  // namespace fairlead::drawing
