// What a crew sets out by, as it is printed.
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "geometry/checks/check.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const Style si{Units::si};

Dossier set_out(const Layout& layout) {
  Dossier dossier{Judged{solve(layout), {}}};
  dossier.setting_out = setting_out(dossier.judged.rig);
  return dossier;
}
const Dossier& demo() {
  static const Dossier dossier = set_out(demo_layout({{"sheave.R1.position", "[1349.14, 911.78, 331.35]"}}));
  return dossier;
}
const Dossier& spur() {
  static const Dossier dossier = set_out(shipped_layout("larch_spur.toml", {{"main_line.tension", "'18 kN'"}}));
  return dossier;
}
const Dossier& unsolved() {
  static const Dossier dossier = set_out(demo_layout({{"main_line.tension", "'100 N'"}}));
  return dossier;
}

double number(const Cell& cell) { return std::get<Quantity>(cell).si; }
std::string word(const Cell& cell) { return std::get<std::string>(cell); }
bool empty(const Cell& cell) { return std::holds_alternative<std::monostate>(cell); }
const std::vector<Cell>& row_of(const Table& table, const std::string& name, std::size_t column = 0) {
  for (const auto& row : table.rows)
    if (word(row[column]) == name) return row;
  throw std::runtime_error("no row " + name);
}
bool notes_say(const Table& table, const std::string& what) {
  return std::any_of(table.notes.begin(), table.notes.end(),
                     [&](const std::string& note) { return note.find(what) != std::string::npos; });
}

TEST(SetOutPointsTable, GivesEveryMarkAsTheLayoutHasItAndAlongTheMainLine) {
  const Table table = tables::set_out_points(demo(), si);
  const Layout& layout = demo().judged.rig.layout;
  EXPECT_EQ(table.headings[2], "east");
  for (const Anchor& anchor : layout.anchors) {
    const auto& row = row_of(table, anchor.id.value);
    const Point3 p = anchor.position;
    EXPECT_EQ((Vec3{number(row[2]), number(row[3]), number(row[4])}), (Vec3{p.x, p.y, p.z}));
  }
  // The demo's main line runs 0.8 east, 0.6 north from (1200, 800, 341.5).
  const auto& redirect = row_of(table, "R1");
  EXPECT_EQ(word(redirect[1]), "centre of the axle of sheave R1");
  const Point3 centre = layout.sheaves[0].position->value;
  const Table along = tables::line_offsets(demo(), si);
  const auto& offset = row_of(along, "R1");
  EXPECT_NEAR(number(offset[1]), 0.8 * (centre.x - 1200) + 0.6 * (centre.y - 800), 1e-9);
  EXPECT_NEAR(number(offset[2]), centre.z - 341.5, 1e-9);
  const double left_m = -0.6 * (centre.x - 1200) + 0.8 * (centre.y - 800);
  EXPECT_LT(left_m, -0.05) << "east of the plane is to the right, looking toward the landing";
  EXPECT_EQ(word(offset[4]), words::travel(-left_m, si) + " right");
  EXPECT_EQ(number(row_of(tables::check_places(demo()), "end of planned travel", 1)[5]), 188.0 + 15.0);
}

TEST(SetOutPointsTable, OfAFreeRedirectTellsTheEyeAndTheLengthOfTheLink) {
  const Table table = tables::set_out_points(spur(), si);
  EXPECT_EQ(word(row_of(table, "A3")[1]),
            "bearing point of anchor A3: where the load acts; eye of sheave R1, free on a link of 0.300 m");
  for (const auto& row : table.rows) EXPECT_NE(word(row[0]), "R1") << "it is not set out itself";
  EXPECT_TRUE(notes_say(table, "Datum: site grid, bolt S1"));
}

TEST(SetOutPointsTable, WithoutAMainLineTheRestMarkHasNoPlaceAndSaysWhy) {
  const Table table = tables::set_out_points(unsolved(), si);
  for (std::size_t column = 2; column < 5; ++column) EXPECT_TRUE(empty(row_of(table, "rest")[column]));
  EXPECT_TRUE(notes_say(table, "The rest mark's place is undetermined: "));
}

TEST(LineOffsetsTable, SaysWhichSideAndWhichWay) {
  const Table table = tables::line_offsets(demo(), si);
  const auto& redirect = row_of(table, "R1");
  EXPECT_NE(word(redirect[3]).find(" m upstream"), std::string::npos) << word(redirect[3]);
  EXPECT_NE(word(redirect[4]).find(" m right"), std::string::npos) << word(redirect[4]);
  EXPECT_NE(word(redirect[5]).find(" m above"), std::string::npos) << word(redirect[5]);
  const auto& rest = row_of(table, "rest");
  for (std::size_t column = 3; column < 6; ++column) EXPECT_EQ(word(rest[column]), "0.000 m") << "it is on the line";
  const auto& spur_rows = tables::line_offsets(spur(), si);
  EXPECT_EQ(word(row_of(spur_rows, "S1")[4]), "2.500 m left");
  EXPECT_EQ(word(row_of(spur_rows, "S2")[4]), "2.500 m right");
  EXPECT_EQ(word(row_of(spur_rows, "P2")[3]), "30.000 m downstream");
}

