// What corners and outcomes are called: in findings, reports and load cases alike.
#pragma once

#include <string>
#include <string_view>

#include "geometry/arrest/arrest.hpp"

namespace fairlead::arrest {

std::string_view word_for(Outcome);         ///< "stops", "creeps on", ...
std::string_view word_for(FinalRest::How);  ///< "holds where it stopped", ...

/// "heaviest rider, fastest, tail wind, least rolling resistance, weakest brake, cold": only the ends that there are
/// two of.
std::string name_of(const Inputs&, const mainline::MainLine&, const Corner&);
/// The same without a main line.
std::string name_of(const Inputs&, const Corner&);

}  // namespace fairlead::arrest
