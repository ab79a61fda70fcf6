// The section across the main line at the secondary anchor, with a rider under the redirect.
#pragma once

#include "report/drawing/blocks.hpp"
#include "report/drawing/place.hpp"
#include "report/sheets/sheet.hpp"
#include "report/views/instant.hpp"

namespace fairlead::sheets {

/// What stands at the first redirect, seen toward the landing, and how far everything is from the rider and from the
/// main line.
class SectionFigure {
 public:
  static constexpr double reach_m = 2;  ///< along the main line to both sides: what stands there is shown
  /// None where no rider passes a redirect.
  static std::optional<SectionFigure> of(const views::Scene&, const Style&);
  /// With its title, dimensions and room for names.
  drawing::Size size(const drawing::Font&, double scale) const;
  /// Returns the key of its balloons, which are numbered behind those there are.
  std::vector<std::string> draw(const drawing::Canvas&, const drawing::Box&, double scale, std::size_t balloons) const;

 private:
  SectionFigure(views::UnderRedirect passing, const Style& style) : passing_(std::move(passing)), style_(&style) {}
  const views::Scene& scene() const { return passing_.instant.scene; }
  drawing::Box draw_rig(const drawing::Canvas&, const drawing::View&) const;
  bool near(Point3) const;
  /// Of the parallel lines where they are cut.
  std::vector<std::pair<std::string, Point3>> cables() const;
  void heights(const drawing::Canvas&, const drawing::View&, const drawing::Box& drawn) const;
  void widths(const drawing::Canvas&, const drawing::View&, const drawing::Box& drawn) const;
  std::vector<views::StructureSeen> shown_structures() const;
  std::vector<drawing::Callout> names(const drawing::View&) const;

  views::UnderRedirect passing_;
  const Style* style_;
};

}  // namespace fairlead::sheets
