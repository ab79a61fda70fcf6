// No fixed text of a set stays English where every label has a pair: told by a language in which every word of a label
// bears a mark.
#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "geometry/layout/told.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "geometry/trial/trial.hpp"
#include "report/sheets/as_built.hpp"
#include "report/sheets/inspection.hpp"
#include "report/sheets/language.hpp"
#include "report/tables/every.hpp"
#include "report/tables/tables.hpp"
#include "tests/report/sheets/demo_register.hpp"
#include "tests/report/sheets/long_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

constexpr std::string_view mark = "¤";

bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> words;
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

/// Three letters on end: a word, no unit. What has a digit is an id or a number.
bool is_word(const std::string& word) {
  if (std::ranges::any_of(word, [](char c) { return c >= '0' && c <= '9'; })) return false;
  int run = 0;
  for (const char c : word) {
    run = letter(c) ? run + 1 : 0;
    if (run == 3) return true;
  }
  return false;
}

/// "columns {1} of {2}" is "¤columns {1} ¤of {2}".
std::string marked(std::string_view label) {
  std::string out;
  for (const std::string& word : words_of(std::string(label))) {
    out += out.empty() ? "" : " ";
    out += is_word(word) || word.find('{') == word.npos ? std::string(mark) + word : word;
  }
  return out;
}

words::Pairs marked_pairs() {
  words::Pairs pairs{"zz", {}};
  for (const words::LabelGroup& group : words::label_groups())
    for (const std::string_view label : group.labels) pairs.pairs.emplace_back(label, marked(label));
  return pairs;
}

/// Words that stand in the layout, names of marks and parts, and units.
std::set<std::string> own_words(const Layout& layout) {
  std::string all = " ANSI tenths fairlead Translated labels the English governs rest unit backup main_line";
  for (const ToldPart& part : told(layout)) {
    all += ' ' + part.id;
    for (const ToldKey& key : part.keys) all += ' ' + key.told.words;
  }
  for (char& c : all)
    if (!letter(c) && c != '_') c = ' ';
  std::set<std::string> own;
  for (const std::string& word : words_of(all)) own.insert(word);
  for (const Unit& unit : all_units()) own.insert(std::string(unit.name));
  return own;
}

/// The words of a text that no label gave it and that do not come from the layout.
std::string strange_in(const std::string& text, const std::set<std::string>& own) {
  std::string strange;
  for (const std::string& word : words_of(text)) {
    if (word.find(mark) != word.npos || !is_word(word)) continue;
    std::string bare;
    for (const char c : word) bare += letter(c) || c == '_' ? c : ' ';
    for (const std::string& part : words_of(bare))
      if (is_word(part) && !own.contains(part)) strange += part + ' ';
  }
  return strange;
}

bool shouts(const std::string& text) {
  return std::ranges::none_of(text, [](char c) { return c >= 'a' && c <= 'z'; });
}

/// Sentences of findings, of notes beneath tables, and what cells say of one rig stay English, as README says. What is
/// in capitals is a heading, on those layers too.
bool may_hold_sentences(const Label& label) {
  const bool sentences = label.layer == Layer::notes || label.layer == Layer::tables || label.layer == Layer::cautions;
  return sentences && !shouts(label.text);
}

std::set<std::string> english_left(const std::vector<Sheet>& set, const std::set<std::string>& own,
                                   bool sentences_too = false) {
  std::set<std::string> left;
  for (const Sheet& sheet : set)
    for (const auto& entity : sheet.drawing.entities) {
      const auto* label = std::get_if<Label>(&entity);
      if (label && (sentences_too || !may_hold_sentences(*label)) && !strange_in(label->text, own).empty())
        left.insert(sheet.title + ": " + label->text);
    }
  return left;
}

Dossier whole(const std::string& file) {
  Dossier dossier = shipped_dossier(file);
  const Rig& rig = dossier.judged.rig;
  dossier.setting_out = setting_out(rig);
  dossier.trial = std::make_shared<const trial::Trial>(trial::Trial{.plan = trial::plan(rig)});
  dossier.arrest = std::make_shared<const ArrestFigures>(arrest_figures(rig));
  return dossier;
}

/// A register that says something of every part, and a log with findings that are open: words of their owner that read
/// like ours.
Records some_records(const Layout& layout) {
  RecordsInput input = demo_register(layout);
  input.log = {
      {.id = "rung", .found = {2026, 10, 12}, .part = "brake_trolley", .what = "one wheel turns rough"},
      {.id = "F1", .found = {2026, 10, 13}, .part = "main_line", .what = "clips, at the landing: off -2 mm; line"}};
  return judge_records(layout, Date{2026, 10, 30}, std::move(input)).value();
}

std::string joined(const std::set<std::string>& all) {
  std::string text;
  for (const std::string& one : all) text += one + '\n';
  return text;
}

class LabelsOf : public testing::TestWithParam<std::string> {};

TEST_P(LabelsOf, NoTitleHeadingOrNameOfTheSetStaysEnglish) {
  const Dossier dossier = whole(GetParam());
  Font speaking = font();
  speaking.speak(wording_of(marked_pairs(), dossier.judged.rig.layout));
  const std::set<std::string> own = own_words(dossier.judged.rig.layout);
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_a}) {
    const auto set = compose(dossier, {}, {speaking, paper});
    ASSERT_GT(set.size(), 5u);
    EXPECT_EQ(joined(english_left(set, own)), "");
  }
  EXPECT_EQ(speaking.wording()->without_pair(), std::vector<std::string>{});
}

