// The tables of [riders], [approach] and [landing].
#pragma once

#include <numbers>

#include "geometry/layout/points_fields.hpp"
#include "geometry/layout/riders.hpp"

namespace fairlead {

/// Of all shapes of a rider.
inline constexpr Key leans_sideways{
    .name = "sideways",
    .says = "how far it leans to either side as riders swing; absent: they swing along the line alone",
    .need = Need::optional,
    .dimension = Dimension::angle,
    .bounds = {.least = 0, .most = std::numbers::pi / 2},
    .examples = {"'10 deg'"}};
/// Of those that are a hull.
inline constexpr Key shape_margin{.name = "margin",
                                  .says = "around all of it",
                                  .need = Need::optional,
                                  .dimension = Dimension::length,
                                  .bounds = not_negative,
                                  .examples = {"'100 mm'"},
                                  .fallback = "'0 m'",
                                  .because = "the figures hold one already"};

inline constexpr Field<Envelope> envelope_fields[] = {
    {{.name = "width",
      .says = "across, whole",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'2.1 m'"}},
     &Envelope::width_m},
    {{.name = "length",
      .says = "along, whole",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'2.4 m'"}},
     &Envelope::length_m},
    {{.name = "above",
      .says = "highest reach above the main line",
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'0.6 m'"}},
     &Envelope::above_m},
    {{.name = "below",
      .says = "lowest reach below the main line",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'2.6 m'"}},
     &Envelope::below_m},
    {leans_sideways, &Envelope::sideways_rad},
};
template <>
inline constexpr std::span<const Field<Envelope>> fields_of<Envelope> = envelope_fields;

inline constexpr Field<RiderReach> rider_reach_fields[] = {
    {{.name = "up",
      .says = "highest reach of the hands above the main line",
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'0.2 m'"}},
     &RiderReach::up_m},
    {{.name = "down",
      .says = "lowest reach of the feet below the main line",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'2.3 m'"}},
     &RiderReach::down_m},
    {{.name = "forward",
      .says = "reach of hands or feet toward the landing, from the vertical through the wheel",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'0.9 m'"}},
     &RiderReach::forward_m},
    {{.name = "back",
      .says = "the same away from the landing",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'0.9 m'"}},
     &RiderReach::back_m},
    {{.name = "side",
      .says = "the same to either side; half the span of a tall man is 1 m (ANSUR II, from memory)",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'1 m'"}},
     &RiderReach::side_m},
    {{.name = "shoulders",
      .says = "how far below the main line arms reach up from",
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'0.6 m'"}},
     &RiderReach::shoulders_m},
    {shape_margin, &RiderReach::margin_m},
    {leans_sideways, &RiderReach::sideways_rad},
};
template <>
inline constexpr std::span<const Field<RiderReach>> fields_of<RiderReach> = rider_reach_fields;

template <>
struct StorageOf<RiderBody> {
  using type = Storage<RiderBody, Given<PointsUnit> RiderBody::*>;
};
inline constexpr Field<RiderBody> rider_body_fields[] = {
    {{.name = "file",
      .says = "of triangles, beside the layout, .stl, .ply or .obj: x toward the landing, y to the left, z up, zero at "
              "the wheel",
      .examples = {"'rider.stl'"}},
     &RiderBody::file},
    {{.name = "unit", .says = "of its numbers; \"ft\" is the international foot", .examples = {"'m'"}},
     &RiderBody::unit},
    {shape_margin, &RiderBody::margin_m},
    {leans_sideways, &RiderBody::sideways_rad},
};
template <>
inline constexpr std::span<const Field<RiderBody>> fields_of<RiderBody> = rider_body_fields;

template <>
struct StorageOf<Riders> {
  using type = Storage<Riders, std::optional<Envelope> Riders::*, std::optional<RiderReach> Riders::*,
                       std::optional<RiderBody> Riders::*>;
};
inline constexpr Field<Riders> riders_fields[] = {
    {{.name = "mass",
      .says = "of the riders with their harness, [lightest, heaviest]",
      .dimension = Dimension::mass,
      .bounds = above_zero,
      .examples = {"['30 kg', '120 kg']"}},
     &Riders::mass_kg},
    {{.name = "trolley_mass",
      .says = "of the rider trolley",
      .dimension = Dimension::mass,
      .bounds = above_zero,
      .examples = {"'2.5 kg'"}},
     &Riders::trolley_mass_kg},
    {{.name = "hanging_length",
      .says = "from the wheel on the main line to the rider's centre of mass",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'1.3 m'"}},
     &Riders::hanging_length_m},
    {{.name = "arrival_speed",
      .says = "measured at the brake trolley, [slowest, fastest]; absent: it follows from the approach",
      .need = Need::offered,
      .dimension = Dimension::speed,
      .bounds = above_zero,
      .examples = {"['5 m/s', '11 m/s']"}},
     &Riders::arrival_speed_m_per_s},
    {{.name = "rolling_resistance",
      .says = "of rider and brake trolley on the main line, over the load on their wheels, [least, greatest]",
      .need = Need::offered,
      .dimension = Dimension::ratio,
      .bounds = zero_to_below_one,
      .examples = {"['1 %', '2.5 %']"}},
     &Riders::rolling_resistance},
    {{.name = "drag_area",
      .says = "drag coefficient times frontal area of a rider with harness and trolley",
      .need = Need::offered,
      .dimension = Dimension::area,
      .bounds = above_zero,
      .examples = {"'0.6 m2'"}},
     &Riders::drag_area_m2},
    {{.name = "lanyard_stiffness",
      .says = "of a lanyard that gives when the trolleys meet; absent: it does not",
      .need = Need::optional,
      .dimension = Dimension::force_per_length,
      .bounds = above_zero,
      .examples = {"'4 kN/m'"}},
     &Riders::lanyard_stiffness_N_per_m},
    {{.name = "lanyard_damping",
      .says = "of that lanyard, over its critical damping",
      .need = Need::optional,
      .dimension = Dimension::ratio,
      .bounds = zero_to_one,
      .examples = {"'10 %'"},
      .fallback = "'0 %'",
      .because = "nothing is known to be lost in it",
      .with = "lanyard_stiffness"},
     &Riders::lanyard_damping},
    {{.name = "rescuer_mass",
      .says = "of a rescuer with gear and trolley, who hangs on the main line beside the heaviest rider",
      .need = Need::optional,
      .dimension = Dimension::mass,
      .bounds = above_zero,
      .examples = {"'100 kg'"}},
     &Riders::rescuer_mass_kg},
    {{.name = "envelope", .says = "what a hanging rider can reach, as a box", .need = Need::offered_one, .group = 1},
     &Riders::envelope},
    {{.name = "reach", .says = "the same by the reach of hands and feet", .need = Need::offered_one, .group = 1},
     &Riders::reach},
    {{.name = "body", .says = "the same as the convex hull of a mesh", .need = Need::offered_one, .group = 1},
     &Riders::body},
};
template <>
inline constexpr std::span<const Field<Riders>> fields_of<Riders> = riders_fields;

inline constexpr Field<Approach> approach_fields[] = {
    {{.name = "start", .says = "chainage of the push-off", .dimension = Dimension::length, .examples = {"'12 m'"}},
     &Approach::start_m},
    {{.name = "push_off",
      .says = "speed there, [slowest, fastest]; 0 of a rider who is let go",
      .dimension = Dimension::speed,
      .bounds = not_negative,
      .examples = {"['0 m/s', '1.5 m/s']"}},
     &Approach::push_off_m_per_s},
};
template <>
inline constexpr std::span<const Field<Approach>> fields_of<Approach> = approach_fields;

inline constexpr Field<UnplacedLanding> unplaced_landing_fields[] = {
    {{.name = "platform_from",
      .says = "chainage of the platform's upstream edge",
      .dimension = Dimension::length,
      .examples = {"'196 m'"}},
     &UnplacedLanding::platform_from_m},
    {{.name = "platform_to",
      .says = "chainage of its downstream edge",
      .dimension = Dimension::length,
      .examples = {"'214 m'"}},
     &UnplacedLanding::platform_to_m},
    {{.name = "earliest_rest",
      .says = "chainage from which a rider can be picked up",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"'197 m'"}},
     &UnplacedLanding::earliest_rest_m},
    {{.name = "latest_rest",
      .says = "chainage up to which a rider can be picked up",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"'204 m'"}},
     &UnplacedLanding::latest_rest_m},
};
template <>
inline constexpr std::span<const Field<UnplacedLanding>> fields_of<UnplacedLanding> = unplaced_landing_fields;

inline constexpr Field<Landing> landing_own_fields[] = {
    {{.name = "platform_level", .says = "z of its floor", .dimension = Dimension::length, .examples = {"'4.6 m'"}},
     &Landing::platform_level_m},
};
inline constexpr auto landing_fields = joined<Landing>(unplaced_landing_fields, landing_own_fields);
template <>
inline constexpr std::span<const Field<Landing>> fields_of<Landing> = landing_fields;

}  // namespace fairlead
