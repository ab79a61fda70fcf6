// The tables of [brake_unit], [brake_trolley] and [backup_brake].
#pragma once

#include "geometry/layout/brake.hpp"
#include "geometry/layout/field.hpp"

namespace fairlead {

inline constexpr Field<EddyDrag> eddy_fields[] = {
    {{.name = "peak",
      .says = "greatest magnetic line tension",
      .dimension = Dimension::force,
      .bounds = above_zero,
      .examples = {"'640 N'"}},
     &EddyDrag::peak_N},
    {{.name = "critical_speed",
      .says = "line speed at which the drag peaks",
      .dimension = Dimension::speed,
      .bounds = above_zero,
      .examples = {"'30 m/s'"}},
     &EddyDrag::critical_speed_m_per_s},
};
template <>
inline constexpr std::span<const Field<EddyDrag>> fields_of<EddyDrag> = eddy_fields;

template <>
struct StorageOf<UnplacedUnit> {
  using type = Storage<UnplacedUnit, Given<Curve> UnplacedUnit::*, std::optional<Given<Curve>> UnplacedUnit::*,
                       std::optional<EddyDrag> UnplacedUnit::*>;
};
inline constexpr Field<UnplacedUnit> unplaced_unit_fields[] = {
    {{.name = "extension_limit",
      .says = "most line it may pay out",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'18 m'"},
      .stricter = Stricter::lower},
     &UnplacedUnit::extension_limit_m},
    {{.name = "rest_extension",
      .says = "line out of it with the trolley at its rest mark",
      .dimension = Dimension::length,
      .bounds = not_negative,
      .examples = {"'1 m'"}},
     &UnplacedUnit::rest_extension_m},
    {{.name = "line_speed_limit",
      .says = "fastest it may pay out",
      .need = Need::offered,
      .dimension = Dimension::speed,
      .bounds = above_zero,
      .examples = {"'20 m/s'"},
      .stricter = Stricter::lower},
     &UnplacedUnit::line_speed_limit_m_per_s},
    {{.name = "rider_mass",
      .says = "riders it may stop, [lightest, heaviest]",
      .need = Need::offered,
      .dimension = Dimension::mass,
      .bounds = above_zero,
      .examples = {"['20 kg', '130 kg']"}},
     &UnplacedUnit::rider_mass_kg},
    {{.name = "retraction",
      .says = "pull of its spring over extension, from 0: rows [extension, tension]",
      .dimension = Dimension::force,
      .bounds = not_negative,
      .examples = {"[['0 m', '60 N'], ['18 m', '115 N']]"},
      .over = Dimension::length},
     &UnplacedUnit::retraction_N},
    {{.name = "magnetic",
      .says = "measured magnetic line tension over line speed, from rest: rows [speed, tension]",
      .need = Need::exactly_one,
      .dimension = Dimension::force,
      .bounds = not_negative,
      .examples = {"[['0 m/s', '0 N'], ['5 m/s', '210 N'], ['10 m/s', '380 N'], ['15 m/s', '510 N']]"},
      .group = 1,
      .over = Dimension::speed},
     &UnplacedUnit::magnetic_N},
    {{.name = "eddy",
      .says = "or the eddy-current law: peak tension and the line speed at which it is reached",
      .need = Need::exactly_one,
      .examples = {"{ peak = '640 N', critical_speed = '30 m/s' }"},
      .group = 1},
     &UnplacedUnit::eddy},
    {{.name = "tolerance",
      .says = "of the magnetic tension, either way",
      .dimension = Dimension::ratio,
      .bounds = zero_to_below_one,
      .examples = {"'10 %'"}},
     &UnplacedUnit::tolerance},
    {{.name = "return_drag",
      .says = "share of the magnetic tension that also acts while line is drawn in; absent: not known",
      .need = Need::offered,
      .dimension = Dimension::ratio,
      .bounds = zero_to_one,
      .examples = {"'25 %'"}},
     &UnplacedUnit::return_drag},
    {{.name = "force_left",
      .says = "share of the magnetic tension that is left when the unit is hot, wet or worn",
      .need = Need::offered,
      .dimension = Dimension::ratio,
      .bounds = above_zero_to_one,
      .examples = {"'90 %'"},
      .fallback = "'100 %'",
      .because = "no loss is stated"},
     &UnplacedUnit::force_left},
    {{.name = "moving_mass",
      .says = "of its rotor and drum, as felt at the line",
      .need = Need::optional,
      .dimension = Dimension::mass,
      .bounds = not_negative,
      .examples = {"'1.5 kg'"},
      .fallback = "'0 kg'",
      .because = "no moving mass is stated"},
     &UnplacedUnit::moving_mass_kg},
};
template <>
inline constexpr std::span<const Field<UnplacedUnit>> fields_of<UnplacedUnit> = unplaced_unit_fields;

template <>
struct StorageOf<BrakeUnit> {
  using type = Storage<BrakeUnit, Pointing<BrakeUnit, AnchorId>, Given<Curve> BrakeUnit::*,
                       std::optional<Given<Curve>> BrakeUnit::*, std::optional<EddyDrag> BrakeUnit::*>;
};
inline constexpr Field<BrakeUnit> brake_unit_own_fields[] = {
    {{.name = "serial", .says = "its serial number", .need = Need::optional, .examples = {"'0001'"}},
     &BrakeUnit::serial},
    {{.name = "on", .says = "anchor that carries it", .examples = {"'A4'"}},
     Pointing<BrakeUnit, AnchorId>{&BrakeUnit::on, &BrakeUnit::on_place}},
    {{.name = "outlet",
      .says = "where the line leaves it",
      .dimension = Dimension::length,
      .examples = {"[215.6, 0.0, 9.0]"}},
     &BrakeUnit::outlet},
    {{.name = "axis",
      .says = "direction out of the outlet; any length above zero will do",
      .examples = {"[-15.6, 0.0, 1.0]"}},
     &BrakeUnit::axis},
    {{.name = "lead_angle",
      .says = "limit of the line's angle off the axis",
      .need = Need::offered,
      .dimension = Dimension::angle,
      .bounds = above_zero,
      .examples = {"{ at = '10 deg', basis = 'plate on the brake unit; check against yours' }"},
      .stricter = Stricter::lower},
     &BrakeUnit::lead_angle},
    {{.name = "attitude", .says = "how it is mounted", .need = Need::optional, .examples = {"'upright'"}},
     &BrakeUnit::attitude},
    {{.name = "mass",
      .says = "of the unit",
      .need = Need::optional,
      .dimension = Dimension::mass,
      .bounds = above_zero,
      .examples = {"'35 kg'"}},
     &BrakeUnit::mass_kg},
};
inline constexpr Field<BrakeUnit> brake_unit_last_fields[] = {
    {{.name = "certificate_due",
      .says = "date by which it must be recertified",
      .need = Need::offered,
      .examples = {"2027-03-01"}},
     &BrakeUnit::certificate_due},
};
inline constexpr auto brake_unit_fields =
    joined<BrakeUnit>(brake_unit_own_fields, unplaced_unit_fields, brake_unit_last_fields);
template <>
inline constexpr std::span<const Field<BrakeUnit>> fields_of<BrakeUnit> = brake_unit_fields;

template <>
struct StorageOf<UnplacedTrolley> {
  using type = Storage<UnplacedTrolley, std::optional<Given<bool>> UnplacedTrolley::*>;
};
inline constexpr Field<UnplacedTrolley> unplaced_trolley_fields[] = {
    {{.name = "mass",
      .says = "of the brake trolley",
      .dimension = Dimension::mass,
      .bounds = above_zero,
      .examples = {"'4 kg'"}},
     &UnplacedTrolley::mass_kg},
    {{.name = "static_resistance",
      .says = "force it takes to set it rolling on the level, besides the rolling resistance",
      .need = Need::optional,
      .dimension = Dimension::force,
      .bounds = not_negative,
      .examples = {"'5 N'"},
      .fallback = "'0 N'",
      .because = "none is stated"},
     &UnplacedTrolley::static_resistance_N},
    {{.name = "held_back",
      .says = "whether a device keeps it from rolling back until it is released",
      .need = Need::optional,
      .examples = {"true"}},
     &UnplacedTrolley::held_back},
    {{.name = "couples",
      .says = "whether a catch takes hold of the rider trolley at contact, so that the two do not part again",
      .need = Need::optional,
      .examples = {"true"}},
     &UnplacedTrolley::couples},
    {{.name = "bumper_stiffness",
      .says = "of a bumper between the two trolleys; absent: nothing gives between them",
      .need = Need::optional,
      .dimension = Dimension::force_per_length,
      .bounds = above_zero,
      .examples = {"'15 kN/m'"},
      .with = "bumper_give"},
     &UnplacedTrolley::bumper_stiffness_N_per_m},
    {{.name = "bumper_give",
      .says = "how far it can be pressed before it is solid",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'80 mm'"},
      .with = "bumper_stiffness"},
     &UnplacedTrolley::bumper_give_m},
    {{.name = "bumper_damping",
      .says = "of it, over the critical damping of the two bare trolleys on it",
      .need = Need::optional,
      .dimension = Dimension::ratio,
      .bounds = zero_to_one,
      .examples = {"'20 %'"},
      .fallback = "'0 %'",
      .because = "nothing is known to be lost in it",
      .with = "bumper_stiffness"},
     &UnplacedTrolley::bumper_damping},
};
template <>
inline constexpr std::span<const Field<UnplacedTrolley>> fields_of<UnplacedTrolley> = unplaced_trolley_fields;

template <>
struct StorageOf<BrakeTrolley> {
  using type = Storage<BrakeTrolley, std::optional<Given<bool>> BrakeTrolley::*>;
};
inline constexpr Field<BrakeTrolley> brake_trolley_own_fields[] = {
    {{.name = "rest", .says = "chainage of its rest mark", .dimension = Dimension::length, .examples = {"'190 m'"}},
     &BrakeTrolley::rest_m},
    {{.name = "travel",
      .says = "planned travel from the rest mark toward the landing",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'14 m'"}},
     &BrakeTrolley::travel_m},
    {{.name = "attachment",
      .says = "of the line's end from the wheel on the main line: along, across, up",
      .dimension = Dimension::length,
      .examples = {"['-120 mm', '0 mm', '40 mm']"}},
     &BrakeTrolley::attachment},
    {{.name = "pull_angle",
      .says = "limit of the line's angle off the trolley's track: of its pull off the main line's direction, upstream",
      .need = Need::optional,
      .dimension = Dimension::angle,
      .bounds = above_zero,
      .examples = {"{ at = '30 deg', basis = 'the trolley maker, in writing' }"},
      .stricter = Stricter::lower},
     &BrakeTrolley::pull_angle},
    {{.name = "side_pull",
      .says = "limit of the line's angle aside: of its pull off the main line's vertical plane",
      .need = Need::optional,
      .dimension = Dimension::angle,
      .bounds = above_zero,
      .examples = {"{ at = '5 deg', basis = 'the trolley maker, in writing' }"},
      .stricter = Stricter::lower},
     &BrakeTrolley::side_pull},
    {{.name = "wheelbase",
      .says = "distance of its outermost wheels along the main line",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'240 mm'"}},
     &BrakeTrolley::wheelbase_m},
    {{.name = "wll",
      .says = "working load limit of its attachment, as marked",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'1 t'"},
      .group = 1},
     &BrakeTrolley::wll_N},
    {{.name = "mbs",
      .says = "minimum breaking strength of its attachment",
      .need = Need::at_most_one,
      .dimension = Dimension::rating,
      .bounds = above_zero,
      .examples = {"'40 kN'"},
      .group = 1},
     &BrakeTrolley::mbs_N},
};
inline constexpr auto brake_trolley_fields = joined<BrakeTrolley>(unplaced_trolley_fields, brake_trolley_own_fields);
template <>
inline constexpr std::span<const Field<BrakeTrolley>> fields_of<BrakeTrolley> = brake_trolley_fields;

template <>
struct StorageOf<UnplacedBackup> {
  using type = Storage<UnplacedBackup, std::optional<Given<Curve>> UnplacedBackup::*>;
};
inline constexpr Field<UnplacedBackup> unplaced_backup_fields[] = {
    {{.name = "description", .says = "what it is", .examples = {"'spring stack on the main line'"}},
     &UnplacedBackup::description},
    {{.name = "engages",
      .says = "chainage at which the trolley meets it",
      .dimension = Dimension::length,
      .examples = {"'205 m'"}},
     &UnplacedBackup::engages_m},
    {{.name = "stroke",
      .says = "length it needs to stop the trolley",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'3 m'"}},
     &UnplacedBackup::stroke_m},
    {{.name = "resistance",
      .says = "to the trolley over compression, from 0 to the stroke: rows [compression, force]",
      .need = Need::optional,
      .dimension = Dimension::force,
      .bounds = not_negative,
      .examples = {"[['0 m', '300 N'], ['3 m', '5 kN']]"},
      .over = Dimension::length,
      .with = "stroke"},
     &UnplacedBackup::resistance_N},
};
template <>
inline constexpr std::span<const Field<UnplacedBackup>> fields_of<UnplacedBackup> = unplaced_backup_fields;

template <>
struct StorageOf<BackupBrake> {
  using type =
      Storage<BackupBrake, Pointing<BackupBrake, std::optional<AnchorId>>, std::optional<Given<Curve>> BackupBrake::*>;
};
inline constexpr Field<BackupBrake> backup_brake_own_fields[] = {
    {{.name = "on", .says = "anchor that holds it", .need = Need::optional, .examples = {"'A4'"}, .with = "force"},
     Pointing<BackupBrake, std::optional<AnchorId>>{&BackupBrake::on, &BackupBrake::on_place}},
    {{.name = "force",
      .says = "most it pulls its anchor, downstream along the main line where it engages",
      .need = Need::optional,
      .dimension = Dimension::force,
      .bounds = above_zero,
      .examples = {"'6 kN'"},
      .with = "on"},
     &BackupBrake::force_N},
};
inline constexpr auto backup_brake_fields = joined<BackupBrake>(unplaced_backup_fields, backup_brake_own_fields);
template <>
inline constexpr std::span<const Field<BackupBrake>> fields_of<BackupBrake> = backup_brake_fields;

}  // namespace fairlead
