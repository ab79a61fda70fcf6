// The tables of [project] and [site].
#pragma once

#include "geometry/layout/field.hpp"
#include "geometry/layout/project.hpp"

namespace fairlead {

inline constexpr Field<Revision> revision_fields[] = {
    {{.name = "revision", .says = "its letter or number", .examples = {"'A'"}}, &Revision::revision},
    {{.name = "change", .says = "what changed", .examples = {"'first issue'"}}, &Revision::change},
    {{.name = "by", .says = "who changed it", .examples = {"'A. Author'"}}, &Revision::by},
    {{.name = "date", .says = "when", .examples = {"2026-03-01"}}, &Revision::date},
};
template <>
inline constexpr std::span<const Field<Revision>> fields_of<Revision> = revision_fields;

template <>
struct StorageOf<Project> {
  using type = Storage<Project, std::vector<Revision> Project::*>;
};
inline constexpr Field<Project> project_fields[] = {
    {{.name = "owner", .says = "legal owner of the drawings", .examples = {"'Example Park Ltd'"}}, &Project::owner},
    {{.name = "title", .says = "title of the drawings", .examples = {"'Arrest end of line 1'"}}, &Project::title},
    {{.name = "number", .says = "number of the drawings", .examples = {"'EX-001'"}}, &Project::number},
    {{.name = "revision", .says = "revision of this layout", .examples = {"'A'"}}, &Project::revision},
    {{.name = "date",
      .says = "date of issue; certificates and waivers are judged on it",
      .need = Need::offered,
      .examples = {"2026-03-01"}},
     &Project::date},
    {{.name = "creator", .says = "who made it", .need = Need::optional, .examples = {"'A. Author'"}},
     &Project::creator},
    {{.name = "checker", .says = "who checked it", .need = Need::optional, .examples = {"'B. Checker'"}},
     &Project::checker},
    {{.name = "approver", .says = "who approved it", .need = Need::optional, .examples = {"'C. Approver'"}},
     &Project::approver},
    {{.name = "history", .says = "rows of the revision table", .need = Need::optional}, &Project::history},
};
template <>
inline constexpr std::span<const Field<Project>> fields_of<Project> = project_fields;

template <>
struct StorageOf<Site> {
  using type = Storage<Site, std::array<std::string, 3> Site::*>;
};
inline constexpr Field<Site> site_fields[] = {
    {{.name = "name", .says = "where it stands", .examples = {"'Example Valley'"}}, &Site::name},
    {{.name = "axes",
      .says = "words for x, y and z; right-handed, z points up",
      .examples = {"['east', 'north', 'up']"}},
     &Site::axes},
    {{.name = "datum",
      .says = "the mark that the positions are measured from",
      .need = Need::offered,
      .examples = {"'brass nail at the start tower'"}},
     &Site::datum},
    {{.name = "altitude",
      .says = "of the site above the sea",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"'450 m'"}},
     &Site::altitude_m},
    {{.name = "coldest",
      .says = "lowest design temperature of the main line",
      .dimension = Dimension::temperature,
      .bounds = outdoors,
      .examples = {"'-15 C'"}},
     &Site::coldest_K},
    {{.name = "warmest",
      .says = "highest design temperature of the main line",
      .dimension = Dimension::temperature,
      .bounds = outdoors,
      .examples = {"'40 C'"}},
     &Site::warmest_K},
    {{.name = "wind_along",
      .says = "greatest wind along the main line, toward the landing or from it",
      .need = Need::optional,
      .dimension = Dimension::speed,
      .bounds = not_negative,
      .examples = {"'10 m/s'"}},
     &Site::wind_along_m_per_s},
    {{.name = "wind_across",
      .says = "greatest wind across the main line, from either side: it blows resting lines and riders aside and loads "
              "the anchors",
      .need = Need::optional,
      .dimension = Dimension::speed,
      .bounds = not_negative,
      .examples = {"'10 m/s'"}},
     &Site::wind_across_m_per_s},
    {{.name = "ice_thickness",
      .says = "of ice all round the main line, when nobody rides",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'12 mm'"}},
     &Site::ice_thickness_m},
    {{.name = "ice_density",
      .says = "of the ice",
      .need = Need::optional,
      .dimension = Dimension::density,
      .bounds = above_zero,
      .examples = {"'900 kg/m3'"},
      .fallback = "'900 kg/m3'",
      .because = "glaze; ISO 12494, from memory",
      .with = "ice_thickness"},
     &Site::ice_density_kg_per_m3},
    {{.name = "ice_temperature",
      .says = "of the main line under ice; absent: the lowest design temperature",
      .need = Need::optional,
      .dimension = Dimension::temperature,
      .bounds = outdoors,
      .examples = {"'-5 C'"},
      .with = "ice_thickness"},
     &Site::ice_temperature_K},
    {{.name = "ice_wind",
      .says = "wind across the iced main line, from either side",
      .need = Need::optional,
      .dimension = Dimension::speed,
      .bounds = above_zero,
      .examples = {"'15 m/s'"},
      .with = "ice_thickness"},
     &Site::ice_wind_m_per_s},
    {{.name = "storm_wind",
      .says = "greatest wind across the main line, from either side, when nobody rides",
      .need = Need::optional,
      .dimension = Dimension::speed,
      .bounds = above_zero,
      .examples = {"'35 m/s'"}},
     &Site::storm_wind_m_per_s},
    {{.name = "chainage_zero",
      .says = "where chainage is counted from; absent: the main line's start",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"[0.0, 0.0, 0.0]"}},
     &Site::chainage_zero},
};
template <>
inline constexpr std::span<const Field<Site>> fields_of<Site> = site_fields;

}  // namespace fairlead
