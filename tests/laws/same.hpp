// Two rigs told in numbers, held against each other.
#pragma once

#include <gtest/gtest.h>

#include "tests/laws/numbers.hpp"

namespace fairlead::laws {

/// Coarse: no law depends on how fine the poses are.
inline constexpr Resolution coarse{0.1, 5e-3};

struct Tolerance {
  double length_m, force_N;
};
// Poses are solved to 1e-11 m and 1e-11 of their forces: 2e-7 N of the main line's 20 kN, twice. The softest things are
// blocks floating on legs of 15 m at 40 N, 3 N/m across them: 1e-11 of their 500 N moves them by 2e-9 m, twice.
inline constexpr Tolerance as_solved{5e-9, 5e-7};

inline void expect_same(const std::vector<Number>& a, const std::vector<Number>& b, double force_factor,
                        Tolerance tolerance) {
  ASSERT_FALSE(a.empty()) << "the layout is not solved";
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    ASSERT_EQ(a[i].what, b[i].what);
    const bool force = a[i].kind == Kind::force || a[i].kind == Kind::couple;
    const double factor = force ? force_factor : 1, most = force ? tolerance.force_N : tolerance.length_m;
    if (a[i].value == b[i].value && factor == 1) continue;  // also where both are infinite
    // What lies between the one's least and value lies between the other's.
    EXPECT_LE(factor * a[i].least, b[i].value + most) << a[i].what << ", number " << i;
    EXPECT_LE(b[i].least, factor * a[i].value + most) << a[i].what << ", number " << i;
  }
}

}  // namespace fairlead::laws
