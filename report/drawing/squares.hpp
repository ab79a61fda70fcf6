// Boxes on a paper, found by where they lie.
#pragma once

#include <algorithm>
#include <vector>

#include "report/drawing/canvas.hpp"

namespace fairlead::drawing {

/// Boxes by the squares of paper they lie in, so that a question about one corner of a sheet does not visit the rest.
class Squares {
 public:
  void add(const Box&, std::size_t index);
  /// Calls `seen(index)` once for every box added that may overlap this one, until it returns true; true if it did.
  template <class Seen>
  bool any(const Box& box, Seen seen) const {
    const Range in = range(box);
    for (int row = in.bottom; row <= in.top; ++row)
      for (int column = in.left; column <= in.right; ++column)
        for (const Entry& e : squares_[square(column, row)]) {
          // A box in several of the squares asked for is met in the first of them only.
          if (column != std::max(in.left, e.range.left) || row != std::max(in.bottom, e.range.bottom)) continue;
          if (seen(e.index)) return true;
        }
    return false;
  }

 private:
  static constexpr double side_mm = 5;
  static constexpr int columns = 96, rows = 64;  // an A3 or ANSI B sheet; what lies beyond counts to the outermost
  struct Range {
    int left{}, bottom{}, right{}, top{};
  };
  struct Entry {
    Range range;
    std::size_t index{};
  };
  static Range range(const Box&);
  static std::size_t square(int column, int row) { return static_cast<std::size_t>(row * columns + column); }
  std::vector<std::vector<Entry>> squares_ = std::vector<std::vector<Entry>>(std::size_t{columns} * rows);
};

}  // namespace fairlead::drawing
