// The tables of [[line]], [[block]] and [[connector]], and the words of their enumerations.
#pragma once

#include "geometry/layout/field.hpp"
#include "geometry/layout/rigging.hpp"
#include "geometry/layout/termination_fields.hpp"

namespace fairlead {

inline constexpr Choice<Turning> turnings[] = {{"anticlockwise", Turning::anticlockwise},
                                               {"clockwise", Turning::clockwise}};
template <>
inline constexpr std::span<const Choice<Turning>> choices_of<Turning> = turnings;

inline constexpr Choice<LineMaterial> line_materials[] = {
    {"steel", LineMaterial::steel}, {"fibre", LineMaterial::fibre}, {"webbing", LineMaterial::webbing}};
template <>
inline constexpr std::span<const Choice<LineMaterial>> choices_of<LineMaterial> = line_materials;

template <>
struct StorageOf<Over> {
  using type = Storage<Over, Pointing<Over, SheaveId>, std::optional<Turning> Over::*>;
};
inline constexpr Field<Over> over_fields[] = {
    {{.name = "sheave", .says = "the sheave's id", .examples = {"'R1'"}},
     Pointing<Over, SheaveId>{&Over::sheave, &Over::place}},
    {{.name = "turning",
      .says = "how the line turns there, running from 'from' to 'to', seen with the axle pointing at you",
      .need = Need::optional,
      .examples = {"'anticlockwise'"}},
     &Over::turning},
};
template <>
inline constexpr std::span<const Field<Over>> fields_of<Over> = over_fields;

template <>
struct StorageOf<Line> {
  using type = Storage<Line, Pointing<Line, LineEnd>, Given<LineMaterial> Line::*, std::vector<Over> Line::*,
                       std::optional<Termination> Line::*>;
};
inline constexpr Field<Line> line_fields[] = {
    {{.name = "id", .says = "name on the drawings", .examples = {"'L1'"}}, &Line::id},
    {{.name = "material", .says = "steel, fibre or webbing", .examples = {"'fibre'"}}, &Line::material},
    {{.name = "from",
      .says = "its first end: an anchor, block or connector, 'brake_trolley' or 'brake_unit'",
      .examples = {"'brake_trolley'"}},
     Pointing<Line, LineEnd>{&Line::from, &Line::from_place}},
    {{.name = "to", .says = "its other end, likewise", .examples = {"'brake_unit'"}},
     Pointing<Line, LineEnd>{&Line::to, &Line::to_place}},
    {{.name = "route",
      .says = "the sheaves it runs over, in order; { sheave = 'R1', turning = 'clockwise' } states the sense",
      .need = Need::offered,
      .examples = {"[{ sheave = 'R1', turning = 'anticlockwise' }]"}},
     &Line::route},
    {{.name = "diameter",
      .says = "of the line",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'8 mm'"}},
     &Line::diameter_m},
    {{.name = "mass",
      .says = "of the line, per length",
      .dimension = Dimension::mass_per_length,
      .bounds = above_zero,
      .examples = {"'0.04 kg/m'"}},
     &Line::mass_kg_per_m},
    {{.name = "mbs",
      .says = "minimum breaking strength",
      .need = Need::offered,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'40 kN'"}},
     &Line::mbs_N},
    {{.name = "tails",
      .says = "both terminations together, added for the cut length",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'1.2 m'"}},
     &Line::tails_m},
    {{.name = "length",
      .says =
          "finished length from bearing to bearing, unloaded; or give 'rest' of a block on it. Not of the braking line",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'41.35 m'"}},
     &Line::length_m},
    {{.name = "ea",
      .says = "axial stiffness EA; absent: it does not stretch",
      .need = Need::optional,
      .dimension = Dimension::force,
      .bounds = above_zero,
      .examples = {"'600 kN'"}},
     &Line::ea_N},
    {{.name = "adjuster",
      .says = "how much length the adjuster on it takes up, from end to end",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'0.4 m'"}},
     &Line::adjuster_m},
    {{.name = "length_tolerance",
      .says = "how far its length may be off either way as it is made",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'20 mm'"}},
     &Line::length_tolerance_m},
    {{.name = "from_offset",
      .says = "of its first end from the block it ends on: along, across, up",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"['-80 mm', '0 mm', '0 mm']"}},
     &Line::from_offset},
    {{.name = "to_offset",
      .says = "of its other end, likewise",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"['80 mm', '0 mm', '0 mm']"}},
     &Line::to_offset},
    {{.name = "from_termination",
      .says = "length of eye, splice and connector from the first end's bearing; it must not reach a sheave",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'250 mm'"}},
     &Line::from_termination_m},
    {{.name = "to_termination",
      .says = "of its other end, likewise",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'250 mm'"}},
     &Line::to_termination_m},
    {{.name = "from_end",
      .says = "how its first end is made, for what that leaves of its strength",
      .need = Need::optional,
      .examples = {"{ kind = 'eye splice', efficiency = '90 %' }"}},
     &Line::from_end},
    {{.name = "to_end",
      .says = "of its other end, likewise",
      .need = Need::optional,
      .examples = {"{ kind = 'sewn', efficiency = '85 %' }"}},
     &Line::to_end},
    {{.name = "sheave_strength",
      .says =
          "share of its mbs that holds over its tightest sheave; absent: of steel by a table of D/d, else not counted",
      .need = Need::optional,
      .dimension = Dimension::ratio,
      .bounds = above_zero_to_one,
      .examples = {"'90 %'"}},
     &Line::sheave_strength},
};
template <>
inline constexpr std::span<const Field<Line>> fields_of<Line> = line_fields;

inline constexpr Field<Block> block_fields[] = {
    {{.name = "id", .says = "name on the drawings", .examples = {"'B1'"}}, &Block::id},
    {{.name = "mass",
      .says = "of the travelling block",
      .dimension = Dimension::mass,
      .bounds = above_zero,
      .examples = {"'3 kg'"}},
     &Block::mass_kg},
    {{.name = "rest",
      .says = "chainage of its point with the trolley at its rest mark; or give the 'length' of a line on it",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"'208 m'"}},
     &Block::rest_m},
    {{.name = "size",
      .says = "of its body, about its point: along, across, up",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"['260 mm', '120 mm', '180 mm']"}},
     &Block::size_m},
    {{.name = "centre_of_mass",
      .says = "from its point: along, across, up",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"['0 mm', '0 mm', '0 mm']"},
      .fallback = "['0 mm', '0 mm', '0 mm']",
      .because = "taken at its point, not measured"},
     &Block::centre_of_mass},
    {{.name = "wll",
      .says = "working load limit, as marked",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'2 t'"},
      .group = 1},
     &Block::wll_N},
    {{.name = "mbs",
      .says = "minimum breaking strength",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'80 kN'"},
      .group = 1},
     &Block::mbs_N},
};
template <>
inline constexpr std::span<const Field<Block>> fields_of<Block> = block_fields;

template <>
struct StorageOf<Connector> {
  using type = Storage<Connector, std::vector<std::string> Connector::*>;
};
inline constexpr Field<Connector> connector_fields[] = {
    {{.name = "id", .says = "name on the drawings", .examples = {"'C1'"}}, &Connector::id},
    {{.name = "joins",
      .says = "what it joins: lines, blocks, anchors, 'brake_trolley' or 'brake_unit'",
      .examples = {"['L1', 'brake_trolley']"}},
     &Connector::joins},
    {{.name = "size", .says = "as it is sold", .need = Need::optional, .examples = {"'bow shackle 13 mm'"}},
     &Connector::size},
    {{.name = "wll",
      .says = "working load limit, as marked",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'2 t'"},
      .group = 1},
     &Connector::wll_N},
    {{.name = "mbs",
      .says = "minimum breaking strength",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'80 kN'"},
      .group = 1},
     &Connector::mbs_N},
};
template <>
inline constexpr std::span<const Field<Connector>> fields_of<Connector> = connector_fields;

}  // namespace fairlead
