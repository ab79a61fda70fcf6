// The tables of [[anchor]] and [[sheave]].
#pragma once

#include "geometry/layout/field.hpp"
#include "geometry/layout/rigging.hpp"

namespace fairlead {

inline constexpr Field<Anchor> anchor_fields[] = {
    {{.name = "id", .says = "name on the drawings", .examples = {"'A1'", "'A2'", "'A3'", "'A4'"}}, &Anchor::id},
    {{.name = "position",
      .says = "where the load acts",
      .dimension = Dimension::length,
      .examples = {"[0.0, 0.0, 22.0]", "[220.0, 0.0, 8.0]", "[180.0, 0.0, 11.6]", "[216.0, 0.0, 9.0]"}},
     &Anchor::position},
    {{.name = "wll",
      .says = "working load limit, as marked",
      .need = Need::exactly_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'40 kN'", "'40 kN'", "'2 t'", "'2 t'"},
      .group = 1},
     &Anchor::wll_N},
    {{.name = "mbs",
      .says = "minimum breaking strength",
      .need = Need::exactly_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'200 kN'"},
      .group = 1},
     &Anchor::mbs_N},
};
template <>
inline constexpr std::span<const Field<Anchor>> fields_of<Anchor> = anchor_fields;

template <>
struct StorageOf<Sheave> {
  using type = Storage<Sheave, Pointing<Sheave, Carrier>>;
};
inline constexpr Field<Sheave> sheave_fields[] = {
    {{.name = "id", .says = "name on the drawings", .examples = {"'R1'"}}, &Sheave::id},
    {{.name = "on", .says = "what carries it: an anchor, a block or 'brake_trolley'", .examples = {"'A3'"}},
     Pointing<Sheave, Carrier>{&Sheave::on, &Sheave::on_place}},
    {{.name = "position",
      .says = "of its centre; when it stands on an anchor",
      .need = Need::exactly_one,
      .dimension = Dimension::length,
      .examples = {"[180.0, 0.0, 11.3]"},
      .group = 1},
     &Sheave::position},
    {{.name = "offset",
      .says = "of its centre from its block or trolley: along, across, up",
      .need = Need::exactly_one,
      .dimension = Dimension::length,
      .examples = {"['0 mm', '0 mm', '60 mm']"},
      .group = 1},
     &Sheave::offset},
    {{.name = "axle", .says = "direction of its axle; any length above zero will do", .examples = {"[0, 1, 0]"}},
     &Sheave::axle},
    {{.name = "pitch_diameter",
      .says = "to the centre of the line in the groove",
      .need = Need::exactly_one,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'200 mm'"},
      .group = 2},
     &Sheave::pitch_diameter_m},
    {{.name = "tread_diameter",
      .says = "at the bottom of the groove; the line's diameter is added",
      .need = Need::exactly_one,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'192 mm'"},
      .group = 2},
     &Sheave::tread_diameter_m},
    {{.name = "groove",
      .says = "width of the groove",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'9 mm'"}},
     &Sheave::groove_m},
    {{.name = "frame",
      .says = "size of its frame and cheeks about the centre: along, across, up",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"['240 mm', '60 mm', '320 mm']"}},
     &Sheave::frame_m},
    {{.name = "wll",
      .says = "working load limit, as marked",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'2 t'"},
      .group = 3},
     &Sheave::wll_N},
    {{.name = "mbs",
      .says = "minimum breaking strength",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'80 kN'"},
      .group = 3},
     &Sheave::mbs_N},
    {{.name = "fleet_angle",
      .says = "limit for this sheave, in place of the common one",
      .need = Need::optional,
      .dimension = Dimension::angle,
      .bounds = above_zero,
      .examples = {"{ at = '1.5 deg', basis = 'narrow groove; check against your code' }"}},
     &Sheave::fleet_angle},
};
template <>
inline constexpr std::span<const Field<Sheave>> fields_of<Sheave> = sheave_fields;

}  // namespace fairlead
