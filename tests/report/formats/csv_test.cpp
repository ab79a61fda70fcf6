// Tables as CSV, read back as RFC4180 has it.
#include <gtest/gtest.h>

#include <limits>

#include "report/formats/csv.hpp"

namespace fairlead::formats {
namespace {

using Records = std::vector<std::vector<std::string>>;

/// Throws where a line does not end in CR LF or a quote stands where it must not.
Records records_of(const std::string& file) {
  Records records;
  std::vector<std::string> record;
  for (std::size_t at = 0; at < file.size();) {
    std::string field;
    if (file[at] == '"') {
      for (++at;; ++at) {
        if (at >= file.size()) throw std::runtime_error("a quote is not closed");
        if (file[at] == '"' && file.compare(at, 2, "\"\"") != 0) break;
        if (file[at] == '"') ++at;
        field += file[at];
      }
      ++at;
    } else {
      const std::size_t end = file.find_first_of(",\r\n\"", at);
      field = file.substr(at, end - at);
      at = end;
    }
    record.push_back(field);
    if (at < file.size() && file[at] == ',') {
      ++at;
    } else if (file.compare(at, 2, "\r\n") == 0) {
      at += 2;
      records.push_back(std::move(record));
      record.clear();
    } else {
      throw std::runtime_error("neither a comma nor the end of the line behind " + field);
    }
  }
  if (!record.empty()) throw std::runtime_error("the last line has no end");
  return records;
}

Cell number(double si, Dimension dimension) { return Quantity{si, dimension}; }

TEST(Csv, NumbersAreSiAndTheirUnitStandsInTheHeader) {
  const Table table{"Loads",
                    {"anchor", "force", "angle", "temperature", "share"},
                    {{Cell{"A1"}, number(12345.678, Dimension::force), number(0.5, Dimension::angle),
                      number(293.15, Dimension::temperature), number(0.25, Dimension::ratio)}},
                    {}};
  EXPECT_EQ(csv(table),
            "anchor,\"force, N\",\"angle, rad\",\"temperature, K\",share\r\nA1,12345.678,0.5,293.15,0.25\r\n");
}

// RFC4180: fields that hold a comma, a quote or a line's end stand in quotes, quotes inside doubled.
TEST(Csv, WordsReadBackWhateverTheyHold) {
  const std::vector<std::string> words{"plain", "a, b", "the \"eye\"", "two\nlines", "", "\"", ",", "Ø 16 mm"};
  Table table{"Words", {"first", "word"}, {}, {}};
  for (const std::string& word : words) table.rows.push_back({Cell{"x"}, Cell{word}});
  const Records records = records_of(csv(table));
  ASSERT_EQ(records.size(), words.size() + 1);
  for (std::size_t i = 0; i < words.size(); ++i) EXPECT_EQ(records[i + 1][1], words[i]);
}

TEST(Csv, AColumnOfSeveralUnitsIsFollowedByThem) {
  const Table table{"Limits",
                    {"limit", "value", "case"},
                    {{Cell{"fleet angle"}, number(0.05, Dimension::angle), Cell{"a"}},
                     {Cell{"anchor"}, number(1000, Dimension::force), Cell{"b"}},
                     {Cell{"D/d"}, number(15, Dimension::none), Cell{"c"}},
                     {Cell{"words"}, Cell{"as built"}, Cell{"d"}}},
                    {}};
  EXPECT_EQ(records_of(csv(table)), (Records{{"limit", "value", "unit of value", "case"},
                                             {"fleet angle", "0.05", "rad", "a"},
                                             {"anchor", "1000", "N", "b"},
                                             {"D/d", "15", "1", "c"},
                                             {"words", "as built", "", "d"}}));
}

TEST(Csv, ANumberThatIsNotKnownIsNoEmptyField) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  const Table table{"Odd",
                    {"at", "force"},
                    {{Cell{"a"}, number(nan, Dimension::force)},
                     {Cell{"b"}, number(inf, Dimension::force)},
                     {Cell{"c"}, number(-inf, Dimension::force)},
                     {Cell{"d"}, number(-0.0, Dimension::force)},
                     {Cell{"e"}, Cell{}}},
                    {}};
  EXPECT_EQ(
      records_of(csv(table)),
      (Records{{"at", "force, N"}, {"a", "unknown"}, {"b", "infinite"}, {"c", "-infinite"}, {"d", "0"}, {"e", ""}}));
}

TEST(Csv, EveryRowIsWholeByItself) {
  const Table table{"Cases",
                    {"case", "action", "anchor", "force"},
                    {{Cell{"arrest"}, Cell{"peak"}, Cell{"A1"}, number(1, Dimension::force)},
                     {Cell{}, Cell{}, Cell{"A2"}, Cell{}},
                     {Cell{}, Cell{}, Cell{"A3"}, number(3, Dimension::force)}},
                    {}};
  EXPECT_EQ(records_of(csv(table)), (Records{{"case", "action", "anchor", "force, N"},
                                             {"arrest", "peak", "A1", "1"},
                                             {"arrest", "peak", "A2", ""},
                                             {"arrest", "peak", "A3", "3"}}));
}

TEST(Csv, NoTwoHeadingsAreTheSameAndNoneIsEmpty) {
  const Table table{"Ends", {"line", "holds", "holds", ""}, {{Cell{"L1"}, Cell{"a"}, Cell{"b"}, Cell{"c"}}}, {}};
  EXPECT_EQ(records_of(csv(table)).front(), (std::vector<std::string>{"line", "holds", "holds 2", "column"}));
}

}  // namespace
}  // namespace fairlead::formats
