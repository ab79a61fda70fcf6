// Any bytes are measurements whose numbers may be, or are refused in words at a place of the text.
#include <cstdint>
#include <set>
#include <string>

#include "geometry/quantity/utf8.hpp"
#include "geometry/survey/measurements_file.hpp"
#include "tests/fuzz/survey_errors.hpp"

using namespace fairlead;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto read = read_measurements(text);
  if (!read) {
    check_errors(read.error(), text);
    return 0;
  }
  require(!read->empty());
  std::set<std::pair<std::string, Measurand>> told;
  for (const Measurement& one : *read) {
    require(!one.item.empty() && told.emplace(one.item, one.measurand).second);
    const MeasurandKind& kind = kind_of(one.measurand);
    require(kind.least <= one.value && one.value <= kind.most && one.uncertainty > 0);
    for (const Columns at : {one.item_at, one.quantity_at, one.value_at})
      require(at.column >= 1 && at.length >= 1 && at.column + at.length <= columns_of(one.source_line) + 2);
  }
  return 0;
}
