#include "report/words/marks.hpp"

#include "report/words/names.hpp"

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
      return "far end of " + what + ": where it is fixed";
    case Mark::outlet:
      return "outlet of the brake unit: where its line leaves it";
    case Mark::rest_mark:
      return "rest mark of the brake trolley, on the main line";
  }
  return what;
}

}  // namespace fairlead::words