TEST(LineOffsetsTable, BeyondTheSupportsThereIsNoLineToMeasureFrom) {
  const Table table = tables::line_offsets(spur(), si);
  for (std::size_t column = 3; column < 6; ++column) EXPECT_TRUE(empty(row_of(table, "P0")[column]));
  EXPECT_TRUE(notes_say(table, "P0: it stands 7.000 m beyond the main line's upstream support."));
}

TEST(LineOffsetsTable, TellsWhatRangesLeaveOpen) {
  const Dossier open = set_out(demo_layout({{"main_line.tension", "['17 kN', '19 kN']"}}));
  EXPECT_TRUE(notes_say(tables::line_offsets(open, si), "What the layout leaves open of the line moves its height"));
  EXPECT_FALSE(notes_say(tables::line_offsets(demo(), si), "leaves open"));
}

// The words of a tie against the places of its marks: each tape is as long as the way between them.
TEST(TiesTable, EveryTapeIsAsLongAsTheWayBetweenItsTwoMarks) {
  for (const Dossier* dossier : {&demo(), &spur()}) {
    const Table table = tables::ties(*dossier, si);
    const auto& marks = dossier->setting_out->marks;
    const auto place = [&](const std::string& id) {
      for (const SetOut& mark : marks)
        if (mark.point.id == id) return *mark.point.at;
      throw std::runtime_error("no mark " + id);
    };
    for (const auto& row : table.rows)
      for (std::size_t column = 1; column < 4; ++column) {
        const std::string tape = word(row[column]), from = tape.substr(0, tape.find(' '));
        const double printed_m = std::stod(tape.substr(from.size() + 1));
        EXPECT_NEAR(printed_m, norm(place(word(row[0])) - place(from)), 0.5e-3 + 1e-9) << word(row[0]) << tape;
        EXPECT_LE(printed_m, 30.0005);
      }
    // Every mark has its row, or its note says why not.
    for (const SetOut& mark : marks) {
      const bool tied = std::any_of(table.rows.begin(), table.rows.end(),
                                    [&](const auto& row) { return word(row[0]) == mark.point.id; });
      EXPECT_NE(tied, notes_say(table, mark.point.id + " is not tied: ")) << mark.point.id;
    }
  }
  EXPECT_FALSE(tables::ties(spur(), si).rows.empty());
}

TEST(TiesTable, SaysTheSideOnWhichTheMarkStands) {
  const SettingOut& out = *spur().setting_out;
  const Table table = tables::ties(spur(), si);
  const Frame& frame = spur().judged.rig.frame;
  for (std::size_t i = 0; i < out.ties.size(); ++i) {
    if (!out.ties[i]) continue;
    const TiedMark& tied = *out.ties[i];
    const std::string side = word(row_of(table, out.marks[i].point.id)[4]);
    // From the foot of the plumb to the plane to the mark, in the words' direction.
    const Point3 foot = *out.marks[i].point.at - tied.height_m * tied.normal;
    const Vec3 off = *out.marks[i].point.at - foot;
    if (side.starts_with("above")) {
      EXPECT_GT(off.z, 0);
    }
    if (side.starts_with("below")) {
      EXPECT_LT(off.z, 0);
    }
    if (side.starts_with("left")) {
      EXPECT_GT(dot(off, frame.across), 0);
    }
    if (side.starts_with("right")) {
      EXPECT_LT(dot(off, frame.across), 0);
    }
    if (side.starts_with("downstream")) {
      EXPECT_GT(dot(off, frame.along), 0);
    }
    if (side.starts_with("upstream")) {
      EXPECT_LT(dot(off, frame.along), 0);
    }
  }
}

TEST(LevelsTable, RiseAndFallCountFromTheFirstAnchor) {
  const Table table = tables::levels(spur());
  const auto& anchors = spur().judged.rig.layout.anchors;
  const double bench = anchors[0].position.value.z;
  EXPECT_EQ(number(row_of(table, "P0")[1]), 0);
  EXPECT_NEAR(number(row_of(table, "P1")[1]), 5.3, 1e-9);
  EXPECT_TRUE(empty(row_of(table, "P1")[2]));
  EXPECT_NEAR(number(row_of(table, "P2")[2]), 5.2, 1e-9);
  EXPECT_TRUE(empty(row_of(table, "P2")[1]));
  EXPECT_NEAR(number(row_of(table, "landing platform")[2]), bench - 647.0, 1e-9);
  EXPECT_TRUE(notes_say(table, "Backsight to P0."));
}

