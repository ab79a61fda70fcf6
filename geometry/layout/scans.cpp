#include "geometry/layout/scans.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "geometry/layout/digest.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/solids/few_corners.hpp"

namespace fairlead {
namespace {

std::optional<sites::Format> format_of(const std::string& file) {
  std::string ending = std::filesystem::path(file).extension().string();
  for (char& c : ending)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  for (const sites::Format format : {sites::Format::stl, sites::Format::ply, sites::Format::obj, sites::Format::xyz})
    if (ending == fmt::format(".{}", sites::keyword(format))) return format;
  return std::nullopt;
}

std::string place_in(const sites::ReadError& error) {
  if (error.line > 0) return fmt::format(":{}", error.line);
  return error.offset > 0 ? fmt::format(", byte {}", error.offset) : "";
}

class Scans {
 public:
  Scans(const std::string& layout_name, const ScanSource& source, const Work& work, Errors& errors)
      : directory_(std::filesystem::path(layout_name).parent_path()), source_(source), work_(work), errors_(errors) {}

  void open(Structure& scan) {
    const std::string who = fmt::format("structure \"{}\"", scan.id.value);
    const sites::Description description{.placement = sites::placed(scan.origin ? scan.origin->value : Point3{},
                                                                    scan.turned_rad, metres_of(scan.unit->value)),
                                         .point_radius_m = scan.radius_m ? scan.radius_m->value : 0};
    auto site = open(*scan.file, who, description);
    if (!site) return;
    if (!site->is_cloud() && scan.radius_m)
      return errors_.add(scan.radius_m->place, fmt::format("{}: a scan of triangles has a surface of its own", who),
                         "leave \"radius\" out");
    scan.site = std::move(site);
  }

  // Nothing of the file is needed but the hull of what it holds. A hull of many corners is slow to move, and what lies
  // within a few millimetres of it takes as much from every gap.
  void open(RiderBody& body) {
    constexpr double within_m = 2e-3, farthest_m = 10;
    constexpr std::size_t most_corners = 48;
    const std::string who = "riders body";
    const auto site = open(body.file, who,
                           {.placement = sites::placed({}, 0, metres_of(body.unit)),
                            .point_radius_m = 1,
                            .edges_up_to = 0,
                            .most_items = 200'000});
    if (!site) return;
    if (site->is_cloud())
      return errors_.add(body.file.place, who + ": the file holds points, and a body is of triangles");
    std::vector<Vec3> points;
    for (std::uint32_t item = 0; item < site->soundness().items; ++item)
      for (const Point3& corner : site->corners(item)) points.push_back(corner - Point3{});
    if (std::any_of(points.begin(), points.end(), [](const Vec3& p) { return !(norm(p) <= farthest_m); }))
      return errors_.add(
          body.file.place,
          fmt::format("{}: {} reaches farther than {} m from the wheel", who, body.file.value, farthest_m),
          "its zero is the rider trolley's wheel; is its \"unit\" right?");
    solids::FewCorners few = solids::few_corners(points, within_m, most_corners);
    body.corners = std::make_shared<const std::vector<Vec3>>(std::move(few.corners));
    body.beyond_m = few.beyond_m;
    if (!site->unchanged())
      errors_.add(body.file.place, fmt::format("{}: {} was written while it was read", who, body.file.value),
                  "run again once it is whole");
  }

  std::string digests() const { return digests_; }

 private:
  static double metres_of(PointsUnit unit) { return find_unit(keyword(unit), Dimension::length)->to_si; }

  std::shared_ptr<const sites::Site> open(const Words& file, const std::string& who, sites::Description description) {
    const auto format = format_of(file.value);
    const std::string path = (directory_ / file.value).generic_string();
    if (!format)
      errors_.add(file.place, fmt::format("{}: what kind of file \"{}\" is does not show", who, file.value),
                  "its name ends in .stl, .ply, .obj or .xyz");
    else if (!source_)
      errors_.add(file.place, fmt::format("{}: no file can be read from here", who));
    if (!format || !source_) return nullptr;
    description.format = *format;
    auto site = source_(path, description, work_);
    if (!site) {
      refuse(file, who, path, site.error());
      return nullptr;
    }
    digests_ += digest_of((*site)->bytes(), work_);
    return std::move(*site);
  }

  void refuse(const Words& file, const std::string& who, const std::string& path, const sites::ReadErrors& all) {
    for (const sites::ReadError& error : all.first) {
      const bool of_all = error.line == 0 && error.offset == 0 && error.instead.empty();
      errors_.add(file.place, fmt::format("{}: {}{}: {}", who, path, place_in(error), error.message),
                  of_all ? "its path is that from the layout's directory" : error.instead);
    }
    if (all.more > 0) errors_.add(file.place, fmt::format("{}: {}: {} errors more", who, path, all.more));
  }

  std::filesystem::path directory_;
  const ScanSource& source_;
  const Work& work_;
  Errors& errors_;
  std::string digests_;
};

}  // namespace

std::string open_scans(Layout& layout, const Unsound& unsound, const std::string& layout_name, const ScanSource& source,
                       const Work& work, Errors& errors) {
  Scans scans(layout_name, source, work, errors);
  if (!unsound.contains("structure"))
    for (Structure& structure : layout.structures)
      if (structure.kind == StructureKind::scan) scans.open(structure);
  if (!unsound.contains("riders") && layout.riders.body) scans.open(*layout.riders.body);
  return scans.digests();
}

}  // namespace fairlead
