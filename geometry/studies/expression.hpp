// Formulas as they are printed, with numbers put in.
#pragma once

#include <string>
#include <string_view>

namespace fairlead {

/// The value of numbers joined by + - * / ^ and brackets, with sqrt, sin, cos and acos (degrees): as a pocket
/// calculator does it. NaN where the text is none of that.
double evaluate(std::string_view text);

}  // namespace fairlead
