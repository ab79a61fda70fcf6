#include "report/words/keys.hpp"

#include <algorithm>

#include "geometry/layout/read.hpp"
#include "geometry/layout/suggest.hpp"

namespace fairlead::words {
namespace {

bool in_name(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '.'; }

/// Empty where it is no key, or reads as a word already.
std::string spoken(std::string_view name) {
  const bool dotted = name.find('.') != name.npos;
  if (!dotted && name.find('_') == name.npos) return {};
  if (dotted ? !key_help(name) : paths_of(name).empty()) return {};
  constexpr std::string_view limits = "limits.";
  if (name.starts_with(limits)) return "limit of " + in_words(name.substr(limits.size()));
  std::string words = in_words(name);
  std::replace(words.begin(), words.end(), '.', ' ');
  return words;
}

}  // namespace

std::string keys_in_words(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const auto begin = static_cast<std::size_t>(std::find_if(text.begin(), text.end(), in_name) - text.begin());
    out += text.substr(0, begin);
    text.remove_prefix(begin);
    auto end = static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), in_name) - text.begin());
    // A full stop ends the sentence, not the name; what goes on with a capital or a slash is no key.
    std::string_view name = text.substr(0, end);
    while (name.ends_with('.')) name.remove_suffix(1);
    const std::string words = spoken(name);
    const bool bracketed = out.ends_with('[') && text.substr(name.size()).starts_with(']');
    if (!words.empty() && bracketed) out.pop_back();
    out += words.empty() ? std::string(name) : words;
    text.remove_prefix(name.size() + (!words.empty() && bracketed ? 1 : 0));
    if (words.empty()) out += text.substr(0, end - name.size()), text.remove_prefix(end - name.size());
  }
  return out;
}

}  // namespace fairlead::words
