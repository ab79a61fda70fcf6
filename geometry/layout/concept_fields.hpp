// The table of a concept: its sections, those of a layout without what has a place.
#pragma once

#include <numbers>

#include "geometry/layout/brake_fields.hpp"
#include "geometry/layout/concept.hpp"
#include "geometry/layout/limits_fields.hpp"
#include "geometry/layout/project_fields.hpp"
#include "geometry/layout/riders_fields.hpp"

namespace fairlead {

inline constexpr Field<ConceptZone> concept_zone_fields[] = {
    {{.name = "ratio",
      .says = "n of the n:1 reduction: how many metres the trolley runs for one of the brake unit's line",
      .bounds = {.least = 1},
      .examples = {"2"}},
     &ConceptZone::ratio},
    {{.name = "efficiency",
      .says = "share of the work that the sheaves of the reduction leave",
      .dimension = Dimension::ratio,
      .bounds = above_zero_to_one,
      .examples = {"'90 %'"}},
     &ConceptZone::efficiency},
    {{.name = "slope",
      .says = "rise over run of the main line in the arrest zone, positive rising toward the landing",
      .need = Need::exactly_one,
      .dimension = Dimension::ratio,
      .bounds = {.least = -1, .most = 1},
      .examples = {"'-2 %'"},
      .group = 1},
     &ConceptZone::slope},
    {{.name = "slope_angle",
      .says = "or its angle above the level",
      .need = Need::exactly_one,
      .dimension = Dimension::angle,
      .bounds = {.least = -std::numbers::pi / 4, .most = std::numbers::pi / 4},
      .examples = {"'-1.2 deg'"},
      .group = 1},
     &ConceptZone::slope_angle_rad},
    {{.name = "travel",
      .says = "of the brake trolley from its rest mark toward the landing",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'14 m'"}},
     &ConceptZone::travel_m},
};
template <>
inline constexpr std::span<const Field<ConceptZone>> fields_of<ConceptZone> = concept_zone_fields;

template <>
struct StorageOf<Concept> {
  using type = std::variant<Project Concept::*, ConceptZone Concept::*, UnplacedUnit Concept::*,
                            UnplacedTrolley Concept::*, std::optional<UnplacedBackup> Concept::*, Riders Concept::*,
                            std::optional<UnplacedLanding> Concept::*, Limits Concept::*>;
};
inline constexpr Field<Concept> concept_fields[] = {
    {{.name = "project", .says = "whose rig it is to be"}, &Concept::project},
    {{.name = "concept", .says = "what stands for main line and reduction before they have coordinates"},
     &Concept::zone},
    {{.name = "brake_unit", .says = "the unit that pays out the braking line"}, &Concept::brake_unit},
    {{.name = "brake_trolley", .says = "the trolley that the arriving rider pushes"}, &Concept::brake_trolley},
    {{.name = "backup_brake",
      .says = "what stops the trolley when the unit does not; chainages count from the rest mark",
      .need = Need::offered},
     &Concept::backup_brake},
    {{.name = "riders", .says = "who arrives, and how fast"}, &Concept::riders},
    {{.name = "landing",
      .says = "where the riders step off; chainages count from the rest mark",
      .need = Need::offered},
     &Concept::landing},
    {{.name = "limits", .says = "what the checks judge against: a value and who says so", .need = Need::offered},
     &Concept::limits},
};
template <>
inline constexpr std::span<const Field<Concept>> fields_of<Concept> = concept_fields;

}  // namespace fairlead
