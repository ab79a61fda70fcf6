// Numbers as a report shows them.
#pragma once

#include <string>
#include <string_view>

#include "geometry/layout/layout.hpp"
#include "geometry/quantity/units.hpp"
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

/// What numbers are shown in that are compared with one another: the unit and the decimals that suit the greatest of
/// them, so that nobody reads millimetres beside metres. Of one system of units; a greatest that is no finite number
/// leaves each to itself.
class Alike {
 public:
  /// `fine`: a third decimal of kN, a first where there is none, so that of a small force beside a great one more than
  /// its first digit is read.
  Alike(Quantity greatest, const Style&, bool fine = false);
  /// For a heading; empty where every number carries its own marks, as feet and inches do, or none at all.
  std::string_view unit() const { return unit_ ? name_ : std::string_view{}; }
  std::string number(double si) const;  ///< without that unit
  std::string shown(double si) const;   ///< with it

 private:
  Dimension dimension_;
  Style style_;
  bool feet_and_inches_{}, sixteenths_{};
  const Unit* unit_{};
  std::string_view name_;
  int decimals_{};
};

/// Whether of a force that is shown in the unit of a greater one the first digit would be all that is read.
bool small_beside(Quantity greatest, Quantity);

/// The one of greater size; what is no finite number counts least.
Quantity greater(Quantity, Quantity);

/// Travel and chainage: always metres, "0.000 m", or feet and inches.
std::string travel(double m, const Style&);

/// How far something may be off, rounded down, never up: "22 mm", or "7/8 in" to the sixteenth.
std::string allowance(double m, const Style&);

/// "east 12.345 m, north 3.210 m, up 5.600 m", with the layout's words for its axes.
std::string shown(const Layout&, Point3, const Style&);

}  // namespace fairlead::words
