// Places and displacements: what may be combined, and the identities of the products.
#include "geometry/quantity/vectors.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace fairlead {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
  a == b;
};
static_assert(!Addable<Point3, Point3>, "two places have a difference and no sum");
static_assert(Addable<Point3, Vec3> && !Comparable<Point3, Vec3>);

const Vec3 a{1.5, -2, 0.25}, b{-0.5, 4, 3};

TEST(Vectors, TwoPlacesDifferByTheDisplacementBetweenThem) {
  const Point3 from{10, 20, 30}, to{11, 18, 33};
  EXPECT_EQ(to - from, (Vec3{1, -2, 3}));
  EXPECT_EQ(from + (to - from), to);
  EXPECT_EQ(to - (to - from), from);
}

TEST(Vectors, CrossIsRightHandedAntisymmetricAndSquareToBoth) {
  EXPECT_EQ(cross({1, 0, 0}, {0, 1, 0}), (Vec3{0, 0, 1}));
  EXPECT_EQ(cross(a, b), -cross(b, a));
  EXPECT_EQ(dot(cross(a, b), a), 0);
  EXPECT_EQ(dot(cross(a, b), b), 0);
}

// Lagrange: |a x b|^2 + (a.b)^2 = |a|^2 |b|^2.
TEST(Vectors, ProductsCloseLagrangesIdentity) {
  EXPECT_DOUBLE_EQ(dot(cross(a, b), cross(a, b)) + dot(a, b) * dot(a, b), dot(a, a) * dot(b, b));
}

TEST(Vectors, NormScalesAndDoesNotOverflow) {
  EXPECT_EQ(norm({2, 3, 6}), 7);
  EXPECT_EQ(norm(-4 * Vec3{2, 3, 6}), 28);
  EXPECT_DOUBLE_EQ(norm({3e200, 4e200, 0}), 5e200);
  EXPECT_DOUBLE_EQ(norm(unit(b)), 1);
}

TEST(Vectors, OneUnknownPartMakesTheNormUnknown) {
  const double nan = std::nan("");
  for (const Vec3 v : {Vec3{nan, 0, 0}, Vec3{0, nan, 0}, Vec3{0, 0, nan}, Vec3{1, nan, 2}})
    EXPECT_TRUE(std::isnan(norm(v)));
}

TEST(Vectors, ZeroHasNoDirection) { EXPECT_TRUE(std::isnan(unit({0, 0, 0}).x)); }

TEST(Vectors, CompoundSumsEqualTheirLongForm) {
  Vec3 sum = a;
  sum += b;
  EXPECT_EQ(sum, a + b);
  sum -= b;
  EXPECT_EQ(sum, a);
}

}  // namespace
}  // namespace fairlead
