#include "report/drawing/squares.hpp"

namespace fairlead::drawing {

Squares::Range Squares::range(const Box& box) {
  // What is unknown counts to the first, as what lies before it.
  const auto at = [](double mm, int count) {
    return mm > 0 ? mm < side_mm * (count - 1) ? static_cast<int>(mm / side_mm) : count - 1 : 0;
  };
  return {at(box.left, columns), at(box.bottom, rows), at(box.right, columns), at(box.top, rows)};
}

void Squares::add(const Box& box, std::size_t index) {
  const Range in = range(box);
  for (int row = in.bottom; row <= in.top; ++row)
    for (int column = in.left; column <= in.right; ++column) squares_[square(column, row)].push_back({in, index});
}

}  // namespace fairlead::drawing
