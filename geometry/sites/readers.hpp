// Files of triangles and of points: STL, PLY, OBJ, XYZ. What a file says of other things (normals, colours, materials,
// textures) is passed over; what it says of surfaces or points and can not be used is an error or told in `notes`.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "geometry/sites/items.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::sites {

/// stl: binary or ASCII, told apart by the length. ply: ASCII or binary of either byte order; without faces a cloud.
/// obj: polygons; lines and points as flat triangles. xyz: a point a line, a cloud.
enum class Format { stl, ply, obj, xyz };

constexpr std::string_view keyword(Format format) {
  return format == Format::stl ? "stl" : format == Format::ply ? "ply" : format == Format::obj ? "obj" : "xyz";
}

/// A place of a text is its line, from 1; one of binary data its offset in bytes, where the line is 0.
struct ReadError {
  std::size_t line{}, offset{};
  std::string message, instead;
};

/// Errors in the order of the file, after the first twenty only their number.
struct ReadErrors {
  std::vector<ReadError> first;
  std::size_t more = 0;
};

struct ReadLimits {
  std::size_t most_bytes = std::size_t{1} << 30;
  std::uint32_t most_items = 20'000'000;  ///< triangles or points; vertices too
  double farthest = 1e6;                  ///< no coordinate is believed beyond, in the file's unit
};

/// What a file holds. Items stand in its bytes where those can be used as they are, else in arrays of the mesh's own.
struct Mesh {
  Items items;
  std::uint32_t fanned{};          ///< polygons of more than three corners, each a fan of triangles from its first
  std::uint32_t loose_vertices{};  ///< no triangle's; left out
  std::vector<std::string> notes;  ///< what else was left out

  std::vector<double> coordinates;
  std::vector<std::uint32_t> indices;
  Mesh() = default;
  Mesh(Mesh&&) = default;
  Mesh& operator=(Mesh&&) = default;
};

using ReadMesh = tl::expected<Mesh, ReadErrors>;

/// At least one item; every index is a vertex. Coordinates that stand in the file's bytes are not looked at: the
/// tree does, which sees them all anyway. Others are known and no farther out than allowed. `bytes` must outlive the
/// mesh.
ReadMesh read_mesh(std::span<const std::byte> bytes, Format, const ReadLimits& = {}, const Work& = {});

/// Where coordinates of a mesh in place are unknown or too far out.
ReadErrors astray(const Mesh&, std::span<const std::byte> bytes, const ReadLimits&);

/// "the file has 2000000000 bytes, and a site at most 1073741824"
std::string site_file_too_large(std::size_t bytes, const ReadLimits&);

ReadMesh read_stl(std::span<const std::byte> bytes, const ReadLimits&, const Work&);
ReadMesh read_ply(std::span<const std::byte> bytes, const ReadLimits&);
ReadMesh read_obj(std::string_view text, const ReadLimits&);
ReadMesh read_xyz(std::string_view text, const ReadLimits&);

}  // namespace fairlead::sites
