// The table of a line's or cable's end, and the words of its enumeration.
#pragma once

#include "geometry/layout/field.hpp"
#include "geometry/layout/termination.hpp"

namespace fairlead {

inline constexpr Choice<TerminationKind> termination_kinds[] = {{"poured socket", TerminationKind::poured_socket},
                                                                {"swaged", TerminationKind::swaged},
                                                                {"sleeve splice", TerminationKind::sleeve_splice},
                                                                {"wedge", TerminationKind::wedge},
                                                                {"clips", TerminationKind::clips},
                                                                {"eye splice", TerminationKind::eye_splice},
                                                                {"knot", TerminationKind::knot},
                                                                {"sewn", TerminationKind::sewn},
                                                                {"other", TerminationKind::other}};
template <>
inline constexpr std::span<const Choice<TerminationKind>> choices_of<TerminationKind> = termination_kinds;

template <>
struct StorageOf<Termination> {
  using type = Storage<Termination, Given<TerminationKind> Termination::*>;
};
inline constexpr Field<Termination> termination_fields[] = {
    {{.name = "kind",
      .says = "of steel 'poured socket' to 'clips', of fibre and webbing 'eye splice', 'knot' or 'sewn'",
      .examples = {"'swaged'"}},
     &Termination::kind},
    {{.name = "efficiency",
      .says = "share it holds of the breaking strength; absent: the published one, for steel kinds",
      .need = Need::optional,
      .dimension = Dimension::ratio,
      .bounds = above_zero_to_one,
      .examples = {"'90 %'"}},
     &Termination::efficiency},
    {{.name = "clips",
      .says = "how many, of wire rope clips",
      .need = Need::optional,
      .bounds = {.least = 1},
      .examples = {"4"}},
     &Termination::clips},
    {{.name = "turnback",
      .says = "of wire rope clips: length of rope turned back",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'18 in'"}},
     &Termination::turnback_m},
    {{.name = "torque",
      .says = "of wire rope clips: to which their nuts are tightened",
      .need = Need::optional,
      .dimension = Dimension::moment,
      .bounds = above_zero,
      .examples = {"'130 ft lb'"}},
     &Termination::torque_N_m},
};
template <>
inline constexpr std::span<const Field<Termination>> fields_of<Termination> = termination_fields;

}  // namespace fairlead
