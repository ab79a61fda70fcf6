// The section [[structure]]: what stands on the site and must be kept clear of. Its table: structure_fields.hpp.
#pragma once

#include <algorithm>
#include <memory>

#include "geometry/layout/given.hpp"
#include "geometry/sites/site.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

enum class StructureKind { box, post, plane, scan };

/// What may have to keep its distance from a structure.
enum class Mover { lines, block, rider };

/// A simple solid, or a scan of what stands there. The members of its kind are given, those of the others are absent.
struct Structure {
  Words id;
  Given<StructureKind> kind;
  std::optional<Given<Point3>> centre;      ///< of a box
  std::optional<Given<Size>> size_m;        ///< of a box: along its bearing, across, up
  Real bearing_rad;                         ///< of a box: from the x axis to its length, anticlockwise seen from above
  std::optional<Given<Point3>> from, to;    ///< of a post: the ends of its axis
  std::optional<Real> diameter_m;           ///< of a post
  std::optional<Given<Point3>> through;     ///< of a plane: a point on it
  std::optional<Given<Vec3>> normal;        ///< of a plane: out of the solid, any length > 0
  std::optional<Words> file;                ///< of a scan: as written; relative to the layout file's directory
  std::optional<Given<PointsUnit>> unit;    ///< of a scan: of its numbers
  std::optional<Given<Point3>> origin;      ///< of a scan: where its zero lies; absent: at the site's
  Real turned_rad;                          ///< of a scan: from the x axis to its own, anticlockwise seen from above
  std::optional<Real> radius_m;             ///< of a scan of points: each is a ball of it
  std::shared_ptr<const sites::Site> site;  ///< of a scan: what its file holds; shared by all copies of a layout
  Given<std::vector<Mover>> clear_of{{Mover::lines, Mover::block, Mover::rider}, {}};  ///< who must; line 0: everyone
  Place place{};
};

/// Whether `mover` has to keep clear of it.
inline bool keeps_clear(const Structure& structure, Mover mover) {
  const std::vector<Mover>& all = structure.clear_of.value;
  return std::find(all.begin(), all.end(), mover) != all.end();
}

}  // namespace fairlead
