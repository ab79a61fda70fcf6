// The two views of the arrest end as one group, and blocks of lettering in what they leave free.
#pragma once

#include "report/drawing/place.hpp"
#include "report/sheets/blocks.hpp"
#include "report/views/arrest.hpp"

namespace fairlead::sheets {

/// Elevation and plan at one scale, one above the other on the same x.
class ViewGroup {
 public:
  ViewGroup(const views::Scene&, const Style&, const Stationery&, const drawing::Font&, double scale);
  double width_mm() const { return width_mm_; }
  double height_mm() const { return height_mm_; }
  /// Draws it with its upper left corner at a place and names everything in it; returns the key of its balloons.
  std::vector<std::string> draw(const drawing::Canvas&, drawing::Paper top_left) const;

 private:
  double draw_elevation(const drawing::Canvas&, drawing::Paper top_left, drawing::Drawing&) const;
  const views::Scene& scene_;
  const Style& style_;
  const Stationery& paper_;
  double scale_, width_mm_{}, height_mm_{};
  double elevation_height_mm_{}, elevation_above_mm_{}, plan_height_mm_{};
};

/// A rectangle that blocks are stacked in from its top.
struct Region {
  drawing::Box box;
  std::vector<const Block*> blocks;
};

/// Shares blocks between two regions so that all fit; false where no way does. Their order is kept.
bool share(const drawing::Canvas&, const std::vector<Block>&, Region& first, Region& second);
void draw(const drawing::Canvas&, const Region&);

}  // namespace fairlead::sheets
