// The tables of [limits] and [[waiver]].
#pragma once

#include "geometry/layout/field.hpp"
#include "geometry/layout/limits.hpp"

namespace fairlead {

inline constexpr Field<Limits> limits_fields[] = {
    {{.name = "fleet_angle",
      .says = "greatest angle of a line off its groove's plane",
      .need = Need::offered,
      .dimension = Dimension::angle,
      .bounds = above_zero,
      .examples = {"{ at = '4 deg', basis = 'ordinary grooves, common practice; check against your code' }"}},
     &Limits::fleet_angle_rad},
    {{.name = "plane_thickness",
      .says = "greatest thickness of the line's points about their best plane",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"{ at = '60 mm', basis = 'who says so' }"}},
     &Limits::plane_thickness_m},
    {{.name = "across_offset",
      .says = "greatest offset of the line across from the main line's vertical plane",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"{ at = '150 mm', basis = 'who says so' }"}},
     &Limits::across_offset_m},
    {{.name = "anchor_utilisation",
      .says = "greatest demand over capacity",
      .need = Need::offered,
      .dimension = Dimension::ratio,
      .bounds = above_zero,
      .examples = {"{ at = '100 %', basis = 'demand no greater than capacity; check against your code' }"}},
     &Limits::anchor_utilisation},
    {{.name = "design_factor",
      .says = "divides a minimum breaking strength; never a working load limit",
      .need = Need::offered,
      .dimension = Dimension::ratio,
      .bounds = above_zero,
      .examples = {"{ at = 5, basis = 'wire rope: WAC 296-24-29401; check against your code' }"}},
     &Limits::design_factor},
    {{.name = "extension_reserve",
      .says = "least line left in the brake unit",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"{ at = '1.5 m', basis = 'who says so' }"}},
     &Limits::extension_reserve_m},
};
template <>
inline constexpr std::span<const Field<Limits>> fields_of<Limits> = limits_fields;

template <>
struct StorageOf<Waiver> {
  using type = Storage<Waiver, Pointing<Waiver, std::optional<std::string>>>;
};
inline constexpr Field<Waiver> waiver_fields[] = {
    {{.name = "check", .says = "name of the check that is waived", .examples = {"'fleet-angle'"}}, &Waiver::check},
    {{.name = "subject",
      .says = "id of the item or name of the section; absent: every subject of the check",
      .need = Need::optional,
      .examples = {"'R1'"}},
     Pointing<Waiver, std::optional<std::string>>{&Waiver::subject, &Waiver::subject_place}},
    {{.name = "who", .says = "who waives it", .examples = {"'C. Approver'"}}, &Waiver::who},
    {{.name = "why", .says = "on what grounds", .examples = {"'measured 3.1 deg on site, groove flares 6 deg'"}},
     &Waiver::why},
    {{.name = "until", .says = "last day it holds", .examples = {"2026-12-31"}}, &Waiver::until},
};
template <>
inline constexpr std::span<const Field<Waiver>> fields_of<Waiver> = waiver_fields;

}  // namespace fairlead
