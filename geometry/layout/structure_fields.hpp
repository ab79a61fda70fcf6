// The table of [[structure]], and the words of its enumerations.
#pragma once

#include "geometry/layout/field.hpp"
#include "geometry/layout/points_fields.hpp"
#include "geometry/layout/structure.hpp"

namespace fairlead {

inline constexpr Choice<StructureKind> structure_kinds[] = {{"box", StructureKind::box},
                                                            {"post", StructureKind::post},
                                                            {"plane", StructureKind::plane},
                                                            {"scan", StructureKind::scan}};
template <>
inline constexpr std::span<const Choice<StructureKind>> choices_of<StructureKind> = structure_kinds;

inline constexpr Choice<Mover> movers[] = {{"lines", Mover::lines}, {"block", Mover::block}, {"rider", Mover::rider}};
template <>
inline constexpr std::span<const Choice<Mover>> choices_of<Mover> = movers;

template <>
struct StorageOf<Structure> {
  using type = Storage<Structure, Given<StructureKind> Structure::*, Given<std::vector<Mover>> Structure::*,
                       std::optional<Given<PointsUnit>> Structure::*>;
};
inline constexpr Field<Structure> structure_fields[] = {
    {{.name = "id", .says = "name on the drawings", .examples = {"'platform'", "'mast'", "'ground'", "'slope'"}},
     &Structure::id},
    {{.name = "kind",
      .says = "box, post (a cylinder), plane (solid on one side) or scan (a file of triangles or points)",
      .examples = {"'box'", "'post'", "'plane'", "'scan'"}},
     &Structure::kind},
    {{.name = "centre",
      .says = "of the box",
      .dimension = Dimension::length,
      .examples = {"[205.0, 0.0, 4.4]"},
      .of = "box"},
     &Structure::centre},
    {{.name = "size",
      .says = "of the box: along its bearing, across, up",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"['18 m', '4 m', '0.4 m']"},
      .of = "box"},
     &Structure::size_m},
    {{.name = "bearing",
      .says = "of the box: from the x axis to its length, anticlockwise seen from above",
      .need = Need::optional,
      .dimension = Dimension::angle,
      .examples = {"'0 deg'"},
      .fallback = "'0 deg'",
      .because = "its length lies along the x axis",
      .with = "size",
      .of = "box"},
     &Structure::bearing_rad},
    {{.name = "from",
      .says = "one end of the post's axis",
      .dimension = Dimension::length,
      .examples = {"[180.0, 2.5, 0.0]"},
      .of = "post"},
     &Structure::from},
    {{.name = "to",
      .says = "the other end of the post's axis",
      .dimension = Dimension::length,
      .examples = {"[180.0, 2.5, 12.0]"},
      .of = "post"},
     &Structure::to},
    {{.name = "diameter",
      .says = "of the post",
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'300 mm'"},
      .of = "post"},
     &Structure::diameter_m},
    {{.name = "through",
      .says = "a point on the plane",
      .dimension = Dimension::length,
      .examples = {"[200.0, 0.0, 2.0]"},
      .of = "plane"},
     &Structure::through},
    {{.name = "normal",
      .says = "square to the plane, out of the solid; any length above zero will do",
      .examples = {"[0, 0, 1]"},
      .of = "plane"},
     &Structure::normal},
    {{.name = "file",
      .says = "of the scan, beside the layout: .stl, .ply or .obj of triangles, .ply or .xyz of points",
      .examples = {"'slope.stl'"},
      .of = "scan"},
     &Structure::file},
    {{.name = "unit",
      .says = "of the scan's numbers; \"ft\" is the international foot",
      .examples = {"'m'"},
      .of = "scan"},
     &Structure::unit},
    {{.name = "origin",
      .says = "of the scan: where its zero lies; absent: at the site's",
      .need = Need::optional,
      .dimension = Dimension::length,
      .examples = {"[180.0, 0.0, 4.0]"},
      .of = "scan"},
     &Structure::origin},
    {{.name = "turned",
      .says = "of the scan: from the x axis to its own, anticlockwise seen from above",
      .need = Need::optional,
      .dimension = Dimension::angle,
      .examples = {"'0 deg'"},
      .fallback = "'0 deg'",
      .because = "its axes are the site's",
      .with = "file",
      .of = "scan"},
     &Structure::turned_rad},
    {{.name = "radius",
      .says = "of a scan of points: each is a ball of it, large enough that no gap is left between them",
      .need = Need::optional,
      .dimension = Dimension::length,
      .bounds = above_zero,
      .examples = {"'100 mm'"},
      .of = "scan"},
     &Structure::radius_m},
    {{.name = "clear_of",
      .says = "what must keep its distance; absent: all three. A platform that riders step on leaves out 'rider'",
      .need = Need::optional,
      .examples = {"['lines', 'block']"}},
     &Structure::clear_of},
};
template <>
inline constexpr std::span<const Field<Structure>> fields_of<Structure> = structure_fields;

}  // namespace fairlead
