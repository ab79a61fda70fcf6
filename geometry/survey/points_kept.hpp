// Points files of a whole slope, of which a rig has a few points: every line is read and judged, few are kept.
#pragma once

#include <functional>
#include <string_view>

#include "geometry/survey/points_file.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead {

/// Ten million points have 360 MB.
inline constexpr std::size_t largest_survey_file = std::size_t{512} * 1024 * 1024;
/// Of points that are not wanted the first so many are kept, to be named.
inline constexpr std::size_t most_unwanted = 1000;

struct PointsRead {
  std::vector<SurveyPoint> points;  ///< in the order of the file
  std::size_t left_out = 0;         ///< so many more stand in it
};

/// As read_points, of a file up to largest_survey_file: the same is refused in the same words, and kept are the wanted
/// points alone. Besides the text it takes 10 to 20 bytes a line. Throws Cancelled.
tl::expected<PointsRead, PointsErrors> read_wanted_points(std::string_view text, const PointsFormat&,
                                                          const std::function<bool(std::string_view id)>& wanted,
                                                          const Work&);

}  // namespace fairlead
