#include "geometry/layout/points_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>

#include "geometry/layout/suggest.hpp"

namespace fairlead {

void PointsTable::read(const PointsFile& wanted) {
  state_ = State::unsound;
  path_ = (std::filesystem::path(layout_name_).parent_path() / wanted.file.value).generic_string();
  auto bytes = source_ ? source_(path_) : tl::unexpected<FileRefused>(FileRefused{"no file can be read from here", ""});
  if (!bytes) {
    const std::string& instead = bytes.error().instead;
    errors_.add(wanted.file.place, fmt::format("points: \"{}\": {}", path_, bytes.error().message),
                instead.empty() ? "its path is that from the layout's directory" : instead);
    return;
  }
  bytes_ = std::move(*bytes);
  errors_.add_points_file(path_, bytes_);
  auto points = read_points(bytes_, {.order = wanted.order,
                                     .unit = wanted.unit,
                                     .target_offset_m = wanted.target_offset_m ? wanted.target_offset_m->value : 0});
  if (!points) return errors_.add(points.error());
  points_ = std::move(*points);
  state_ = State::known;
}

const SurveyPoint* PointsTable::find(const std::string& id, Place place, const std::string& who) {
  const auto found = std::find_if(points_.begin(), points_.end(), [&](const SurveyPoint& p) { return p.id == id; });
  if (found != points_.end()) {
    named_.insert(id);
    errors_.measure({points_file, found->line, 1}, ~0u);
    return &*found;
  }
  // Among more points a search for the nearest would take longer than the reader's patience.
  constexpr std::size_t most_searched = 10000;
  std::vector<std::string> ids;
  if (points_.size() <= most_searched)
    for (const SurveyPoint& point : points_) ids.push_back(point.id);
  errors_.add(place, fmt::format("{}: there is no point \"{}\" in {}", who, id, path_), did_you_mean(id, ids));
  return nullptr;
}

std::vector<SurveyPoint> PointsTable::unnamed() const {
  std::vector<SurveyPoint> rest;
  std::copy_if(points_.begin(), points_.end(), std::back_inserter(rest),
               [&](const SurveyPoint& point) { return !named_.contains(point.id); });
  return rest;
}

}  // namespace fairlead
