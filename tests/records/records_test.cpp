// What is in date, what has wear left, what is still open; and that nothing passes by what nobody wrote down.
#include "geometry/records/records.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "geometry/records/columns_file.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

constexpr Date today{2026, 10, 30};

RegisteredPart part(std::string id) {
  return {.part = std::move(id),
          .serial = "S1",
          .batch = {},
          .in_service = Date{2024, 4, 12},
          .retire_by = Date{2034, 4, 12},
          .inspect_by = Date{2026, 12, 1}};
}

/// All the parts of the demo, in date, its unit's serial the layout's.
Layout unit_with_serial(const std::string& serial = "S1") {
  Layout layout = demo_layout();
  layout.brake_unit.serial = Words{serial, {}};
  return layout;
}
RecordsInput whole() {
  RecordsInput input;
  for (const std::string& id : parts_in_service(demo_layout())) input.parts.push_back(part(id));
  return input;
}
RegisteredPart& of(RecordsInput& input, std::string_view id) {
  return *std::ranges::find(input.parts, id, &RegisteredPart::part);
}

Records judged(RecordsInput input, std::optional<Date> date = today, const Layout& layout = unit_with_serial()) {
  auto records = judge_records(layout, date, std::move(input));
  if (records) return std::move(*records);
  std::string text;
  for (const PointsErrors* errors : {&records.error().parts, &records.error().log, &records.error().measurements})
    for (const PointsError& error : errors->first) text += error.message + "; " + error.instead + "\n";
  throw std::runtime_error(text);
}

const RecordFinding& found(const Records& records, std::string_view id, RecordKind kind) {
  for (const RecordFinding& one : records.findings)
    if (one.part == id && one.kind == kind) return one;
  throw std::runtime_error("no such finding");
}

Measurement diameter(const char* item, double mm, double u_mm) {
  return {{.item = item, .value = mm / 1000, .uncertainty = u_mm / 1000, .line = 2}, Measurand::diameter};
}

// Days between dates as a calendar counts them: 2024 and 2000 were leap years, 1900 was none.
TEST(Dates, DaysBetweenThemAreTheCalendars) {
  EXPECT_EQ(days_between({2026, 10, 30}, {2026, 10, 30}), 0);
  EXPECT_EQ(days_between({2026, 10, 30}, {2026, 11, 1}), 2);
  EXPECT_EQ(days_between({2026, 1, 1}, {2027, 1, 1}), 365);
  EXPECT_EQ(days_between({2024, 2, 28}, {2024, 3, 1}), 2);
  EXPECT_EQ(days_between({1900, 2, 28}, {1900, 3, 1}), 1);
  EXPECT_EQ(days_between({2000, 2, 28}, {2000, 3, 1}), 2);
  EXPECT_EQ(days_between({2000, 1, 1}, {2001, 1, 1}), 366);
  // A cycle of the calendar is 400 years of 146097 days.
  EXPECT_EQ(days_between({2026, 10, 30}, {1626, 10, 30}), -146097);
  EXPECT_EQ(read_date("2026-02-29"), std::nullopt);
  EXPECT_EQ(read_date("2024-02-29"), (Date{2024, 2, 29}));
  for (const char* wrong : {"2026-13-01", "2026-00-10", "2026-1-1", "30.10.2026", "0000-01-01", "2026-10-3x", ""})
    EXPECT_EQ(read_date(wrong), std::nullopt) << wrong;
}

