// Any bytes are results whose numbers may be, or are refused in words at a place of the text.
#include <cmath>
#include <cstdint>
#include <set>
#include <string>

#include "geometry/quantity/utf8.hpp"
#include "geometry/survey/results_file.hpp"
#include "tests/fuzz/survey_errors.hpp"

using namespace fairlead;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto read = read_trial_results(text);
  if (!read) {
    check_errors(read.error(), text);
    return 0;
  }
  require(!read->empty());
  std::set<std::pair<std::string, Trialled>> told;
  for (const TrialRow& one : *read) {
    require(!one.item.empty() && told.emplace(one.item, one.what).second);
    const QuantityKind& kind = kind_of(one.what);
    const bool counted = kind.dimension == Dimension::none;
    require(kind.least <= one.value && one.value <= kind.most);
    require(counted ? one.uncertainty == 0 && one.value == std::floor(one.value) : one.uncertainty > 0);
    for (const Columns at : {one.item_at, one.quantity_at, one.value_at})
      require(at.column >= 1 && at.length >= 1 && at.column + at.length <= columns_of(one.source_line) + 2);
  }
  return 0;
}
