// What is refused of a survey's file is told in words at a place of its text, in the order of the places.
#pragma once

#include <algorithm>
#include <cstdlib>
#include <string>
#include <tuple>

#include "geometry/quantity/utf8.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

inline void require(bool holds) {
  if (!holds) std::abort();
}

inline void check_errors(const PointsErrors& errors, const std::string& text) {
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

}  // namespace fairlead
