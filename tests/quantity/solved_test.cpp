#include "geometry/quantity/solved.hpp"

#include <gtest/gtest.h>

namespace fairlead {
namespace {

TEST(Greater, TheUnknownIsKeptWhereverItStands) {
  const double unknown = std::nan("");
  EXPECT_EQ(greater(1, 2), 2);
  EXPECT_EQ(greater(2, 1), 2);
  EXPECT_TRUE(std::isnan(greater(1, unknown)));
  EXPECT_TRUE(std::isnan(greater(unknown, 1)));
  EXPECT_TRUE(std::isnan(greater(greater(1, unknown), 3)));
}

}  // namespace
}  // namespace fairlead
