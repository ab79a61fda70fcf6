// Any bytes are points that read back as they are written, or are refused in words at a place of the text. The first
// byte chooses order, unit and target offset.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <set>
#include <string>

#include "geometry/survey/points_kept.hpp"
#include "tests/fuzz/survey_errors.hpp"

using namespace fairlead;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const PointsFormat format{static_cast<PointsOrder>(data[0] % 3), static_cast<PointsUnit>(data[0] / 3 % 4),
                            data[0] / 12 % 2 == 1 ? 1.5 : 0};
  const std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
  const auto read = read_points(text, format);
  const auto kept = read_wanted_points(text, format, [](std::string_view id) { return id.size() % 2 == 0; }, {});
  require(kept.has_value() == read.has_value());
  if (read) require(kept->points.size() + kept->left_out == read->size());
  if (!read) {
    require(kept.error().first.size() == read.error().first.size() && kept.error().more == read.error().more);
    check_errors(read.error(), text);
    return 0;
  }
  require(!read->empty());
  std::set<std::string> ids;
  for (const SurveyPoint& point : *read) require(!point.id.empty() && ids.insert(point.id).second);
  // A column of offsets moves each elevation by its own; the farthest of them may then lie too far out to be written.
  const auto written = points_text(*read, format);
  if (!written) {
    require(std::any_of(read->begin(), read->end(), [](const SurveyPoint& p) { return std::abs(p.at.z) > 9.9e6; }));
    return 0;
  }
  const auto again = read_points(*written, format);
  require(again.has_value() && again->size() == read->size());
  for (std::size_t i = 0; i < read->size(); ++i) {
    const SurveyPoint &a = (*read)[i], &b = (*again)[i];
    require(a.id == b.id && a.description == b.description && norm(a.at - b.at) <= 1e-4);
  }
  return 0;
}
