// How whole a mesh is. Nothing of it changes a distance: every triangle counts as it stands, whatever is about it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "geometry/sites/items.hpp"

namespace fairlead::sites {

/// What is seen at the edges, where corners of equal coordinates are one.
struct Edges {
  std::uint32_t open{};          ///< with one triangle: the rim of a terrain, or of a hole
  std::uint32_t non_manifold{};  ///< with more than two
  std::uint32_t inverted{};      ///< whose two triangles run along them the same way: they face to different sides
  std::uint32_t duplicate{};     ///< triangles whose corners another one before them has
};

struct Soundness {
  std::uint32_t items{};           ///< triangles or points
  std::uint32_t flat{};            ///< triangles without an area; used as the segments or points they are
  std::uint32_t fanned{};          ///< polygons of more than three corners, used as fans from their first
  std::uint32_t loose_vertices{};  ///< of no triangle; left out
  std::optional<Edges> edges;      ///< none: not looked at, for the mesh is too large or a cloud
  std::vector<std::string> notes;  ///< what else of the file was not used
};

Edges edges_of(const Items&);

}  // namespace fairlead::sites
