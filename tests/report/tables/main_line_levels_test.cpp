// The main line by chainage: levels as they were solved, at round chainages of the style's unit.
#include <gtest/gtest.h>

#include <cmath>

#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

using mainline::Loading;

double number(const Cell& cell) { return std::get<Quantity>(cell).si; }

Dossier solved(const std::string& file, const std::vector<Override>& overrides = {}) {
  return Dossier{Judged{solve(shipped_layout(file, overrides)), {}}};
}

// Its ends are the supports as the layout has them; between them whole steps of 10 m or 50 ft: 200 m are 656 ft.
TEST(MainLineLevels, RunFromSupportToSupportByRoundChainages) {
  const Dossier dossier = solved("larch_spur.toml");
  const Layout& layout = dossier.judged.rig.layout;
  const auto up = [&](AnchorId id) { return layout.anchors[static_cast<std::size_t>(id)].position.value.z; };
  for (const auto& [units, step_m, rows] : {std::tuple(Units::si, 10.0, 21u), {Units::us, 50 * words::foot_m, 15u}}) {
    const Table table = tables::main_line_levels(dossier, Style{units});
    ASSERT_EQ(table.rows.size(), rows);
    for (std::size_t column = 1; column < 4; ++column) {
      EXPECT_NEAR(number(table.rows.front()[column]), up(layout.main_line.from), 1e-9);
      EXPECT_NEAR(number(table.rows.back()[column]), up(layout.main_line.to), 1e-9);
    }
    for (std::size_t row = 1; row + 1 < table.rows.size(); ++row)
      EXPECT_NEAR(number(table.rows[row][0]), static_cast<double>(row) * step_m, 1e-9);
    EXPECT_TRUE(std::holds_alternative<std::monostate>(table.rows.front()[4])) << "no wheel is solved at a support";
  }
}

// Found again by going through the states: the least and the greatest of what each has there.
TEST(MainLineLevels, EncloseEveryStateAndAreReachedByOne) {
  const Dossier dossier = solved("larch_spur.toml");
  const Rig& rig = dossier.judged.rig;
  const mainline::MainLine& line = *rig.main_line.solved();
  for (const auto& row : tables::main_line_levels(dossier, Style{}).rows) {
    const double x_m = std::min(number(row[0]) - rig.frame.chainage_of_origin_m, rig.frame.span_m);
    const auto encloses = [&](const Cell& high, const Cell& low, const std::vector<double>& all) {
      double above = INFINITY, beneath = INFINITY;
      for (const double z_m : all) {
        above = std::min(above, number(high) - rig.frame.origin.z - z_m);
        beneath = std::min(beneath, rig.frame.origin.z + z_m - number(low));
      }
      EXPECT_NEAR(above, 0, 1e-9);
      EXPECT_NEAR(beneath, 0, 1e-9);
    };
    std::vector<double> bare, rider;
    for (const auto& state : line.states) bare.push_back(line_at(state.cable, state.bare, x_m).z_m);
    for (const auto& path : line.paths)
      if (path.loading == Loading::heaviest) rider.push_back(path.path.height_m(x_m));
    encloses(row[2], row[3], bare);
    if (!std::holds_alternative<std::monostate>(row[4])) {
      encloses(row[4], row[5], rider);
      EXPECT_LT(number(row[4]), number(row[2])) << "a rider hangs below the bare line";
      EXPECT_LT(number(row[2]), number(row[1])) << "and that below its chord";
    }
  }
}

TEST(MainLineLevels, SayWhyThereAreNone) {
  const Table table = tables::main_line_levels(solved("heron_gully.toml", {{"main_line.tension", "100 N"}}), Style{});
  EXPECT_TRUE(table.rows.empty());
  ASSERT_EQ(table.notes.size(), 1u);
  EXPECT_EQ(table.notes[0], "Undetermined: the main line's own weight needs more than the measured tension");
}

}  // namespace
}  // namespace fairlead
