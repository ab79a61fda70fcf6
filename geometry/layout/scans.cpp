#include "geometry/layout/scans.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "geometry/layout/digest.hpp"
#include "geometry/quantity/units.hpp"

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
    const auto format = format_of(scan.file->value);
    if (!format)
      return errors_.add(scan.file->place,
                         fmt::format("{}: what kind of file \"{}\" is does not show", who, scan.file->value),
                         "its name ends in .stl, .ply, .obj or .xyz");
    const std::string path = (directory_ / scan.file->value).generic_string();
    if (!source_) return errors_.add(scan.file->place, fmt::format("{}: no file can be read from here", who));
    const sites::Description description{
        .format = *format,
        .placement = sites::placed(scan.origin ? scan.origin->value : Point3{}, scan.turned_rad,
                                   find_unit(keyword(scan.unit->value), Dimension::length)->to_si),
        .point_radius_m = scan.radius_m ? scan.radius_m->value : 0};
    auto site = source_(path, description, work_);
    if (!site) return refuse(scan, who, path, site.error());
    if (!(*site)->is_cloud() && scan.radius_m)
      return errors_.add(scan.radius_m->place, fmt::format("{}: a scan of triangles has a surface of its own", who),
                         "leave \"radius\" out");
    scan.site = std::move(*site);
    digests_ += digest_of(scan.site->bytes(), work_);
  }

  std::string digests() const { return digests_; }

 private:
  void refuse(const Structure& scan, const std::string& who, const std::string& path, const sites::ReadErrors& all) {
    for (const sites::ReadError& error : all.first) {
      const bool of_all = error.line == 0 && error.offset == 0 && error.instead.empty();
      errors_.add(scan.file->place, fmt::format("{}: {}{}: {}", who, path, place_in(error), error.message),
                  of_all ? "its path is that from the layout's directory" : error.instead);
    }
    if (all.more > 0) errors_.add(scan.file->place, fmt::format("{}: {}: {} errors more", who, path, all.more));
  }

  std::filesystem::path directory_;
  const ScanSource& source_;
  const Work& work_;
  Errors& errors_;
  std::string digests_;
};

}  // namespace

std::string open_scans(Layout& layout, const std::string& layout_name, const ScanSource& source, const Work& work,
                       Errors& errors) {
  Scans scans(layout_name, source, work, errors);
  for (Structure& structure : layout.structures)
    if (structure.kind == StructureKind::scan) scans.open(structure);
  return scans.digests();
}

}  // namespace fairlead
