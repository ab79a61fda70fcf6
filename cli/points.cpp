#include "cli/points.hpp"

#include <optional>

#include "cli/options.hpp"

namespace fairlead::cli {
namespace {

/// Which of several words was written; nothing where none was.
template <class Value>
std::optional<Value> choice(const std::string& written, std::initializer_list<std::pair<const char*, Value>> all) {
  for (const auto& [word, value] : all)
    if (written == word) return value;
  return std::nullopt;
}

}  // namespace

PointsFormat points_format(const std::string& order, const std::string& unit) {
  const auto by_order = choice<PointsOrder>(
      order, {{"pnezd", PointsOrder::pnezd}, {"penzd", PointsOrder::penzd}, {"named", PointsOrder::named}});
  // A shell's words have no blanks, as the layout's for the survey foot does.
  const auto in_unit = choice<PointsUnit>(unit, {{"m", PointsUnit::m},
                                                 {"mm", PointsUnit::mm},
                                                 {"ft", PointsUnit::ft},
                                                 {"us_survey_ft", PointsUnit::us_survey_ft}});
  if (!by_order || !in_unit)
    throw Unusable{
        "error: a points file needs --order (pnezd, penzd or named) and --unit (m, mm, ft or "
        "us_survey_ft): neither can be told from its numbers\n"};
  return PointsFormat{.order = *by_order, .unit = *in_unit};
}

}  // namespace fairlead::cli
