// Of millions of points those that a rig has are kept, and all are held against one another.
#include "geometry/survey/points_kept.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "geometry/survey/ids.hpp"

namespace fairlead {
namespace {

constexpr PointsFormat metres{PointsOrder::pnezd, PointsUnit::m};
const auto all = [](std::string_view) { return true; };
const auto marks = [](std::string_view id) { return id.starts_with('P'); };

/// So many points, every thousandth a mark of the rig: P0, G1, ..., P1000, ...
std::string slope(int count) {
  std::string text = "# a slope\n";
  for (int i = 0; i < count; ++i) text += fmt::format("{}{},{},2,3\n", i % 1000 == 0 ? 'P' : 'G', i, i);
  return text;
}

TEST(PointsKept, TheWantedAreKeptInTheOrderOfTheFileAndOfTheOthersTheFirstThousand) {
  constexpr int count = 50000;
  const auto read = read_wanted_points(slope(count), metres, marks, {});
  ASSERT_TRUE(read);
  EXPECT_EQ(std::ranges::count_if(read->points, [&](const SurveyPoint& p) { return marks(p.id); }), count / 1000);
  EXPECT_EQ(read->points.size(), count / 1000 + most_unwanted);
  EXPECT_EQ(read->left_out, count - read->points.size());
  EXPECT_EQ(read->points.at(1).id, "G1");
  EXPECT_EQ(read->points.back().id, "P49000");
  EXPECT_EQ(read->points.back().at, (Point3{2, 49000, 3}));
  EXPECT_EQ(read->points.back().line, 49002u);
}

TEST(PointsKept, WhatIsNotKeptIsReadAndHeldAgainstTheOthersAllTheSame) {
  const std::string text = slope(5000) + "G4321,1,2,3\nG4322,x,2,3\nP1000,1,2,3\n\"G4999\",1,2,3\n";
  const auto kept = read_wanted_points(text, metres, marks, {});
  const auto whole = read_points(text, metres);
  ASSERT_FALSE(kept);
  ASSERT_FALSE(whole);
  ASSERT_EQ(kept.error().first.size(), 5u);
  ASSERT_EQ(whole.error().first.size(), 5u);
  const char* told[] = {"the point \"G4321\" stands in line 4323 already",
                        "the point \"G4322\" stands in line 4324 already", "the northing \"x\" is no number",
                        "the point \"P1000\" stands in line 1002 already",
                        "the point \"G4999\" stands in line 5001 already"};
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_EQ(kept.error().first[i].message, told[i]);
    EXPECT_EQ(whole.error().first[i].message, told[i]);
    EXPECT_EQ(kept.error().first[i].line, whole.error().first[i].line);
  }
}

TEST(PointsKept, AThirdOfOneIdIsToldOfTheFirstAndOfMoreTwinsThanAreToldTheirNumber) {
  std::string text;
  for (int i = 0; i < 300; ++i) text += "A,1,2,3\r\n";
  const auto read = read_wanted_points(text, metres, all, {});
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().first.size(), 200u);
  EXPECT_EQ(read.error().more, 99u);
  EXPECT_EQ(read.error().first[0].line, 2u);
  EXPECT_EQ(read.error().first[1].message, "the point \"A\" stands in line 1 already");
}

TEST(PointsKept, IdsThatDifferInTheirQuotesAloneAreOne) {
  const auto read = read_wanted_points("\"12\"\" oak\",1,2,3\n\"12\"\" oak\" ,1,2,3\n", metres, all, {});
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().first.at(0).message, "the point \"12\" oak\" stands in line 1 already");
}

TEST(PointsKept, ItTellsHowFarItIsAndEndsWhereItIsAskedTo) {
  const std::string text = slope(600000);
  std::vector<double> shares;
  Work work;
  work.progress = [&](std::string_view what, double done) {
    EXPECT_EQ(what, "points");
    shares.push_back(done);
  };
  ASSERT_TRUE(read_wanted_points(text, metres, marks, work));
  ASSERT_EQ(shares.size(), 2u);
  EXPECT_TRUE(0 < shares[0] && shares[0] < shares[1] && shares[1] < 1);
  std::stop_source stop;
  stop.request_stop();
  work.stop = stop.get_token();
  EXPECT_THROW(read_wanted_points(text, metres, marks, work), Cancelled);
}

TEST(PointsKept, AFileBeyondTheLimitIsRefusedWithItsSize) {
  const std::string large(largest_survey_file + 1, ' ');
  const auto read = read_wanted_points(large, metres, all, {});
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().first.at(0).message, "the file has 536870913 bytes, and a points file at most 536870912");
}

TEST(Ids, TellWhereEachStoodFirstAsAMapDoes) {
  std::vector<std::string> texts;
  for (int i = 0; i < 100000; ++i) texts.push_back(fmt::format("G{}", i * 7919LL % 60013));
  Ids ids(texts.size(), [&](std::size_t at, std::string_view id) { return texts[at] == id; });
  std::map<std::string, std::size_t> first;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const auto [known, is_new] = first.try_emplace(texts[i], i);
    const auto told = ids.note(texts[i], i);
    ASSERT_EQ(told.has_value(), !is_new) << texts[i];
    if (told) {
      ASSERT_EQ(*told, known->second);
    }
  }
}

// A pair whose hashes are alike as far as they are kept, sought by trying 24 million: the text decides.
TEST(Ids, TwoIdsOfOneHashAreTwo) {
  int asked = 0;
  Ids ids(1, [&](std::size_t at, std::string_view id) {
    ++asked;
    return (at == 0 ? "A3" : "P24143040") == id;
  });
  EXPECT_EQ(ids.note("A3", 0), std::nullopt);
  EXPECT_EQ(ids.note("P24143040", 5), std::nullopt);
  EXPECT_EQ(asked, 1);
  EXPECT_EQ(ids.note("P24143040", 9), 5u);
  EXPECT_EQ(ids.note("A3", 9), 0u);
}

}  // namespace
}  // namespace fairlead
