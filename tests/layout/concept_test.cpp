// A concept: how riders are to stop, before anything has a place. Read as a layout is, all of its errors at once.
#include <nlohmann/json.hpp>

#include "geometry/layout/concept_fields.hpp"
#include "geometry/layout/outline.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

std::string concept_text() { return file_text(top / "tests/layout/concept.toml"); }

std::string changed(const std::string& was, const std::string& is) { return edited(was, is, concept_text()); }

std::string printed_concept(const std::string& text, const std::vector<Override>& overrides = {}) {
  const auto idea = read_concept_text(text, "otter.toml", overrides);
  std::string printed;
  if (!idea)
    for (const Diagnostic& diagnostic : idea.error()) printed += print(diagnostic);
  return printed;
}

Concept concept_of(const std::string& text, const std::vector<Override>& overrides = {}) {
  auto idea = read_concept_text(text, "otter.toml", overrides);
  if (!idea) throw std::runtime_error(printed_concept(text, overrides));
  return std::move(*idea);
}

// Conversions: NIST SP 811, Appendix B (foot 3.048 E-01, mile per hour 4.4704 E-01, both exact).
TEST(ReadConcept, RatioEfficiencySlopeAndTravelStandForMainLineAndReduction) {
  const Concept idea = concept_of(concept_text());
  EXPECT_EQ(idea.zone.ratio, 2.5);
  EXPECT_EQ(idea.zone.efficiency, 0.9);
  EXPECT_EQ(idea.zone.slope, -0.02);
  EXPECT_NEAR(idea.zone.travel_m, 12.192, 5e-4);
  EXPECT_EQ(idea.zone.place, (Place{0, 8, 1}));
  EXPECT_NEAR(idea.riders.arrival_speed_m_per_s->value.high, 11.176, 5e-4);
  EXPECT_EQ(idea.brake_unit.force_left, 0.9);
  EXPECT_EQ(idea.brake_unit.magnetic_N->value.points()[1], (CurvePoint{5, 210}));
  EXPECT_EQ(idea.brake_trolley.static_resistance_N, 5);
  EXPECT_EQ(idea.backup_brake->engages_m, 15);
  EXPECT_EQ(idea.landing->latest_rest_m->value, 14);
  EXPECT_EQ(idea.limits.stop_reserve_m->at, 2);
  EXPECT_EQ(idea.files, (std::vector<std::string>{"otter.toml", "command line"}));
  EXPECT_EQ(idea.sha256.size(), 64u);
}

// tan 45 deg is 1; of a small angle it is the angle and a third of its cube: 1.1458 deg are 0.0199979 rad.
TEST(ReadConcept, ASlopeMayBeGivenAsAnAngle) {
  EXPECT_NEAR(concept_of(changed("slope = \"-2 %\"", "slope_angle = \"45 deg\"")).zone.slope, 1, 1e-15);
  const Concept falling = concept_of(changed("slope = \"-2 %\"", "slope_angle = \"-1.1458 deg\""));
  EXPECT_NEAR(falling.zone.slope, -0.0200006, 5e-7);
  EXPECT_EQ(falling.zone.slope.place, (Place{0, 11, 15}));
}

TEST(ReadConcept, BackupBrakeLandingAndLimitsMayComeLater) {
  std::string text = concept_text();
  text.erase(text.find("[landing]"));
  const std::size_t from = text.find("[backup_brake]");
  text.erase(from, text.find("[riders]") - from);
  const Concept idea = concept_of(text);
  EXPECT_FALSE(idea.backup_brake || idea.landing || idea.limits.stop_reserve_m);
}

TEST(ReadConcept, WhatItsAuthorDidNotWriteIsSaid) {
  EXPECT_EQ(assumptions(concept_of(concept_text())), std::vector<std::string>{});
  const Concept idea = concept_of(changed("force_left = 0.9\n", ""), {{"concept.ratio", "3"}});
  EXPECT_EQ(idea.zone.ratio, 3);
  EXPECT_EQ(assumptions(idea),
            (std::vector<std::string>{"brake_unit.force_left = 100 %, a stated default (no loss is stated)",
                                      "concept.ratio = 3, from the command line"}));
}

TEST(ReadConcept, ItsSectionTellsAConceptFromALayout) {
  EXPECT_TRUE(is_concept(concept_text()));
  EXPECT_TRUE(is_concept("\xEF\xBB\xBF" + concept_text()));
  EXPECT_FALSE(is_concept(good_text()));
  EXPECT_FALSE(is_concept("# [concept]\n[project]\nowner = \"[concept]\"\n"));
  EXPECT_FALSE(is_concept("[concept\nratio = 2\n"));
  EXPECT_FALSE(is_concept(""));
}

