// Any bytes are measurements whose numbers may be, or are refused in words at a place of the text.
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <set>
#include <string>
#include <tuple>

#include "geometry/quantity/utf8.hpp"
#include "geometry/survey/measurements_file.hpp"

namespace {

using namespace fairlead;

void require(bool holds) {
  if (!holds) std::abort();
}

void check_errors(const PointsErrors& errors, const std::string& text) {
  require(!errors.first.empty() && errors.first.size() <= 200);
  const auto place = [](const PointsError& e) { return std::tuple(e.line, e.column); };
  require(std::is_sorted(errors.first.begin(), errors.first.end(),
                         [&](const auto& a, const auto& b) { return place(a) < place(b); }));
  const auto lines = static_cast<unsigned>(std::count(text.begin(), text.end(), '\n')) + 1;
  for (const PointsError& error : errors.first) {
    require(!error.message.empty() && !error.instead.empty() && error.length >= 1);
    require(error.line <= lines && (error.line > 0 || error.column == 0));
    if (error.line > 0) require(error.column >= 1 && error.column <= columns_of(error.source_line) + 1);
  }
}

}  // namespace

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
    for (const Columns at : {one.item_at, one.measurand_at, one.value_at})
      require(at.column >= 1 && at.length >= 1 && at.column + at.length <= columns_of(one.source_line) + 2);
  }
  return 0;
}
