// The two views of the arrest end as one group, and blocks of lettering in what they leave free.
#pragma once

#include "report/drawing/place.hpp"
#include "report/sheets/blocks.hpp"
#include "report/sheets/title_row.hpp"
#include "report/views/detail.hpp"

namespace fairlead::sheets {

/// Room for names about the views.
enum class Spacing { ample, close };

/// Elevation and plan at one scale, one above the other on the same x.
class ViewGroup {
 public:
  /// `detail`: what a detail elsewhere on the sheet shows, so that the elevation marks it and says less there.
  ViewGroup(const views::Scene&, const Style&, const Stationery&, const drawing::Font&, double scale, Spacing,
            std::optional<views::DetailWindow> detail);
  double width_mm() const { return width_mm_; }
  double height_mm() const { return height_mm_; }
  /// Draws it with its upper left corner at a place, `slack_mm` higher than it must be, and names everything in it;
  /// returns the key of its balloons.
  std::vector<std::string> draw(const drawing::Canvas&, drawing::Paper top_left, double slack_mm) const;

 private:
  TitleRow title_row(const drawing::Canvas&, std::string name) const;
  const views::Scene& scene_;
  const Style& style_;
  const Stationery& paper_;
  double scale_, above_mm_, plan_band_mm_;
  std::optional<views::DetailWindow> detail_;
  double left_margin_mm_{}, width_mm_{}, height_mm_{};
  double elevation_height_mm_{}, elevation_above_mm_{}, plan_height_mm_{};
};

/// The enlarged detail at the greatest scale that fits, with the legend beside it.
class DetailBand {
 public:
  static std::optional<DetailBand> fit(const views::Scene&, const views::DetailWindow&, const drawing::Canvas&,
                                       double width_mm, double greatest_height_mm, double main_scale);
  double height_mm() const { return height_mm_; }
  double scale() const { return scale_; }
  std::vector<std::string> draw(const drawing::Canvas&, const Style&, drawing::Paper top_left, double width_mm,
                                int first_balloon) const;

 private:
  DetailBand(const views::Scene& scene, const views::DetailWindow& window) : scene_(&scene), window_(window) {}
  const views::Scene* scene_;
  views::DetailWindow window_;
  double scale_{}, height_mm_{};
};

/// A rectangle that blocks are stacked in from its top.
struct Region {
  drawing::Box box;
  std::vector<const Block*> blocks;
};

/// Shares blocks between two regions so that all fit; false where no way does. Their order is kept, and the first
/// `kept` of them stay in the second region.
bool share(const drawing::Canvas&, const std::vector<Block>&, Region& first, Region& second, std::size_t kept);
void draw(const drawing::Canvas&, const Region&);

}  // namespace fairlead::sheets
