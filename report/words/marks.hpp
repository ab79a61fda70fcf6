// The physical marks that a crew sets out, in words.
#pragma once

#include <string>

#include "geometry/studies/set_out_points.hpp"
#include "report/dossier.hpp"

namespace fairlead::words {

/// "bearing point: where the load acts", "centre of the axle of sheave R1".
std::string mark_of(const Layout&, const SetOutPoint&);

/// An offset without its sign: on which side it is measured, and how far.
struct Sided {
  std::string side, distance;
};
/// `neither`: the side where no distance is left to print.
Sided sided(double m, const Style&, const char* positive, const char* negative, const char* neither);
Sided up_of(double up_m, const Style&);                ///< "UP", "DOWN"; "LEVEL" where no distance is left to print
Sided across_of(double across_m, const Style&);        ///< "LEFT", "RIGHT"; "IN LINE"
Sided from_rest_of(double from_rest_m, const Style&);  ///< "UPSTREAM", "DOWNSTREAM"; "AT THE MARK"

}  // namespace fairlead::words
