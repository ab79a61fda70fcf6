// The table of [points].
#pragma once

#include "geometry/layout/field.hpp"
#include "geometry/layout/points.hpp"

namespace fairlead {

inline constexpr Choice<PointsOrder> points_orders[] = {{keyword(PointsOrder::pnezd), PointsOrder::pnezd},
                                                        {keyword(PointsOrder::penzd), PointsOrder::penzd},
                                                        {keyword(PointsOrder::named), PointsOrder::named}};
template <>
inline constexpr std::span<const Choice<PointsOrder>> choices_of<PointsOrder> = points_orders;

inline constexpr Choice<PointsUnit> points_units[] = {{keyword(PointsUnit::m), PointsUnit::m},
                                                      {keyword(PointsUnit::mm), PointsUnit::mm},
                                                      {keyword(PointsUnit::ft), PointsUnit::ft},
                                                      {keyword(PointsUnit::us_survey_ft), PointsUnit::us_survey_ft}};
template <>
inline constexpr std::span<const Choice<PointsUnit>> choices_of<PointsUnit> = points_units;

template <>
struct StorageOf<PointsFile> {
  using type = Storage<PointsFile, Given<PointsOrder> PointsFile::*, Given<PointsUnit> PointsFile::*>;
};
inline constexpr Field<PointsFile> points_fields[] = {
    {{.name = "file",
      .says = "comma-separated, beside the layout; the id of a point in it may stand for any place [x, y, z]",
      .examples = {"'points.csv'"}},
     &PointsFile::file},
    {{.name = "order",
      .says = "of its columns: point, northing, easting, elevation, description; easting first; or named in its first "
              "line",
      .examples = {"'pnezd'"}},
     &PointsFile::order},
    {{.name = "unit", .says = "of its numbers; \"ft\" is the international foot", .examples = {"'m'"}},
     &PointsFile::unit},
    {{.name = "target_offset",
      .says = "height of the target above the mark at every point: it is taken off the elevations",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = {.least = -greatest_target_offset_m, .most = greatest_target_offset_m},
      .examples = {"'1.5 m'"}},
     &PointsFile::target_offset_m},
};
template <>
inline constexpr std::span<const Field<PointsFile>> fields_of<PointsFile> = points_fields;

}  // namespace fairlead
