#include "report/json/writer.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <limits>
#include <nlohmann/json.hpp>
#include <random>
#include <vector>

namespace fairlead {
namespace {

using json::Writer;
using Json = nlohmann::json;

std::string number(double value, int significant = json::digits) {
  const std::string text = Writer::document([&](Writer& out) { out.number("x", value, significant); });
  const std::string before = "{\n  \"x\": ", after = "\n}\n";
  return text.substr(before.size(), text.size() - before.size() - after.size());
}
std::string read_back(std::string_view words) {
  return Json::parse(Writer::document([&](Writer& out) { out.text("x", words); }))["x"].get<std::string>();
}

TEST(JsonWriter, LaysOutObjectsByTheLineAndColumnsOnOne) {
  const std::vector<int> two = {1, 2};
  const std::vector<Point3> points = {{1, 2, 3}, {4, 5, 6.5}};
  EXPECT_EQ(Writer::document([&](Writer& out) {
              out.text("name", "A");
              out.object("inner", [&] {
                out.count("count", 3);
                out.flag("set", true);
                out.null("none");
              });
              out.objects("items", two, [&](int i) { out.count("i", i); });
              out.objects("nobody", std::vector<int>{}, [](int) {});
              out.column("points", points, [](Point3 p) { return p; });
            }),
            R"({
  "name": "A",
  "inner": {
    "count": 3,
    "set": true,
    "none": null
  },
  "items": [
    {
      "i": 1
    },
    {
      "i": 2
    }
  ],
  "nobody": [],
  "points": [[1,2,3],[4,5,6.5]]
}
)");
}

TEST(JsonWriter, PrintsTenSignificantDigitsAndTwoOfAResidual) {
  EXPECT_EQ(number(0.1 + 0.2), "0.3");
  EXPECT_EQ(number(12345.678901234), "12345.6789");
  EXPECT_EQ(number(1.0 / 3), "0.3333333333");
  EXPECT_EQ(number(2.3456e-13, json::residual_digits), "2.3e-13");
}

// Half a unit of the tenth digit: 0.5e-9 of the number at most, wherever it lies between the smallest normal number
// and the greatest.
TEST(JsonWriter, ANumberReadsBackToHalfItsTenthDigit) {
  std::mt19937_64 random(20261030);
  std::uniform_real_distribution<double> mantissa(-1, 1), exponent(-300, 300);
  for (int i = 0; i < 20000; ++i) {
    const double x = mantissa(random) * std::pow(10, exponent(random));
    const std::string text = number(x);
    EXPECT_NEAR(Json::parse(text).get<double>(), x, 0.5e-9 * std::abs(x) * (1 + 1e-6)) << text;
    std::string digits = text.substr(0, text.find('e'));
    std::erase_if(digits, [](char c) { return c < '0' || c > '9'; });
    digits.erase(0, digits.find_first_not_of('0'));
    EXPECT_LE(digits.size(), 10u) << text;
  }
}

// Numbers of plain size are printed by the writer itself: character for character as C prints them, whatever their
// tenth digit is rounded to and wherever ten digits carry into an eleventh.
TEST(JsonWriter, PrintsTheVeryDigitsOfTheCLibrary) {
  const auto printed = [](double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.10g", value);
    return std::string(text);
  };
  std::mt19937_64 random(20261125);
  std::uniform_real_distribution<double> mantissa(-1, 1), exponent(-6, 11);
  for (int i = 0; i < 100000; ++i) {
    const double x = mantissa(random) * std::pow(10, exponent(random));
    EXPECT_EQ(number(x), printed(x));
  }
  std::uniform_int_distribution<long> figures(1'000'000'000, 9'999'999'999);
  for (int i = 0; i < 20000; ++i)
    for (const double last : {0.0, 0.5, 0.5 - 1e-6, 0.5 + 1e-6}) {
      const double x = (static_cast<double>(figures(random)) + last) / std::pow(10, 1 + i % 14);
      for (const double near : {std::nextafter(x, 0), x, std::nextafter(x, 1e300)})
        EXPECT_EQ(number(near), printed(near));
    }
  for (int power = -6; power <= 12; ++power)
    for (const double x : {std::pow(10, power), 2 * std::pow(10, power), 7.25 * std::pow(10, power)})
      for (const double near : {std::nextafter(x, 0), x, std::nextafter(x, 1e300), x * (1 - 4e-11), x * (1 - 6e-11)})
        EXPECT_EQ(number(-near), printed(-near));
}

TEST(JsonWriter, WhatIsNoNumberIsNullAndNoughtHasNoSign) {
  EXPECT_EQ(number(std::numeric_limits<double>::quiet_NaN()), "null");
  EXPECT_EQ(number(-std::numeric_limits<double>::infinity()), "null");
  EXPECT_EQ(number(-0.0), "0");
  EXPECT_EQ(Writer::document([](Writer& out) {
              out.vector("v", Vec3{std::nan(""), 1, 2});
            }),
            "{\n  \"v\": [null,1,2]\n}\n");
}

TEST(JsonWriter, WordsOfAnyKindReadBack) {
  for (const std::string words : {"plain", "say \"6x19\"", "a\\b", "tab\tand\nline\x01", "Überführung, 林, 𝛼", ""})
    EXPECT_EQ(read_back(words), words);
}

TEST(JsonWriter, BytesThatAreNoTextAreReplacedOneByOne) {
  const std::string replaced = "\xEF\xBF\xBD";
  EXPECT_EQ(read_back("caf\xE9.toml"), "caf" + replaced + ".toml") << "Latin-1";
  EXPECT_EQ(read_back("\xC0\xAF"), replaced + replaced) << "an overlong form";
  EXPECT_EQ(read_back("\xED\xA0\x80"), replaced + replaced + replaced) << "half of a surrogate pair";
  EXPECT_EQ(read_back("end \xE2\x82"), "end " + replaced + replaced) << "a character cut short";
  EXPECT_EQ(read_back("\xF5\x80\x80\x80"), replaced + replaced + replaced + replaced) << "beyond the last character";
}

}  // namespace
}  // namespace fairlead
