// What the tables tell of a reduction: 2:1 on a support line.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/layout/read.hpp"
#include "report/tables/tables.hpp"
#include "report/words/states.hpp"

namespace fairlead {
namespace {

const Style si{Units::si}, us{Units::us};

const Dossier& reduced() {
  static const Dossier dossier = [] {
    auto layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/marten_ridge.toml");
    if (!layout) throw std::runtime_error(print(layout.error().front()));
    return Dossier{Judged{solve(std::move(*layout)), {}}};
  }();
  return dossier;
}
const Rig& rig() { return reduced().judged.rig; }

double number(const Cell& cell) { return std::get<Quantity>(cell).si; }
std::string words(const Cell& cell) { return std::get<std::string>(cell); }
bool is_empty(const Cell& cell) { return std::holds_alternative<std::monostate>(cell); }

TEST(ReductionTable, ExtensionGrowsBetweenTravelsAsTheRatiosAtBothSay) {
  const Table table = tables::reduction(reduced(), si);
  ASSERT_EQ(table.headings.size(), 9u) << "empty and heaviest, cold and warm";
  ASSERT_GE(table.rows.size(), 5u);
  for (std::size_t column = 1; column < 9; column += 2)
    for (std::size_t i = 1; i < table.rows.size(); ++i) {
      const double travelled_m = std::stod(words(table.rows[i][0])) - std::stod(words(table.rows[i - 1][0]));
      const double paid_out_m = number(table.rows[i][column]) - number(table.rows[i - 1][column]);
      // The ratio falls all along toward the nominal one, so the mean lies between those at both ends; the travels are
      // printed to half a millimetre.
      const double mean = travelled_m / paid_out_m, slack = 1e-3 / travelled_m * mean;
      EXPECT_LE(mean, number(table.rows[i - 1][column + 1]) + slack);
      EXPECT_GE(mean, number(table.rows[i][column + 1]) - slack);
      EXPECT_GT(number(table.rows[i][column + 1]), 2) << "never below nominal: the legs spread toward the trolley";
    }
  EXPECT_TRUE(table.notes.front().starts_with("Nominal ratio 2:1."));
}

TEST(ContactPoints, FollowEveryLineFromEndToEnd) {
  const Table table = tables::contact_points(reduced(), tables::Position::rest, si);
  const std::vector<std::string> points = {"brake trolley",  "sheave R1, on",     "sheave R1, off", "sheave R2, on",
                                           "sheave R2, off", "anchor A3",         "block K1",       "brake unit",
                                           "anchor A4",      "wheel of block K1", "anchor A5"};
  ASSERT_EQ(table.rows.size(), points.size());
  for (std::size_t i = 0; i < points.size(); ++i) {
    EXPECT_EQ(words(table.rows[i][0]), std::to_string(i + 1));
    EXPECT_EQ(words(table.rows[i][2]), points[i]);
    if (is_empty(table.rows[i][6])) continue;
    const auto at = [&](std::size_t row) {
      return Point3{number(table.rows[row][3]), number(table.rows[row][4]), number(table.rows[row][5])};
    };
    const Vec3 chord = at(i + 1) - at(i);
    const double chord_m = norm(chord), sag_m = number(table.rows[i][7]);
    EXPECT_GE(number(table.rows[i][6]), chord_m) << "a hanging leg is longer than its chord";
    // Parabola: longer by 8/3 of the sag square to the chord, squared, over the chord. These are shallow; the steepest
    // differs by less than a hundredth of that.
    const double square_m = sag_m * std::hypot(chord.x, chord.y) / chord_m;
    const double longer_m = 8.0 / 3 * square_m * square_m / chord_m;
    EXPECT_NEAR(number(table.rows[i][6]) - chord_m, longer_m, 0.01 * longer_m);
  }
  for (const std::size_t end : {1u, 3u, 5u, 7u, 10u}) EXPECT_TRUE(is_empty(table.rows[end][6]));
}

TEST(ContactPoints, OfFullTravelAreThoseOfTheHeaviestRiderAtTheUnitsPeak) {
  const Table rest = tables::contact_points(reduced(), tables::Position::rest, si),
              full = tables::contact_points(reduced(), tables::Position::full_travel, si);
  EXPECT_TRUE(full.notes.front().starts_with("heaviest rider, cold, peak line tension, travel 14.000 m"));
  EXPECT_GT(number(full.rows[0][6]), number(rest.rows[0][6]) + 13) << "the first leg grew by the travel";
  EXPECT_LT(number(full.rows[2][6]), number(rest.rows[2][6]) - 6) << "and the block came closer by half of it";
}

TEST(Blocks, RunUpstreamByTheTravelOverTheRatio) {
  const Table table = tables::blocks(reduced(), si);
  ASSERT_EQ(table.rows.size(), 1u);
  const auto& row = table.rows[0];
  EXPECT_EQ(words(row[0]), "K1");
  EXPECT_EQ(words(row[1]), "S1");
  const auto rest = *tables::rest_pose(rig()), full = *tables::full_pose(rig());
  EXPECT_EQ(number(row[2]), rig().frame.chainage_m(rest.sweep->blocks[rest.index].placement.at));
  EXPECT_EQ(number(row[4]), rig().frame.chainage_m(full.sweep->blocks[full.index].placement.at));
  EXPECT_EQ(number(row[6]), rig().loads.solved()->blocks[0].force_N.value);
  const Table set_out = tables::check_places(reduced());
  EXPECT_TRUE(std::any_of(set_out.rows.begin(), set_out.rows.end(), [&](const auto& point) {
    return words(point[0]) == "block K1" && number(point[5]) == number(row[2]);
  }));
}

// Anchors at one height: a shallow line sags w L2 / 8 H, w its weight per stretched metre; off by (16/3)(sag/L)2 of
// itself at most.
TEST(SupportLines, BareSagAndTensionAreThoseOfOneParabola) {
  const Table table = tables::support_lines(reduced());
  ASSERT_EQ(table.rows.size(), 2u);
  const SupportLine& given = rig().layout.support_lines[0];
  const Point3 from = rig().layout.anchors[static_cast<std::size_t>(given.from)].position,
               to = rig().layout.anchors[static_cast<std::size_t>(given.to)].position;
  const double L = norm(to - from);
  for (const auto& row : table.rows) {
    const double stretched = 1 + number(row[2]) / given.ea_N->value;
    const double sag_m = 9.80665 * given.mass_kg_per_m / stretched * L * L / (8 * number(row[2]));
    EXPECT_NEAR(number(row[3]), sag_m, 16.0 / 3 * sag_m * sag_m / (L * L) * sag_m);
    EXPECT_GT(number(row[5]), number(row[3])) << "the block draws it down";
    EXPECT_GT(number(row[4]), number(row[2])) << "and tightens it";
  }
  EXPECT_GT(number(table.rows[0][2]), number(table.rows[1][2])) << "colder is tighter";
}

TEST(LineSchedule, TellsBothKindsOfLinesAndWhatTheyRunOver) {
  const Table table = tables::lines(reduced()), lengths = tables::line_lengths(reduced());
  ASSERT_EQ(table.rows.size(), 3u);
  EXPECT_EQ(words(table.rows[0][5]), "brake trolley, R1, R2, A3");
  EXPECT_EQ(words(table.rows[1][5]), "K1, brake unit");
  EXPECT_EQ(words(table.rows[2][5]), "A4, K1, A5");
  EXPECT_EQ(words(table.rows[2][1]), "support line");
  EXPECT_TRUE(is_empty(lengths.rows[2][4]) && is_empty(lengths.rows[2][5])) << "no tails, no length to cut to";
  for (std::size_t i = 0; i < 3; ++i)
    EXPECT_EQ(number(lengths.rows[i][1]), rig().reeving.solved()->finished_length_m[i]);
}

TEST(LineTensions, NameTheCaseOfTheWorst) {
  const Table table = tables::line_tensions(reduced(), si);
  const loads::Loads& loads = *rig().loads.solved();
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(number(table.rows[i][2]), loads.lines[i].tension_N.value);
    const loads::LoadCase& worst = loads.cases[static_cast<std::size_t>(loads.lines[i].tension_N.pose)];
    const std::string note = "Case " + words(table.rows[i][6]) + ": " + tables::case_name(worst, si) + ".";
    EXPECT_NE(std::find(table.notes.begin(), table.notes.end(), note), table.notes.end()) << note;
  }
}

TEST(LoadCases, AreToldAlongAcrossAndUpAndWithTheTravelInTheShownUnits) {
  const Table cases = tables::load_cases(reduced(), us), table = tables::loads_by_case(reduced());
  const loads::Loads& loads = *rig().loads.solved();
  const std::size_t anchors = rig().layout.anchors.size();
  ASSERT_EQ(cases.rows.size(), loads.cases.size());
  ASSERT_EQ(table.rows.size(), loads.cases.size() * anchors);
  for (std::size_t c = 0; c < loads.cases.size(); ++c) {
    EXPECT_EQ(words(cases.rows[c][1]), words::word_for(loads.cases[c].action));
    EXPECT_EQ(words(cases.rows[c][2]), tables::case_name(loads.cases[c], us));
    EXPECT_EQ((words(cases.rows[c][2]) + ",").find(" m,"), std::string::npos) << "no metres";
    EXPECT_EQ(words(table.rows[c * anchors][0]), words(cases.rows[c][0])) << "one number names a case in both";
    for (std::size_t a = 0; a < anchors; ++a) {
      const auto& row = table.rows[c * anchors + a];
      const Vec3 on =
          number(row[2]) * rig().frame.along + number(row[3]) * rig().frame.across + number(row[4]) * rig().frame.up;
      EXPECT_NEAR(norm(on - loads.cases[c].on_anchor_N[a]), 0, 1e-9 * loads.cases[c].largest_N);
      EXPECT_NEAR(number(row[5]), norm(on), 1e-9 * loads.cases[c].largest_N);
    }
  }
}

TEST(Clearances, AreToldNearestFirstAndNoneIsLeftOut) {
  const Table table = tables::clearances(reduced(), si);
  const clearance::Clearances& found = *rig().clearance.solved();
  ASSERT_EQ(table.rows.size(), found.gaps.size());
  for (std::size_t i = 1; i < table.rows.size(); ++i) EXPECT_GE(number(table.rows[i][2]), number(table.rows[i - 1][2]));
  for (const auto& row : table.rows) EXPECT_LE(number(row[3]), number(row[2])) << "a bound stands below its value";
  EXPECT_EQ(tables::exclusions(reduced(), si).rows.size(), found.excluded.size());
}

TEST(NamedInstants, TellTheWorstWindOfEveryPassage) {
  const Table table = tables::named_instants(reduced(), si);
  const clearance::Clearances& found = *rig().clearance.solved();
  std::size_t under = 0;
  double least_m = std::numeric_limits<double>::infinity(), told_m = least_m;
  for (const auto& row : table.rows) {
    if (words(row[0]) != "under sheave R1") continue;
    ++under;
    told_m = std::min(told_m, number(row[4]));
  }
  EXPECT_EQ(under, 2u) << "the lightest rider cold, the heaviest warm";
  for (const clearance::Passing& passing : found.passings)
    if (passing.other.kind == clearance::Thing::Kind::sheave && !passing.gaps.empty())
      least_m = std::min(least_m, passing.gaps.front().least_m.value);
  EXPECT_EQ(told_m, least_m);
  EXPECT_TRUE(std::any_of(table.rows.begin(), table.rows.end(),
                          [](const auto& row) { return words(row[0]) == "passing block K1"; }));
  EXPECT_EQ(words(table.rows.back()[0]), "hands beside the brake trolley");
}

TEST(Names, OfThingsAndPassagesAreThoseOfTheLayout) {
  using Kind = clearance::Thing::Kind;
  EXPECT_EQ(tables::thing(rig(), {Kind::frame, 0}), "frame of sheave R1");
  EXPECT_EQ(tables::thing(rig(), {Kind::line, 2}), "support line S1");
  EXPECT_EQ(tables::sheave_name(rig(), 2), "wheel of block K1");
  const auto& sweeps = rig().reeving.inputs->sweeps;
  int left = 0, right = 0;
  for (std::size_t s = 0; s < sweeps.size(); ++s) {
    const std::string name = tables::passage(rig(), static_cast<int>(s));
    left += name.ends_with(", wind to the left");
    right += name.ends_with(", wind to the right");
    EXPECT_EQ(name.find("wind") == std::string::npos, sweeps[s].wind_Pa == Vec3{}) << name;
  }
  EXPECT_EQ(left, right);
  EXPECT_GT(left, 0);
}

}  // namespace
}  // namespace fairlead
