// What the terminal prints and what the JSON holds are the same numbers.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/formats/text.hpp"
#include "report/json/json.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

using Json = nlohmann::json;

const Dossier& dossier() {
  static const Dossier demo{judge(demo_layout({{"sheave.R1.axle", "[0.62, -0.78, 0]"}}))};
  return demo;
}
const Json& record() {
  static const Json json = Json::parse(json::write(dossier()));
  return json;
}

/// The words of the table's row that begins with `first`; numbers only where it is a row of numbers.
std::vector<std::string> row(const std::string& title, const std::string& first) {
  const std::string text = text::write(dossier(), Style{Units::si});
  std::istringstream lines(text.substr(text.find("\n" + title + "\n") + 1));
  for (std::string line; std::getline(lines, line) && !line.empty();) {
    if (!line.starts_with(first + " ")) continue;
    std::istringstream words(line.substr(first.size()));
    return {std::istream_iterator<std::string>(words), {}};
  }
  return {};
}

/// `shown` is `meant` to half of the last digit shown.
void expect_same(const std::string& shown, double meant) {
  const std::size_t point = shown.find('.');
  const double last = std::pow(10.0, point == std::string::npos ? 0.0 : -static_cast<double>(shown.size() - point - 1));
  EXPECT_NEAR(std::stod(shown), meant, 0.5 * last * (1 + 1e-6)) << shown;
}

TEST(SameNumbers, AnchorLoads) {
  const Json& loads = record()["loads"];
  for (std::size_t i = 0; i < loads["demands"].size(); ++i) {
    const Json& demand = loads["demands"][i];
    const auto shown = row("Anchor loads", demand["anchor"]);
    ASSERT_GE(shown.size(), 4u) << demand["anchor"];
    const Json& components = loads["cases"][demand["case"].get<std::size_t>()]["on_anchor_N"][i];
    for (std::size_t k = 0; k < 3; ++k) expect_same(shown[k], components[k].get<double>() / 1000);
    expect_same(shown[3], demand["force_N"].get<double>() / 1000);
  }
}

TEST(SameNumbers, MainLine) {
  for (const Json& state : record()["main_line"]["states"]) {
    const auto shown = row("Main line, bare", state["weather"]);
    ASSERT_EQ(shown.size(), 6u) << state["weather"];
    expect_same(shown[0], state["temperature_K"].get<double>() - 273.15);
    expect_same(shown[1], state["cable"]["unstretched_m"]);
    expect_same(shown[2], state["H_N"].get<double>() / 1000);
    expect_same(shown[3], state["start_tension_N"].get<double>() / 1000);
    expect_same(shown[4], state["end_tension_N"].get<double>() / 1000);
    expect_same(shown[5], state["sag_m"]);
  }
}

TEST(SameNumbers, BrakingLineAndSheave) {
  const auto line = row("Line lengths", "L1");  // hanging, at its tension, unloaded, tails, cut
  ASSERT_GE(line.size(), 5u);
  expect_same(line[0], record()["lines"][0]["finished_length_m"]);
  expect_same(line[line.size() - 3], record()["schedules"]["lines"][0]["unloaded_length_m"]);
  expect_same(line.back(), record()["lines"][0]["cut_length_m"]);
  double fleet_rad = 0;
  for (const Json& sweep : record()["reeving"]["sweeps"])
    if (sweep["wind_Pa"] == Json::array({0, 0, 0}))
      fleet_rad = std::max(fleet_rad, sweep["worst"]["fleet_rad"][0]["value"].get<double>());
  const auto sheave = row("Sheaves", "R1");  // on, diameter, three wraps, fleet, travel m, load
  ASSERT_GE(sheave.size(), 8u);
  expect_same(sheave[5], fleet_rad * 180 / 3.14159265358979);
}

TEST(SameNumbers, EveryFindingIsToldInTheSameWords) {
  // Wrapping moves the words about and nothing else.
  const auto words_of = [](const std::string& text) {
    std::istringstream in(text);
    std::string words;
    for (std::string word; in >> word;) words += word + " ";
    return words;
  };
  const std::string text = words_of(text::write(dossier(), Style{Units::si}));
  for (const Json& finding : record()["findings"])
    EXPECT_NE(text.find(words_of(finding["sentence"])), std::string::npos) << finding["sentence"];
}

}  // namespace
}  // namespace fairlead