TEST(ReadConcept, AFileIsReadAsWhatItIs) {
  const auto idea = read_layout_or_concept((top / "layouts/ember_hollow_concept.toml").string());
  ASSERT_TRUE(idea.has_value());
  ASSERT_TRUE(std::holds_alternative<Concept>(*idea));
  EXPECT_EQ(std::get<Concept>(*idea).zone.ratio, 2);
  EXPECT_EQ(assumptions(std::get<Concept>(*idea)), std::vector<std::string>{});
  const auto layout =
      read_layout_or_concept((top / "layouts/sable_weir.toml").string(), {{"brake_trolley.travel", "11"}});
  ASSERT_TRUE(layout.has_value());
  ASSERT_TRUE(std::holds_alternative<Layout>(*layout));
  EXPECT_TRUE(std::get<Layout>(*layout).points.has_value());
  EXPECT_EQ(std::get<Layout>(*layout).brake_trolley.travel_m, 11);
  EXPECT_FALSE(read_layout_or_concept((top / "layouts/nowhere.toml").string()).has_value());
}

TEST(StartingConcept, ReadsWithoutAnErrorAndItsChainagesCountFromTheMark) {
  EXPECT_EQ(printed_concept(new_concept()), "");
  EXPECT_TRUE(is_concept(new_concept()));
  const Concept idea = concept_of(new_concept());
  ASSERT_TRUE(idea.backup_brake && idea.landing && idea.riders.arrival_speed_m_per_s);
  EXPECT_GE(idea.backup_brake->engages_m, idea.zone.travel_m);
  EXPECT_LE(idea.landing->platform_from_m, idea.zone.travel_m);
  EXPECT_LE(idea.landing->platform_to_m, 2 * idea.zone.travel_m);
  // Those in comments too.
  std::string text = new_concept();
  for (const char* key : {"# earliest_rest", "# latest_rest"}) {
    const std::size_t at = text.find(std::string("\n") + key);
    ASSERT_NE(at, std::string::npos) << key;
    text.erase(at + 1, 2);
  }
  const Concept with_window = concept_of(text);
  EXPECT_LE(*with_window.landing->latest_rest_m, with_window.zone.travel_m);
}

TEST(ConceptKeys, AreExplained) {
  for (const Outline& key : concept_outline().find("concept")->keys) {
    const auto help = key_help("concept." + std::string(key.key.name));
    ASSERT_TRUE(help) << key.key.name;
    EXPECT_NE(help->find(key.key.says), std::string::npos) << *help;
  }
  EXPECT_TRUE(key_help("concept"));
}

TEST(ConceptErrors, AConceptIsNoLayout) {
  const std::string text = concept_text();
  EXPECT_EQ(printed_errors(text),
            error_at(text, text.find("concept]"), 7,
                     "this is a concept, and a layout is wanted: nothing in a concept has a place",
                     "\"fairlead arrest\" reads a concept; leave out [concept] once everything has its place"));
}

TEST(ConceptErrors, NothingInAConceptHasAPlace) {
  const std::string text = changed("[riders]", "[[anchor]]\nid = \"A1\"\nposition = [0, 0, 0]\n\n[reiders]\n[riders]");
  EXPECT_EQ(printed_concept(text),
            error_at(text, text.find("anchor]]"), 6, "a concept has no section \"anchor\"",
                     "leave it out, or make it a layout: leave out [concept]") +
                error_at(text, text.find("reiders"), 7, "unknown section \"reiders\"", "did you mean \"riders\"?"));
}

/// In the concept `was` becomes `is`: one error, at the first `underlined` from there on.
void expect_error(const std::string& was, const std::string& is, const std::string& underlined,
                  const std::string& message, const std::string& instead) {
  const std::string text = changed(was, is);
  const std::size_t at = text.find(underlined, concept_text().find(was));
  ASSERT_NE(at, std::string::npos) << underlined;
  EXPECT_EQ(printed_concept(text), error_at(text, at, underlined.size(), message, instead)) << is;
}

TEST(ConceptErrors, WhatAConceptCanNotBeIsRefused) {
  expect_error("ratio = 2.5", "ratio = 0.9", "0.9", "concept: \"ratio\" must be at least 1", "");
  expect_error("efficiency = \"90 %\"", "efficiency = 90", "90",
               "concept: \"efficiency\" must be above 0 and at most 1.000", "");
  expect_error("slope = \"-2 %\"", "slope = -2", "-2", "concept: \"slope\" must lie from -1.000 to 1.000", "");
  expect_error("slope = \"-2 %\"", "slope = \"-2 %\"\nslope_angle = \"-1 deg\"", "slope_angle",
               "concept: \"slope\" and \"slope_angle\" are both given",
               "of \"slope\" and \"slope_angle\" only one may be given");
  expect_error("travel = \"40 ft\"", "travel = 0", "0", "concept: \"travel\" must be above 0", "");
  expect_error("extension_limit", "on = \"A1\"\nextension_limit", "on", "brake unit: unknown key \"on\"",
               "known: extension_limit, rest_extension, line_speed_limit, rider_mass, retraction, magnetic, eddy, "
               "tolerance, return_drag, force_left, moving_mass");
  expect_error("engages = \"15 m\"", "engages = 0", "0", "backup brake: it does not engage downstream of the rest mark",
               "its chainage counts from there");
  expect_error("platform_to = \"24 m\"", "platform_to = \"6 m\"", "\"6 m\"",
               "landing: \"platform_to\" does not lie beyond \"platform_from\"", "");
  expect_error("rest_extension = \"0.4 m\"", "rest_extension = \"9 m\"", "\"9 m\"",
               "brake unit: \"rest_extension\" leaves nothing of \"extension_limit\"", "");
  expect_error("\n[riders]", "\n[riders]\narrival_sped = 1", "arrival_sped", "riders: unknown key \"arrival_sped\"",
               "did you mean \"arrival_speed\"?");
}

