// The table of [[member]], and the words of its enumeration.
#pragma once

#include "geometry/layout/field.hpp"
#include "geometry/layout/rigging.hpp"

namespace fairlead {

inline constexpr Choice<MemberKind> member_kinds[] = {
    {"leg", MemberKind::leg}, {"guy", MemberKind::guy}, {"pole", MemberKind::pole}};
template <>
inline constexpr std::span<const Choice<MemberKind>> choices_of<MemberKind> = member_kinds;

template <>
struct StorageOf<Member> {
  using type =
      Storage<Member, Pointing<Member, AnchorId>, Given<MemberKind> Member::*, std::optional<Given<bool>> Member::*>;
};
inline constexpr Field<Member> member_fields[] = {
    {{.name = "id", .says = "name on the drawings", .examples = {"'G1'", "'P1'"}}, &Member::id},
    {{.name = "anchor", .says = "the anchor whose point it holds", .examples = {"'A3'"}},
     Pointing<Member, AnchorId>{&Member::anchor, &Member::anchor_place}},
    {{.name = "kind",
      .says = "leg (of a bridle or cross line), guy, or pole, which takes compression too",
      .examples = {"'guy'", "'pole'"}},
     &Member::kind},
    {{.name = "to",
      .says = "where it is fixed",
      .dimension = Dimension::length,
      .examples = {"[172.0, 0.0, 4.0]", "[180.0, 0.0, 4.0]"}},
     &Member::to},
    {{.name = "ea",
      .says = "stiffness EA; of three members and more all or none have it",
      .need = Need::optional,
      .dimension = Dimension::force,
      .bounds = above_zero,
      .examples = {"'9 MN'", "'60 MN'"}},
     &Member::ea_N},
    {{.name = "pretension",
      .says = "with nothing pulling at the anchor",
      .need = Need::optional,
      .dimension = Dimension::force,
      .bounds = above_zero,
      .examples = {"'1.5 kN'"},
      .of = "guy"},
     &Member::pretension_N},
    {{.name = "wll",
      .says = "working load limit, as marked",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'2 t'"},
      .group = 1},
     &Member::wll_N},
    {{.name = "mbs",
      .says = "minimum breaking strength",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'80 kN'"},
      .group = 1},
     &Member::mbs_N},
    {{.name = "compression_limit",
      .says = "greatest compression against buckling, a working limit",
      .need = Need::optional,
      .dimension = Dimension::force,
      .bounds = above_zero,
      .examples = {"'60 kN'"},
      .of = "pole",
      .stricter = Stricter::lower},
     &Member::compression_limit_N},
    {{.name = "may_be_lost",
      .says = "whether the others must hold without it",
      .need = Need::optional,
      .examples = {"true"}},
     &Member::may_be_lost},
};
template <>
inline constexpr std::span<const Field<Member>> fields_of<Member> = member_fields;

}  // namespace fairlead