TEST(Records, APartIsInDateOnItsLastDayAndOverdueOnTheNext) {
  const auto at = [](Date date) { return judged(whole(), date); };
  const Records last = at({2026, 12, 1}), next = at({2026, 12, 2});
  EXPECT_EQ(found(last, "R1", RecordKind::inspection).verdict, Verdict::pass);
  EXPECT_EQ(found(last, "R1", RecordKind::inspection).days_left, 0);
  EXPECT_EQ(last.verdict, Verdict::pass);
  EXPECT_EQ(found(next, "R1", RecordKind::inspection).verdict, Verdict::fail);
  EXPECT_EQ(found(next, "R1", RecordKind::inspection).days_left, -1);
  EXPECT_EQ(found(next, "R1", RecordKind::inspection).why, "it was due on 2026-12-01");
  EXPECT_EQ(next.verdict, Verdict::fail);
  EXPECT_EQ(found(at({2034, 4, 13}), "L1", RecordKind::retirement).verdict, Verdict::fail);
}

TEST(Records, WithoutADateALimitOrALineInTheRegisterNothingPasses) {
  const Records undated = judged(whole(), std::nullopt);
  EXPECT_EQ(found(undated, "R1", RecordKind::inspection).verdict, Verdict::not_judged);
  EXPECT_EQ(undated.verdict, Verdict::not_judged);
  RecordsInput endless = whole();
  of(endless, "R1").retire_by.reset();
  EXPECT_EQ(found(judged(endless), "R1", RecordKind::retirement).verdict, Verdict::not_judged);
  RecordsInput fewer = whole();
  std::erase_if(fewer.parts, [](const RegisteredPart& one) { return one.part == "L1"; });
  const Records lost = judged(fewer);
  EXPECT_EQ(found(lost, "L1", RecordKind::registered).verdict, Verdict::undetermined);
  EXPECT_EQ(lost.verdict, Verdict::undetermined);
}

// JCGM106: one-sided 95 %, 1.645 of the uncertainty. 12.65 mm is 10 % off 14.06 mm.
TEST(Records, WearIsJudgedAgainstTheEnteredLeastWithTheUncertaintyOfTheReading) {
  const auto with = [](double mm, double u_mm) {
    RecordsInput input = whole();
    of(input, "main_line").baseline_m = 14.06e-3;
    of(input, "main_line").least_m = 12.65e-3;
    of(input, "main_line").basis = "owner's rule";
    input.measurements.push_back(diameter("main_line", mm, u_mm));
    return found(judged(input), "main_line", RecordKind::wear);
  };
  EXPECT_EQ(with(12.65 + 1.646 * 0.03, 0.03).verdict, Verdict::pass);
  EXPECT_EQ(with(12.65 + 1.644 * 0.03, 0.03).verdict, Verdict::undetermined);
  EXPECT_EQ(with(12.65 - 1.644 * 0.03, 0.03).verdict, Verdict::undetermined);
  EXPECT_EQ(with(12.65 - 1.646 * 0.03, 0.03).verdict, Verdict::fail);
  EXPECT_NEAR(*with(13.357, 0.03).worn, 0.05, 1e-12);
  EXPECT_EQ(with(13.357, 0.03).basis, "owner's rule");
}

TEST(Records, WearWithoutALimitIsNotJudgedAndWithoutAReadingOpen) {
  RecordsInput input = whole();
  of(input, "main_line").baseline_m = 14.06e-3;
  input.measurements.push_back(diameter("main_line", 14.0, 0.03));
  EXPECT_EQ(found(judged(input), "main_line", RecordKind::wear).verdict, Verdict::not_judged);
  of(input, "main_line").least_m = 12.65e-3;
  input.measurements.clear();
  EXPECT_EQ(found(judged(input), "main_line", RecordKind::wear).verdict, Verdict::undetermined);
}

TEST(Records, CyclesMayBeAsManyAsTheirLimitAndNoMore) {
  const auto with = [](std::optional<double> cycles, std::optional<double> most) {
    RecordsInput input = whole();
    of(input, "L1").cycles = cycles;
    of(input, "L1").most_cycles = most;
    return found(judged(input), "L1", RecordKind::cycles).verdict;
  };
  EXPECT_EQ(with(20000, 20000), Verdict::pass);
  EXPECT_EQ(with(20001, 20000), Verdict::fail);
  EXPECT_EQ(with(std::nullopt, 20000), Verdict::undetermined);
  EXPECT_EQ(with(10, std::nullopt), Verdict::not_judged);
}

