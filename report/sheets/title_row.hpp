// What stands above a view: its name and scale, the direction of travel, its scale bar.
#pragma once

#include <string>

#include "report/drawing/symbols.hpp"

namespace fairlead::sheets {

struct TitleRow {
  std::string name, scale;
  double name_mm{}, scale_mm{}, travel_mm{}, count{}, bar_mm{};
  drawing::BarUnit unit;
  static constexpr double height_mm = 10;

  /// The bar is as long as there is room for.
  TitleRow(const drawing::Canvas&, std::string view_name, double view_scale, drawing::BarUnit,
           double greatest_width_mm);
  double width_mm() const;
  /// Name and scale at the left; at the right direction of travel and scale bar.
  void draw(const drawing::Canvas&, drawing::Paper top_left, double width_mm, const drawing::View&) const;
};

}  // namespace fairlead::sheets