TEST(ConceptErrors, HowFastRidersArriveIsAimedAt) {
  const std::string text = changed("arrival_speed = [\"5 m/s\", \"25 mph\"]\n", "");
  EXPECT_EQ(printed_concept(text),
            error_at(text, text.find("[riders]"), 8, "riders: nothing says how fast they arrive",
                     "give the \"arrival_speed\" that is aimed at: a concept has no main line to find it on"));
}

TEST(ConceptErrors, AllComeAtOnce) {
  const std::string text = "[concept]\nratio = \"two\"\nslope = 0\n";
  const std::string printed = printed_concept(text);
  for (const char* said :
       {"concept: \"efficiency\" is missing", "concept: \"travel\" is missing", "section \"project\" is missing",
        "section \"riders\" is missing", "section \"brake_unit\" is missing", "section \"brake_trolley\" is missing",
        "it begins with [brake_trolley]", "otter.toml:2:9: error: concept: "})
    EXPECT_NE(printed.find(said), std::string::npos) << said << "\n" << printed;
}

TEST(ConceptErrors, TheCommandLineChangesWhatAConceptHas) {
  EXPECT_EQ(printed_concept(concept_text(), {{"brake_unit.tolerance", "20 %"}}), "");
  EXPECT_NE(printed_concept(concept_text(), {{"site.altitude", "20 m"}}).find("there is no section \"site\""),
            std::string::npos);
}

TEST(ConceptSchema, TheStoredCopyIsTheGeneratedOne) {
  EXPECT_EQ(file_text(top / "geometry/layout/concept.schema.json"), concept_schema())
      << "write concept_schema() to geometry/layout/concept.schema.json";
}

TEST(ConceptSchema, HasTheSectionsOfAConceptAndNoOther) {
  const auto schema = nlohmann::ordered_json::parse(concept_schema());
  EXPECT_EQ(schema.at("title"), "fairlead concept");
  EXPECT_EQ(schema.at("additionalProperties"), false);
  EXPECT_EQ(schema.at("required"),
            nlohmann::ordered_json({"project", "concept", "brake_unit", "brake_trolley", "riders"}));
  const auto& sections = schema.at("properties");
  EXPECT_EQ(sections.size(), fields_of<Concept>.size());
  EXPECT_EQ(sections.at("concept").at("properties").at("ratio").at("minimum"), 1);
  EXPECT_FALSE(sections.at("brake_unit").at("properties").contains("outlet"));
  EXPECT_FALSE(sections.at("landing").at("properties").contains("platform_level"));
}

// What a concept takes from a layout, a layout has under the same key and in the same words.
TEST(ConceptTables, SharedKeysAreThoseOfALayout) {
  for (const Outline& section : concept_outline().keys) {
    const Outline* same = layout_outline().find(section.key.name);
    EXPECT_EQ(same == nullptr, section.key.name == "concept") << section.key.name;
    for (const Outline& key : section.keys) {
      EXPECT_FALSE(key.key.says.empty()) << key.key.name;
      EXPECT_FALSE(key.key.examples[0].empty() && key.keys.empty()) << key.key.name;
      if (!same) continue;
      const Outline* its = same->find(key.key.name);
      ASSERT_NE(its, nullptr) << key.key.name;
      EXPECT_EQ(its->key.says, key.key.says);
      EXPECT_EQ(its->kind, key.kind) << key.key.name;
    }
  }
}

TEST(ConceptTables, AKeyOfAConceptIsExplained) {
  EXPECT_EQ(key_help("concept.efficiency"),
            "concept.efficiency: share of the work that the sheaves of the reduction leave\n"
            "  a ratio in %; a bare number is SI; required\n"
            "  for example efficiency = \"90 %\"\n");
  EXPECT_TRUE(key_help("concept").has_value());
  EXPECT_EQ(paths_of("slope_angle"), std::vector<std::string>{"concept.slope_angle"});
  EXPECT_EQ(paths_of("return_drag"), std::vector<std::string>{"brake_unit.return_drag"});
}

}  // namespace
}  // namespace fairlead
