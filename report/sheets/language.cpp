#include "report/sheets/language.hpp"

#include "geometry/layout/told.hpp"

namespace fairlead::sheets {
namespace {

/// Whether a part of a layout holds the author's own words: elsewhere what is written is an id or one of a choice, for
/// which the program has words.
bool holds_words(const ToldPart& part) {
  return part.section.starts_with("project") || part.section == "site" || part.section == "waiver";
}

}  // namespace

std::shared_ptr<const drawing::Wording> wording_of(const words::Pairs& pairs, const Layout& layout,
                                                   const std::vector<std::string>& written) {
  const std::map<std::string, std::string> given(pairs.pairs.begin(), pairs.pairs.end());
  std::vector<drawing::Pair> all;
  for (const words::LabelGroup& group : words::label_groups())
    for (const std::string_view label : group.labels) {
      const auto other = given.find(std::string(label));
      all.push_back({std::string(label), other == given.end() ? "" : other->second});
    }
  // Marks have names of ours too, which stand in points files.
  std::set<std::string, std::less<>> own{"rest", "unit", "backup"};
  own.insert(written.begin(), written.end());
  for (const ToldPart& part : told(layout)) {
    if (!part.id.empty()) own.insert(part.id);
    for (const ToldKey& key : part.keys)
      if (holds_words(part) && !key.told.words.empty()) own.insert(key.told.words);
  }
  return std::make_shared<const drawing::Wording>(pairs.language, std::move(all), std::move(own));
}

}  // namespace fairlead::sheets
