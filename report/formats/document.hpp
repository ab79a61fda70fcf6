// What the formats of drawings share: what a document says of itself, and why sheets cannot be written.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "geometry/layout/given.hpp"
#include "report/drawing/drawing.hpp"
#include "report/drawing/font.hpp"

namespace fairlead::formats {

/// What a document says of itself. No clock is read: without a date it states none.
struct DocumentInfo {
  std::string title, author, subject, keywords;
  std::string program;  ///< "fairlead 0.1.0"
  std::optional<Date> date;
};

struct Refusal {
  std::string message;
};

/// Every character of the sheets. Refused, as no format could write what is drawn: a number that is not finite, a
/// character the font lacks (it is named), and one beyond U+FFFF, which some of the formats have no code for.
tl::expected<std::set<char32_t>, Refusal> characters(const std::vector<drawing::Sheet>&, const drawing::Font&);

/// A number as the text formats write it: `decimals` at most, without noughts behind the last digit, no minus nought.
std::string number(double, int decimals);

}  // namespace fairlead::formats
