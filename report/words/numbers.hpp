// Numbers as a report shows them.
#pragma once

#include <string>
#include <string_view>

#include "geometry/layout/layout.hpp"
#include "report/dossier.hpp"

namespace fairlead::words {

/// The style `both` shows forces in both systems, as they are marked on gear, and everything else in SI alone.
bool in_both(Dimension, const Style&);
Units one_of(const Style&);  ///< the system of what is not in both
Style single(const Style&);  ///< that system alone
/// True of a length that the style shows as decimal feet.
bool in_tenths(Quantity, const Style&);
inline constexpr double foot_m = 0.3048;
inline constexpr std::string_view tenths_unit = "ft (tenths)";

/// "m", "rad", "K"; "1" where a number has none. What JSON and CSV hold their numbers in.
std::string_view si_unit(Dimension);

/// What takes a number to be rounded to the nearest up instead, in units of its last digit; what is whole stays.
constexpr double raised(Rounding rounding) { return rounding == Rounding::up ? 0.4999 : 0; }

/// "1.50 deg", "19.4 kN (4365 lbf)"
std::string shown(Quantity, const Style&, Rounding = Rounding::nearest);
inline std::string shown(double si, Dimension dimension, const Style& style) { return shown({si, dimension}, style); }

/// Travel and chainage: always metres, "0.000 m", or feet and inches.
std::string travel(double m, const Style&);

/// How far something may be off, rounded down, never up: "22 mm", or "7/8 in" to the sixteenth.
std::string allowance(double m, const Style&);

/// "east 12.345 m, north 3.210 m, up 5.600 m", with the layout's words for its axes.
std::string shown(const Layout&, Point3, const Style&);

}  // namespace fairlead::words
