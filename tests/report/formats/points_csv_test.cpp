#include "report/formats/points_csv.hpp"

#include <gtest/gtest.h>

#include "geometry/checks/check.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

Dossier set_out(const Layout& layout) {
  Dossier dossier{Judged{solve(layout), {}}};
  dossier.setting_out = setting_out(dossier.judged.rig);
  return dossier;
}

// Tolerance: the 0.05 mm a points file promises.
TEST(PointsCsv, ReadsBackAsTheSameMarksInEveryOrderAndUnit) {
  for (const std::string& file : shipped_layouts()) {
    const Dossier dossier = set_out(shipped_layout(file));
    const auto& marks = dossier.setting_out->marks;
    for (const PointsOrder order : {PointsOrder::pnezd, PointsOrder::penzd, PointsOrder::named})
      for (const PointsUnit unit : {PointsUnit::m, PointsUnit::mm, PointsUnit::ft, PointsUnit::us_survey_ft}) {
        const PointsFormat format{.order = order, .unit = unit};
        const auto text = formats::points_csv(dossier, format);
        ASSERT_TRUE(text) << text.error().why;
        const auto points = read_points(*text, format);
        ASSERT_TRUE(points) << points.error().first.front().message;
        ASSERT_EQ(points->size(), marks.size()) << file;
        for (std::size_t i = 0; i < marks.size(); ++i) {
          EXPECT_EQ((*points)[i].id, marks[i].point.id);
          EXPECT_LE(norm((*points)[i].at - *marks[i].point.at), std::sqrt(3) * 0.5e-4 + 1e-9) << marks[i].point.id;
        }
      }
  }
}

TEST(PointsCsv, NamesAMarkThatHasNoPlaceAndLeavesItOut) {
  const Dossier dossier = set_out(demo_layout({{"main_line.tension", "'100 N'"}}));
  const PointsFormat format{.order = PointsOrder::named, .unit = PointsUnit::m};
  const auto text = formats::points_csv(dossier, format);
  ASSERT_TRUE(text) << text.error().why;
  EXPECT_NE(text->find("\n# the rest mark has no place: the main line is not solved\n"), std::string::npos) << *text;
  const auto points = read_points(*text, format);
  ASSERT_TRUE(points);
  EXPECT_EQ(points->size() + 1, dossier.setting_out->marks.size());
}

}  // namespace
}  // namespace fairlead
