// Any bytes are a register of parts, a log of findings and data of units, or are refused in words at a place of the
// text.
#include <cstdint>
#include <set>
#include <string>

#include "geometry/records/columns_file.hpp"
#include "geometry/records/register_file.hpp"
#include "geometry/records/units_file.hpp"
#include "tests/fuzz/survey_errors.hpp"

using namespace fairlead;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  if (const auto read = read_register(text)) {
    std::set<std::string> parts;
    for (const RegisteredPart& one : *read) {
      require(!one.part.empty() && !one.serial.empty() && parts.insert(one.part).second);
      require(!(one.most_cycles || one.least_m) || !one.basis.empty());
      require(!one.least_m || !one.baseline_m || *one.least_m <= *one.baseline_m);
    }
  } else {
    check_errors(read.error(), text);
  }
  if (const auto read = read_log(text)) {
    for (const LoggedFinding& one : *read)
      require(!one.closed || (days_between(one.found, *one.closed) >= 0 && !one.by.empty() && !one.how.empty()));
  } else {
    check_errors(read.error(), text);
  }
  if (const auto read = read_units(text)) {
    for (const UnitDatum& one : *read) {
      require(!one.serial.empty() && !one.value.empty());
      require(swapped_in(*read, one.serial).size() == unit_keys().size() + 1);
    }
  } else {
    check_errors(read.error(), text);
  }
  return 0;
}
