// The plots of gaps over the travel.
#include "report/sheets/clearance_profiles.hpp"

#include <gtest/gtest.h>

#include <cstdlib>

#include "report/words/numbers.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using clearance::Clearances;

/// A shipped rig of which one gap is that over the travel.
Dossier with_profile(std::vector<clearance::Profile::At> at) {
  Dossier dossier = shipped_dossier("marten_ridge.toml");
  Rig& rig = dossier.judged.rig;
  Clearances told = *rig.clearance.solved();
  clearance::Profile one = told.profiles.at(0);
  told.gaps[one.gap].least_m.value = at.at(1).gap_m;
  one.at = std::move(at);
  told.profiles = {one};
  rig.layout.limits.rider_line_clearance_m = rig.layout.limits.rider_clearance_m = Limit{{0.3}, "own rule"};
  rig.clearance.result = std::make_shared<const Solved<Clearances>>(std::move(told));
  return dossier;
}

std::vector<std::string> lettering(const Dossier& dossier) {
  drawing::Drawing drawn;
  const drawing::Canvas canvas(drawn, font());
  for (const Block& block : clearance_profiles(dossier, {})) block.draw(canvas, {0, 100}, 200);
  std::vector<std::string> texts;
  for (const auto& entity : drawn.entities)
    if (const auto* label = std::get_if<drawing::Label>(&entity)) texts.push_back(label->text);
  return texts;
}

bool any(const std::vector<std::string>& texts, const std::string& part) {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const std::string& t) { return t.find(part) != std::string::npos; });
}

TEST(ClearanceProfiles, WhatIsFarBeyondTheLimitIsNotDrawnAndIsSaidToBeLeftOut) {
  const auto texts = lettering(with_profile({{-5, 1500}, {0, 0.5}, {5, 1500}}));
  // The least gap is 0.5 m of a limit of 0.3 m: half their span above them, no part of the height for what is far.
  const std::string farthest = words::shown(0.75, Dimension::length, Style{});
  EXPECT_TRUE(any(texts, "farther than " + farthest + " is not drawn"));
  for (const std::string& text : texts) EXPECT_LT(std::atof(text.c_str()), 100) << text;
}

TEST(ClearanceProfiles, OfWhatIsDrawnInFullNothingIsSaidToBeLeftOut) {
  const auto texts = lettering(with_profile({{-5, 0.7}, {0, 0.5}, {5, 0.74}}));
  ASSERT_FALSE(texts.empty());
  EXPECT_FALSE(any(texts, "not drawn"));
}

}  // namespace
}  // namespace fairlead::sheets
