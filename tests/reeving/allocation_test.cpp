// A warm pose takes no memory. Counts every allocation of this program.
#include <gtest/gtest.h>

#include <cstdlib>
#include <new>

#include "tests/reeving/reductions.hpp"

namespace {
long taken = 0;
}

// Kept out of line: g++ 12 takes one of a pair it has put in line for a mismatch.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++taken;
  if (void* p = std::malloc(size > 0 ? size : 1)) return p;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* p) noexcept { std::free(p); }
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept { std::free(p); }

namespace fairlead::reeving {
namespace {

TEST(Pose, FromItsNeighbourItTakesNoMemory) {
  for (const Inputs& in : {skew_rig(), three_to_one(), two_to_one_floating()})
    for (const int sweep : {3, 4}) {
      const Outlet outlet = outlet_of(in, sweep);
      auto at = solve_pose(in, in.sweeps[sweep], outlet, 1);
      ASSERT_TRUE(at) << at.error().why;
      const long before = taken;
      const bool solved = solve_pose(in, in.sweeps[sweep], outlet, 1.1, *at).has_value();
      EXPECT_EQ(taken - before, 0);
      EXPECT_TRUE(solved);
      const std::vector<double> one(1);
      EXPECT_EQ(taken - before, 1) << "the counter counts";
    }
}

}  // namespace
}  // namespace fairlead::reeving
