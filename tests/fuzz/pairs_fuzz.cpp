// Any bytes are a file of pairs in which every pair is of a label and has its places, or are refused in words at a
// place of the text.
#include <cstdint>
#include <set>
#include <string>

#include "report/words/labels.hpp"
#include "tests/fuzz/survey_errors.hpp"

using namespace fairlead;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const std::set<std::string_view> labels = [] {
    std::set<std::string_view> all;
    for (const words::LabelGroup& group : words::label_groups()) all.insert(group.labels.begin(), group.labels.end());
    return all;
  }();
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto read = words::read_pairs(text, [](std::string_view) { return std::string(); });
  if (!read) {
    check_errors(read.error(), text);
    return 0;
  }
  require(read->language.size() == 2 || read->language.size() == 3);
  std::set<std::string> seen;
  for (const auto& [english, other] : read->pairs) {
    require(labels.contains(english) && seen.insert(english).second && !other.empty());
    for (char digit = '1'; digit <= '9'; ++digit) {
      const std::string place{'{', digit, '}'};
      require((english.find(place) != english.npos) == (other.find(place) != other.npos));
    }
  }
  return 0;
}