TEST(Records, ALoanUnitInPlaceOfTheLayoutsIsNotWhatWasJudged) {
  EXPECT_EQ(found(judged(whole()), "brake_unit", RecordKind::serial).verdict, Verdict::pass);
  const Records loan = judged(whole(), today, unit_with_serial("S2"));
  EXPECT_EQ(found(loan, "brake_unit", RecordKind::serial).verdict, Verdict::fail);
  EXPECT_EQ(loan.verdict, Verdict::fail);
  Layout silent = demo_layout();
  silent.brake_unit.serial.reset();
  EXPECT_EQ(found(judged(whole(), today, silent), "brake_unit", RecordKind::serial).verdict, Verdict::not_judged);
}

TEST(Records, AFindingIsCarriedOverUntilItIsClosed) {
  RecordsInput input = whole();
  input.log = {{.id = "F1", .found = {2026, 10, 12}, .part = "R1", .what = "rough wheel"},
               {.id = "F2",
                .found = {2026, 4, 20},
                .part = "L1",
                .what = "chafed",
                .closed = Date{2026, 10, 30},
                .by = "T.",
                .how = "replaced"}};
  const Records now = judged(input);
  EXPECT_EQ(now.verdict, Verdict::fail);
  EXPECT_EQ(std::ranges::count(now.findings, RecordKind::open_finding, &RecordFinding::kind), 1);
  EXPECT_EQ(found(now, "R1", RecordKind::open_finding).days_left, -18);
  EXPECT_EQ(found(now, "R1", RecordKind::open_finding).why, "F1, found 2026-10-12: rough wheel");
  // On the day before it was closed it was open.
  EXPECT_EQ(found(judged(input, Date{2026, 10, 29}), "L1", RecordKind::open_finding).verdict, Verdict::fail);
  input.log.erase(input.log.begin());
  EXPECT_EQ(judged(input).verdict, Verdict::pass);
}

TEST(Records, WhatNeitherTheLayoutNorTheRegisterHasIsRefusedInEveryFile) {
  RecordsInput input = whole();
  input.parts.push_back(part("R11"));
  input.log = {{.id = "F1", .found = {2026, 10, 12}, .part = "roof", .what = "leaks"}};
  std::erase_if(input.parts, [](const RegisteredPart& one) { return one.part == "L1"; });
  input.measurements = {diameter("L1", 9, 0.1), diameter("pole", 9, 0.1)};
  try {
    judged(input);
    FAIL() << "it is taken";
  } catch (const std::runtime_error& refused) {
    EXPECT_EQ(std::string(refused.what()),
              "the layout has no part \"R11\"; did you mean \"R1\"?\n"
              "the layout has no part \"roof\"; known: main_line, R1, C1, L1, brake_unit, brake_trolley\n"
              "\"L1\" does not stand in the register; give it a line there\n"
              "\"pole\" does not stand in the register; known: main_line, R1, C1, L1, brake_unit, brake_trolley\n");
  }
}

std::string told(const PointsErrors& errors) {
  std::string text;
  for (const PointsError& error : errors.first)
    text += std::to_string(error.line) + ":" + std::to_string(error.column) + ": " + error.message + "; " +
            error.instead + "\n";
  return text;
}

TEST(RegisterFile, IsReadByTheNamesOfItsColumnsAndMayLeaveCellsEmpty) {
  const auto read = read_register(
      "serial,part,least_mm,basis,inspect_by\n# a comment\nHG-1,R1,,,2026-12-01\n\"A, 2\",L1,9.5,owner,\n");
  ASSERT_TRUE(read) << told(read.error());
  ASSERT_EQ(read->size(), 2u);
  EXPECT_EQ((*read)[0].part, "R1");
  EXPECT_EQ((*read)[0].inspect_by, (Date{2026, 12, 1}));
  EXPECT_EQ((*read)[0].least_m, std::nullopt);
  EXPECT_EQ((*read)[1].serial, "A, 2");
  EXPECT_DOUBLE_EQ(*(*read)[1].least_m, 9.5e-3);
  EXPECT_EQ((*read)[1].line, 4u);
}

