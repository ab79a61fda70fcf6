// The worst corner of an arrest, for the checks that look at how riders stop.
#pragma once

#include <functional>
#include <string>

#include "geometry/checks/worst.hpp"

namespace fairlead {

/// "heaviest rider, fastest, ...": of a layout with the main line's state, of a concept without.
std::string name_of(const Rig&, const arrest::Corner&);

/// The same of one of the arrest's; "" where there is no such corner.
std::string corner_of(const Rig&, int corner);

/// The arrest, or null: then the finding says why it is undetermined.
const arrest::Arrest* arrest_of(const Rig&, Finding&);

/// Fills value, limit, verdict, travel and the fact "corner" from the worst corner of what `get` takes from one whose
/// motion is solved.
/// A corner whose motion is not solved leaves a pass undetermined, and so does a number that is not one.
void judge_corners(const Rig&, Finding&, Sense, const std::optional<Limit>&,
                   const std::function<arrest::Peak(const arrest::CornerResult&)>& get);

/// The empty path that `worse` puts last; null where there is none.
template <class Worse>
const arrest::Reset* worst_reset(const arrest::Arrest& arrest, const Worse& worse) {
  const arrest::Reset* worst = nullptr;
  for (const arrest::Reset& reset : arrest.resets)
    if (!worst || worse(reset, *worst)) worst = &reset;
  return worst;
}

/// "cold, tightest": the state of the main line it comes back in; of a concept, that the line is straight.
std::string weather_of(const Rig&, const arrest::Reset&);

}  // namespace fairlead
