#include "geometry/layout/suggest.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/quantity/nearest.hpp"

namespace fairlead {

std::string in_words(std::string_view name) {
  std::string words(name);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string did_you_mean(std::string_view written, const std::vector<std::string>& known) {
  constexpr std::size_t longest_name = 80, most_names = 24;
  if (written.size() <= longest_name)
    if (const auto near = nearest(written, known)) return fmt::format("did you mean \"{}\"?", *near);
  if (known.empty() || known.size() > most_names) return "";
  return fmt::format("known: {}", fmt::join(known, ", "));
}

std::vector<std::string> names_of(const Outline& table) {
  std::vector<std::string> names;
  for (const Outline& outline : table.keys) names.emplace_back(outline.key.name);
  return names;
}

std::string with_double_quotes(std::string_view example) {
  std::string text(example);
  std::replace(text.begin(), text.end(), '\'', '"');
  return text;
}

std::string example(const Key& key) {
  if (key.examples[0].empty()) return "";
  return fmt::format("for example {} = {}", key.name, with_double_quotes(key.examples[0]));
}

}  // namespace fairlead
