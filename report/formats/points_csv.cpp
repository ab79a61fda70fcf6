#include "report/formats/points_csv.hpp"

#include <fmt/format.h>

#include "report/words/marks.hpp"

namespace fairlead::formats {

Solved<std::string> points_csv(const Dossier& dossier, const PointsFormat& format) {
  const Layout& layout = dossier.judged.rig.layout;
  std::vector<SurveyPoint> points;
  std::string comment = fmt::format("# marks to set out, layout of sha256 {}\n# order {}, unit {}\n", layout.sha256,
                                    keyword(format.order), keyword(format.unit));
  for (const SetOut& mark : dossier.setting_out->marks) {
    if (mark.point.at)
      points.push_back({.id = mark.point.id, .at = *mark.point.at, .description = words::mark_of(layout, mark.point)});
    else
      comment += "# the rest mark has no place: the main line is not solved\n";
  }
  auto text = points_text(points, format);
  if (!text) return text;
  return comment + *text;
}

}  // namespace fairlead::formats