TEST_P(LabelsOf, NothingOnTheCrewsSheetsStaysEnglish) {
  Dossier dossier = shipped_dossier(GetParam());
  dossier.setting_out = setting_out(dossier.judged.rig);
  Font speaking = font();
  speaking.speak(wording_of(marked_pairs(), dossier.judged.rig.layout));
  const std::set<std::string> own = own_words(dossier.judged.rig.layout);
  for (const Style style : {Style{}, Style{Units::us, true}})
    EXPECT_EQ(joined(english_left(compose_crew(dossier, style, {speaking, PaperSize::a4}), own)), "");
  EXPECT_EQ(speaking.wording()->without_pair(), std::vector<std::string>{});
  for (const Sheet& page : compose_crew(dossier, {}, {speaking, PaperSize::a4}))
    EXPECT_NE(everything(page).find("Translated labels: the English governs"), std::string::npos) << page.title;
}

TEST_P(LabelsOf, NothingOnTheInspectionFormsStaysEnglish) {
  Dossier dossier = shipped_dossier(GetParam());
  dossier.setting_out = setting_out(dossier.judged.rig);
  Font speaking = font();
  const Layout& layout = dossier.judged.rig.layout;
  const Records records = some_records(layout);
  speaking.speak(wording_of(marked_pairs(), layout, written_in(records.input)));
  const auto set = compose_inspection(dossier, records, {}, {speaking});
  std::set<std::string> own = own_words(layout);
  own.insert({"rung", "one", "wheel", "turns", "rough", "clips", "the", "landing", "off", "line"});
  EXPECT_EQ(joined(english_left(set, own, true)), "");
  EXPECT_NE(everything(set.front()).find("¤OPEN: rung, ¤found 2026-10-12: one wheel turns rough"), std::string::npos);
  EXPECT_NE(everything(set.front()).find("clips, at the landing: off −2 mm; line"), std::string::npos);
}

/// Titles and heads that no label gave.
std::set<std::string> english_heads(const Wording& wording, const std::vector<Table>& tables, const Style& style,
                                    const std::set<std::string>& own) {
  std::set<std::string> left;
  for (const Table& table : tables) {
    // As CSV these bear the name of their corner, on sheets the corner stands above them.
    std::string title = table.title.substr(0, table.title.find(" of the corner that governs"));
    for (char& c : title) c = static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    if (!strange_in(std::string(wording.said(title)), own).empty()) left.insert(title);
    for (const std::string& head : tables::shown(table, style).headings)
      if (!strange_in(std::string(wording.said(head)), own).empty()) left.insert(table.title + ": " + head);
  }
  return left;
}

TEST_P(LabelsOf, NoTableHasAnEnglishTitleOrHead) {
  const Dossier dossier = whole(GetParam());
  const auto wording = wording_of(marked_pairs(), dossier.judged.rig.layout);
  const std::set<std::string> own = own_words(dossier.judged.rig.layout);
  for (const Style style : {Style{}, Style{Units::us, true}})
    EXPECT_EQ(joined(english_heads(*wording, tables::every(dossier, style), style, own)), "");
}

TEST(Labels, NoTitleOrHeadOfTheAsBuiltSheetsStaysEnglish) {
  const Layout layout = shipped_layout("heron_gully.toml");
  Survey survey{.points_file = "points.csv", .terms = {.uncertainty_m = 2e-3}};
  for (const SetOutPoint& at : set_out_points(solve(layout)))
    survey.points.push_back({at.id, *at.at, "", static_cast<unsigned>(survey.points.size() + 1)});
  survey.measurements = {{{.item = "A3 to B1", .value = 29.006, .uncertainty = 0.5, .line = 2}, Measurand::distance}};
  survey.earlier = EarlierSurvey{"before.csv", survey.points, 2e-3, std::string(64, '0')};
  const auto built = as_built(layout, std::move(survey), {.draws = fewest_draws, .hold_arrest = true}, {.threads = 2});
  ASSERT_TRUE(built.has_value());
  Font speaking = font();
  speaking.speak(wording_of(marked_pairs(), layout));
  std::set<std::string> own = own_words(layout);
  for (const char* file : {"points", "csv", "before"}) own.insert(file);
  EXPECT_EQ(joined(english_left(compose_as_built(*built, {}, {speaking}), own)), "");
  const std::vector<Table> all = {tables::built_marks(*built, {}),  tables::control_points(*built, {}),
                                  tables::tapes(*built, {}),        tables::moved_since(*built),
                                  tables::built_values(*built, {}), tables::not_measured(*built),
                                  tables::built_shares(*built)};
  EXPECT_EQ(joined(english_heads(*speaking.wording(), all, {}, own)), "");
}

TEST(Labels, NoWordOfMatchLinesAndPartsStaysEnglish) {
  for (const auto& [dossier, paper] : {std::pair{&long_one(), PaperSize::a3}, {&longish(), PaperSize::a4}}) {
    const Layout& layout = dossier->judged.rig.layout;
    Font speaking = font();
    speaking.speak(wording_of(marked_pairs(), layout));
    const auto set = compose(*dossier, {}, {speaking, paper}, "general-arrangement");
    ASSERT_GT(set.size(), 2u);
    EXPECT_EQ(joined(english_left(set, own_words(layout))), "");
    EXPECT_TRUE(says(set.front(), "¤MATCH ¤LINE M-M"));
  }
}

INSTANTIATE_TEST_SUITE_P(Shipped, LabelsOf, testing::ValuesIn(shipped_layouts()),
                         [](const auto& of) { return of.param.substr(0, of.param.find('.')); });

}  // namespace
}  // namespace fairlead::sheets
