// The tables of [main_line], [[parallel_line]] and [[support_line]], and the words of their enumerations. What holds
// for any cable hung between two anchors is said once.
#pragma once

#include <algorithm>
#include <array>

#include "geometry/layout/field.hpp"
#include "geometry/layout/rigging.hpp"
#include "geometry/layout/termination_fields.hpp"

namespace fairlead {

inline constexpr Choice<RopeConstruction> rope_constructions[] = {
    {"1x7 strand", RopeConstruction::strand_1x7},    {"1x19 strand", RopeConstruction::strand_1x19},
    {"6x19 IWRC", RopeConstruction::rope_6x19_iwrc}, {"6x36 IWRC", RopeConstruction::rope_6x36_iwrc},
    {"7x19", RopeConstruction::rope_7x19},
};
template <>
inline constexpr std::span<const Choice<RopeConstruction>> choices_of<RopeConstruction> = rope_constructions;

inline constexpr Choice<TensionAt> tension_places[] = {
    {"start", TensionAt::start}, {"end", TensionAt::end}, {"horizontal", TensionAt::horizontal}};
template <>
inline constexpr std::span<const Choice<TensionAt>> choices_of<TensionAt> = tension_places;

/// What one kind of cable says of a key, or shows as its example, unlike the other.
struct CableWords {
  std::string_view from, to, ea, tension, sag, unstretched_length, tension_place;
  struct {
    std::string_view from, to, diameter, mass, ea, construction, mbs, tension, sag, unstretched_length;
  } example;
};

template <class T>
constexpr auto cable_fields(const CableWords& words) {
  return std::to_array<Field<T>>({
      {{.name = "from", .says = words.from, .examples = {words.example.from}},
       Pointing<T, AnchorId>{&T::from, &T::from_place}},
      {{.name = "to", .says = words.to, .examples = {words.example.to}}, Pointing<T, AnchorId>{&T::to, &T::to_place}},
      {{.name = "diameter",
        .says = "of the cable",
        .dimension = Dimension::length,
        .bounds = above_zero,
        .examples = {words.example.diameter}},
       &T::diameter_m},
      {{.name = "mass",
        .says = "of the cable, per length",
        .dimension = Dimension::mass_per_length,
        .bounds = above_zero,
        .examples = {words.example.mass}},
       &T::mass_kg_per_m},
      {{.name = "ea",
        .says = words.ea,
        .need = Need::exactly_one,
        .dimension = Dimension::force,
        .bounds = above_zero,
        .examples = {words.example.ea},
        .group = 1},
       &T::ea_N},
      {{.name = "construction",
        .says = "of the cable, from which EA is estimated",
        .need = Need::exactly_one,
        .examples = {words.example.construction},
        .group = 1},
       &T::construction},
      {{.name = "expansion",
        .says = "thermal expansion of the cable",
        .need = Need::optional,
        .dimension = Dimension::per_temperature,
        .bounds = not_negative,
        .examples = {"'12e-6 /K'"},
        .fallback = "'12e-6 /K'",
        .because = "steel; common practice, no source"},
       &T::expansion_per_K},
      {{.name = "mbs",
        .says = "minimum breaking strength of the cable",
        .need = Need::optional,
        .dimension = Dimension::rating,
        .bounds = above_zero,
        .examples = {words.example.mbs}},
       &T::mbs_N},
      {{.name = "tension",
        .says = words.tension,
        .need = Need::exactly_one,
        .dimension = Dimension::force,
        .bounds = above_zero,
        .examples = {words.example.tension},
        .group = 2},
       &T::tension_N},
      {{.name = "sag",
        .says = words.sag,
        .need = Need::exactly_one,
        .dimension = Dimension::length,
        .bounds = above_zero,
        .examples = {words.example.sag},
        .group = 2},
       &T::sag_m},
      {{.name = "unstretched_length",
        .says = words.unstretched_length,
        .need = Need::exactly_one,
        .dimension = Dimension::length,
        .bounds = above_zero,
        .examples = {words.example.unstretched_length},
        .group = 2},
       &T::unstretched_length_m},
      {{.name = "tension_at",
        .says = "where the tension was measured",
        .need = Need::optional,
        .examples = {"'end'"},
        .fallback = "'end'",
        .because = words.tension_place,
        .with = "tension"},
       &T::tension_at},
      {{.name = "at_temperature",
        .says = "of the cable when it was measured",
        .dimension = Dimension::temperature,
        .bounds = outdoors,
        .examples = {"'15 C'"}},
       &T::at_temperature_K},
      {{.name = "from_end",
        .says = "how the cable ends there, for what that leaves of its strength",
        .need = Need::optional,
        .examples = {"{ kind = 'swaged' }"}},
       &T::from_end},
      {{.name = "to_end",
        .says = "of its other end, likewise",
        .need = Need::optional,
        .examples = {"{ kind = 'clips', clips = 4, turnback = '18 in', torque = '130 ft lb' }"}},
       &T::to_end},
  });
}

/// The keys of one kind of cable, its own before or behind what holds for any.
template <class T, std::size_t First, std::size_t Second>
constexpr auto joined(const std::array<Field<T>, First>& first, const std::array<Field<T>, Second>& second) {
  std::array<Field<T>, First + Second> all{};
  std::copy(second.begin(), second.end(), std::copy(first.begin(), first.end(), all.begin()));
  return all;
}

template <>
struct StorageOf<MainLine> {
  using type = Storage<MainLine, Pointing<MainLine, AnchorId>, Pointing<MainLine, std::optional<AnchorId>>,
                       std::optional<Given<RopeConstruction>> MainLine::*, Given<TensionAt> MainLine::*,
                       std::optional<Termination> MainLine::*>;
};
inline constexpr auto spanning_fields = cable_fields<MainLine>({
    .from = "anchor at its start, upstream",
    .to = "anchor at its end, at the landing",
    .ea = "axial stiffness EA; a range [low, high] is judged at both ends",
    .tension = "measured tension of the bare cable; a value or a range",
    .sag = "measured sag of the bare cable, vertically at mid-span; a value or a range",
    .unstretched_length = "of the cable between its anchors; a value or a range",
    .tension_place = "the landing is where the tension is usually reached; common practice, no source",
    .example = {.from = "'A1'",
                .to = "'A2'",
                .diameter = "'16 mm'",
                .mass = "'1.05 kg/m'",
                .ea = "['10 MN', '12 MN']",
                .construction = "'6x19 IWRC'",
                .mbs = "'160 kN'",
                .tension = "'15 kN'",
                .sag = "['4.1 m', '4.3 m']",
                .unstretched_length = "'220.35 m'"},
});
inline constexpr auto saddle_fields = std::to_array<Field<MainLine>>({
    {{.name = "from_back_anchor",
      .says =
          "anchor that the cable runs on to behind its start, over a saddle; its length is that between the saddles",
      .need = Need::optional,
      .examples = {"'A5'"}},
     Pointing<MainLine, std::optional<AnchorId>>{&MainLine::from_back_anchor, &MainLine::from_back_place}},
    {{.name = "to_back_anchor",
      .says = "anchor that it runs on to behind the landing, likewise",
      .need = Need::optional,
      .examples = {"'A6'"}},
     Pointing<MainLine, std::optional<AnchorId>>{&MainLine::to_back_anchor, &MainLine::to_back_place}},
    {{.name = "saddle_friction",
      .says = "greater over lesser tension when the cable slips over a saddle; absent: the same on both sides",
      .need = Need::optional,
      .bounds = {.least = 1},
      .examples = {"1.2"}},
     &MainLine::saddle_friction},
});
inline constexpr auto main_line_fields = joined(spanning_fields, saddle_fields);
template <>
inline constexpr std::span<const Field<MainLine>> fields_of<MainLine> = main_line_fields;

template <>
struct StorageOf<ParallelLine> {
  using type =
      Storage<ParallelLine, Pointing<ParallelLine, AnchorId>, std::optional<Given<RopeConstruction>> ParallelLine::*,
              Given<TensionAt> ParallelLine::*, std::optional<Termination> ParallelLine::*>;
};
inline constexpr auto beside_fields = std::to_array<Field<ParallelLine>>({
    {{.name = "id", .says = "name on the drawings", .examples = {"'M2'"}}, &ParallelLine::id},
    {{.name = "rider_mass",
      .says = "of the heaviest rider on it with harness and trolley; absent: it is always bare",
      .need = Need::optional,
      .dimension = Dimension::mass,
      .bounds = above_zero,
      .examples = {"'122.5 kg'"}},
     &ParallelLine::rider_mass_kg},
});
inline constexpr auto parallel_line_fields =
    joined(beside_fields,
           cable_fields<ParallelLine>({
               .from = "anchor at its start, upstream; it may be the main line's",
               .to = "anchor at its end, at the landing; it may be the main line's",
               .ea = "axial stiffness EA",
               .tension = "measured tension of the bare line",
               .sag = "measured sag of the bare line, vertically at mid-span",
               .unstretched_length = "of the line between its anchors",
               .tension_place = "the landing is where the tension is usually reached; common practice, no source",
               .example = {.from = "'A1'",
                           .to = "'A2'",
                           .diameter = "'16 mm'",
                           .mass = "'1.05 kg/m'",
                           .ea = "'11 MN'",
                           .construction = "'6x19 IWRC'",
                           .mbs = "'160 kN'",
                           .tension = "'15 kN'",
                           .sag = "'4.2 m'",
                           .unstretched_length = "'220.35 m'"},
           }));
template <>
inline constexpr std::span<const Field<ParallelLine>> fields_of<ParallelLine> = parallel_line_fields;

template <>
struct StorageOf<SupportLine> {
  using type = Storage<SupportLine, Pointing<SupportLine, AnchorId>, Pointing<SupportLine, BlockId>,
                       std::optional<Given<RopeConstruction>> SupportLine::*, Given<TensionAt> SupportLine::*,
                       std::optional<Termination> SupportLine::*>;
};
inline constexpr auto carrying_fields = std::to_array<Field<SupportLine>>({
    {{.name = "id", .says = "name on the drawings", .examples = {"'S1'"}}, &SupportLine::id},
    {{.name = "carries", .says = "the travelling block that rides on it", .examples = {"'B1'"}},
     Pointing<SupportLine, BlockId>{&SupportLine::carries, &SupportLine::carries_place}},
    {{.name = "wheel",
      .says = "from the block's point to where its wheels touch the line: along, across, up",
      .dimension = Dimension::length,
      .examples = {"['0 mm', '0 mm', '140 mm']"}},
     &SupportLine::wheel},
});
inline constexpr auto hanging_fields = cable_fields<SupportLine>({
    .from = "anchor at its upstream end",
    .to = "anchor at its end toward the landing",
    .ea = "axial stiffness EA",
    .tension = "measured tension of the bare line, without the block",
    .sag = "measured sag of the bare line, vertically at mid-span",
    .unstretched_length = "of the line between its anchors",
    .tension_place = "the end toward the landing is where it is usually tensioned; common practice, no source",
    .example = {.from = "'A3'",
                .to = "'A4'",
                .diameter = "'10 mm'",
                .mass = "'0.4 kg/m'",
                .ea = "'4.5 MN'",
                .construction = "'7x19'",
                .mbs = "'60 kN'",
                .tension = "'4 kN'",
                .sag = "'0.2 m'",
                .unstretched_length = "'35.94 m'"},
});
inline constexpr auto support_line_fields = joined(carrying_fields, hanging_fields);
template <>
inline constexpr std::span<const Field<SupportLine>> fields_of<SupportLine> = support_line_fields;

}  // namespace fairlead