TEST(StringingTable, MarksTheMeasuredRowAndShowsTheLayoutsOwnTensionThere) {
  const Table table = tables::stringing(spur());
  const auto& measured = row_of(table, "as measured", 1);
  EXPECT_NEAR(number(measured[0]), 273.15 + 12, 1e-9);
  EXPECT_NEAR(number(measured[3]), 18e3, 1e-6);
  EXPECT_EQ(std::count_if(table.rows.begin(), table.rows.end(), [](const auto& row) { return !word(row[1]).empty(); }),
            1);
  EXPECT_TRUE(notes_say(table, "its tension at the end"));
  EXPECT_TRUE(notes_say(table, "common practice, no source"));
}

TEST(StringingTable, OfRangesHasTheTightestAndTheSlackestLineOfEveryTemperature) {
  const Dossier open = set_out(demo_layout({{"main_line.tension", "['17 kN', '19 kN']"}}));
  const Table table = tables::stringing(open);
  ASSERT_EQ(table.rows.size() % 2, 0u);
  for (std::size_t i = 0; i < table.rows.size(); i += 2) {
    EXPECT_EQ(number(table.rows[i][0]), number(table.rows[i + 1][0]));
    EXPECT_TRUE(word(table.rows[i][1]).ends_with("tightest"));
    EXPECT_TRUE(word(table.rows[i + 1][1]).ends_with("slackest"));
    EXPECT_GT(number(table.rows[i][4]), number(table.rows[i + 1][4]));
    EXPECT_LT(number(table.rows[i][5]), number(table.rows[i + 1][5]));
  }
  EXPECT_NEAR(number(row_of(table, "as measured, tightest", 1)[3]), 19e3, 1e-6);
  EXPECT_NEAR(number(row_of(table, "as measured, slackest", 1)[3]), 17e3, 1e-6);
}

TEST(HandPullsTable, PullsOnHarderThanItLetsBackAndMoreTheFartherOut) {
  const Table table = tables::hand_pulls(spur(), si);
  ASSERT_EQ(table.rows.size(), 6u) << "both ways as measured, cold and warm";
  ASSERT_EQ(table.headings.size(), 5u);
  EXPECT_EQ(table.headings[2], "at travel 0.000 m");
  EXPECT_EQ(table.headings[3], "at travel 7.000 m");
  EXPECT_EQ(table.headings[4], "at travel 14.000 m");
  for (std::size_t i = 0; i < 6; i += 2) {
    EXPECT_EQ(word(table.rows[i][0]), word(table.rows[i + 1][0]));
    EXPECT_EQ(word(table.rows[i][1]), "let back");
    EXPECT_EQ(word(table.rows[i + 1][1]), "pulled on");
    for (std::size_t column = 2; column < 5; ++column) {
      EXPECT_LT(number(table.rows[i][column]), number(table.rows[i + 1][column]));
    }
    EXPECT_GT(number(table.rows[i][3]), number(table.rows[i][2]));
    EXPECT_GT(number(table.rows[i][4]), number(table.rows[i][3]));
  }
  const Table free = tables::hand_pulls(demo(), si);
  ASSERT_EQ(free.rows.size(), 3u);
  EXPECT_EQ(word(free.rows[0][1]), "held");
  EXPECT_TRUE(notes_say(free, "rolling is not in it"));
}

TEST(SheaveAxlesTable, BearsFromNorthByItsLeftEnd) {
  const Dossier level = set_out(demo_layout());
  const Table table = tables::sheave_axles(level), hung = tables::sheave_axles(spur());
  const auto& row = row_of(table, "R1");
  // Its axle is square to the main line, which runs 0.8 east, 0.6 north: the left end points 0.6 west, 0.8 north.
  EXPECT_NEAR(number(row[4]), 2 * std::numbers::pi - std::atan2(0.6, 0.8), 1e-9);
  EXPECT_NEAR(number(row[5]), 0, 1e-9);
  const auto& free = row_of(hung, "R1");
  EXPECT_TRUE(empty(free[4]) && empty(free[5])) << "what hangs free turns itself";
}

TEST(SettingOutTables, OfWhatIsNotSolvedSayWhyAndShowNoNumber) {
  for (const Table& table : {tables::stringing(unsolved()), tables::hand_pulls(unsolved(), si)}) {
    EXPECT_TRUE(table.rows.empty()) << table.title;
    ASSERT_EQ(table.notes.size(), 1u) << table.title;
    EXPECT_TRUE(table.notes[0].starts_with("Undetermined: ")) << table.notes[0];
  }
  const Table offsets = tables::line_offsets(unsolved(), si);
  for (const auto& row : offsets.rows) EXPECT_TRUE(empty(row[5])) << word(row[0]);
}

TEST(SettingOutTables, AreEmptyBeforeTheyAreAskedFor) {
  const Dossier dossier{Judged{solve(demo_layout()), {}}};
  for (const Table& table : {tables::line_offsets(dossier, si), tables::ties(dossier, si), tables::levels(dossier),
                             tables::stringing(dossier), tables::hand_pulls(dossier, si)})
    EXPECT_TRUE(table.rows.empty() && table.notes.empty()) << table.title;
}

}  // namespace
}  // namespace fairlead
