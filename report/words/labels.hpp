// The fixed texts of the sheets, and files of pairs that put others in their place.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

#include "geometry/survey/points_file.hpp"

namespace fairlead::words {

/// Fixed texts of one kind: "Title block and frame".
struct LabelGroup {
  std::string_view name;
  std::span<const std::string_view> labels;
};
/// Every fixed text of the drawing set, in English as it stands on the sheets; {1}, {2} ... stand for what is put in.
/// Not among them: sentences that are made for one finding, one load case or one rig, beneath tables and in findings.
std::span<const LabelGroup> label_groups();

/// What a file of pairs says. A label it leaves out or leaves empty has no pair.
struct Pairs {
  std::string language;  ///< of ISO 639: "de"
  std::vector<std::pair<std::string, std::string>> pairs;
};

/// Reads a file of pairs: TOML, of which a line holds `language = "de"`, the heading [labels], or one pair of texts in
/// double quotes. `missing` names the first character of a text that the font lacks. All errors at once.
tl::expected<Pairs, PointsErrors> read_pairs(std::string_view text,
                                             const std::function<std::string(std::string_view)>& missing);

/// A whole file of pairs to start from, every text to be filled in.
std::string pairs_template();

}  // namespace fairlead::words
