#include "report/words/marks.hpp"

#include <cmath>

#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::words {

std::string mark_of(const Layout& layout, const SetOutPoint& point) {
  std::string what = name_of(layout, point.item);
  switch (point.mark) {
    case Mark::bearing_point:
      return "bearing point of " + what + ": where the load acts";
    case Mark::base:
      return "foot of the bracket of " + what;
    case Mark::axle_centre:
      return "centre of the axle of " + what;
    case Mark::swivel_eye:
      return "eye that " + what + " swivels about";
    case Mark::foot:
      return "far end of " + member_words(layout, point.item.index) + ": where it is fixed";
    case Mark::outlet:
      return "outlet of the brake unit: where its line leaves it";
    case Mark::rest_mark:
      return "rest mark of the brake trolley, on the main line";
  }
  return what;
}

Sided sided(double m, const Style& style, const char* positive, const char* negative, const char* neither) {
  const std::string distance = travel(std::abs(m), style);
  if (distance == travel(0, style)) return {neither, distance};
  return {m < 0 ? negative : positive, distance};
}

Sided up_of(double up_m, const Style& style) { return sided(up_m, style, "UP", "DOWN", "LEVEL"); }
Sided across_of(double across_m, const Style& style) { return sided(across_m, style, "LEFT", "RIGHT", "IN LINE"); }
Sided from_rest_of(double from_rest_m, const Style& style) {
  return sided(from_rest_m, style, "DOWNSTREAM", "UPSTREAM", "AT THE MARK");
}

}  // namespace fairlead::words