TEST(RegisterFile, AllThatIsWrongIsToldAtOnceAtItsPlace) {
  const auto read = read_register(
      "part,serial,in_service,retire_by,cycles,most_cycles,baseline_mm,least_mm,basis\n"
      "R1,,2026-02-30,2026-01-01,-3,x,14,15,\n"
      "R1,S,2026-05-01,2026-01-01,,,,,\n"
      "L1,S\n"
      "L1,S,,,,7,,,\n"
      "L2,S,2026-05-01,2026-01-01,-3,x,14,15,\n"
      "L2,S,,,,,,,\n");
  ASSERT_FALSE(read);
  EXPECT_EQ(
      told(read.error()),
      "2:4: the part has no serial; write it\n"
      "3:17: it was to be retired before it was put in service; check both dates\n"
      "4:1: the line has 2 columns, and the header 9; separate the columns by commas, and leave what is not known "
      "empty\n"
      "5:9: a limit stands here, and nobody who sets it; say in the column basis whose limit it is\n"
      "6:17: it was to be retired before it was put in service; check both dates\n"
      "6:28: the cycles is -3; it is 0 or more\n"
      "6:31: the most_cycles \"x\" is no number; write it like 12.5; its unit is in the column's name\n"
      "6:36: a limit stands here, and nobody who sets it; say in the column basis whose limit it is\n"
      "6:36: the least diameter is greater than the baseline; check both and their unit\n"
      "7:1: \"L2\" stands in line 6 already; keep the line of what is in service now\n");
  const auto headless = read_register("R1,S\n");
  EXPECT_EQ(told(headless.error()).substr(0, 4), "1:1:");
  EXPECT_EQ(told(read_register("part,serail\n").error()),
            "1:6: there is no column \"serail\"; did you mean \"serial\"?\n");
  EXPECT_EQ(told(read_register("part,batch\n").error()).substr(0, 46),
            "1:1: the header does not name the column seria");
  EXPECT_EQ(told(read_register("").error()).substr(0, 35), "0:0: there is no part in the file; ");
}

TEST(LogFile, AClosedFindingSaysByWhomAndHowAndAnOpenOneDoesNot) {
  const auto read = read_log(
      "id,found,part,what,closed,by,how\n"
      "F1,2026-04-20,R1,scored,2026-04-21,T.,dressed\n"
      "F2,2026-10-12,L1,rough,,,\n");
  ASSERT_TRUE(read) << told(read.error());
  EXPECT_EQ((*read)[0].closed, (Date{2026, 4, 21}));
  EXPECT_EQ((*read)[1].closed, std::nullopt);
  EXPECT_EQ(told(read_log("id,found,part,what,closed,by,how\n"
                          "F1,2026-04-20,R1,scored,2026-04-21,,\n"
                          "F1,2026-04-20,R1,scored,,T.,\n"
                          "F3,2026-04-20,R1,scored,2026-04-19,T.,it\n"
                          "F4,20.4.2026,R1,scored,,,\n")
                     .error()),
            "2:25: it is closed, and not said by whom and how; fill in the columns by and how\n"
            "3:1: the finding \"F1\" stands in line 2 already; give it an id of its own\n"
            "3:26: it is not closed; write the day in the column closed, or leave by and how empty\n"
            "4:25: it was closed before it was found; check both dates\n"
            "5:4: the found \"20.4.2026\" is no day of the calendar; write it like 2026-10-30\n");
}

}  // namespace
}  // namespace fairlead
