// A page as it was last looked at and found good, in a file small enough to keep: its display list to the tenth of a
// millimetre, an entity a line.
#pragma once

#include <string>
#include <vector>

#include "report/drawing/drawing.hpp"

namespace fairlead::sheets {

std::string golden_text(const drawing::Sheet&);
/// Of a text that golden_text made; throws std::runtime_error where it is none.
drawing::Sheet golden_sheet(const std::string& text);

/// What only one of two pages has, the same to a rounding of the file aside.
struct GoldenDifference {
  drawing::Drawing only_was, only_is, both;
  bool none() const { return only_was.entities.empty() && only_is.entities.empty(); }
};
GoldenDifference golden_difference(const drawing::Sheet& was, const drawing::Sheet& is);

/// Both over one another: what went in red, what came in green, the rest in grey.
drawing::Sheet both_pages(const drawing::Sheet& was, const GoldenDifference&);

}  // namespace fairlead::sheets
