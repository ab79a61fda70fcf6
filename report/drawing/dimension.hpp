// Dimensions after the rules of ISO 129-1: text above its line, read from the bottom or the right of the sheet.
#pragma once

#include "report/drawing/place.hpp"

namespace fairlead::drawing {

/// Which distance is dimensioned: `along` measures x with a level dimension line, `up` measures y with an upright one.
enum class Measures { along, up };

struct DimensionLine {
  Paper from, to;  ///< the features; extension lines begin a little off them
  std::string text;
  bool open_low = false, open_high = false;  ///< at its lesser or greater coordinate it runs on: no arrow there
};

/// Draws dimensions in rows beside a view, the short ones nearest to it, chained where their lines do not overlap.
/// `edge_mm` is the y (along) or x (up) the rows start from; `side` +1 puts them above or right of it, -1 below or
/// left. The first row stands 8 mm off, the next 7 mm each. Texts move along their lines to be clear of `obstacles`,
/// where given. Returns the coordinate of the outermost line's far side.
double dimension_rows(const Canvas&, Measures, std::vector<DimensionLine>, double edge_mm, int side,
                      const Obstacles* obstacles = nullptr);

inline constexpr double first_row_mm = 8, next_row_mm = 7;

}  // namespace fairlead::drawing
