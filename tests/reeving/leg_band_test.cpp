// A leg in bands against legs drawn from them.
#include "geometry/reeving/leg_band.hpp"

#include <gtest/gtest.h>

#include <optional>
#include <random>

#include "geometry/reeving/leg.hpp"
#include "tests/reeving/bands.hpp"

namespace fairlead::reeving {
namespace {

constexpr double of_rounding = 1e-12;

double within(std::mt19937_64& random, Band band) {
  // An end as often as not: monotone parts are greatest there.
  const auto kind = random() % 4;
  return kind == 0 ? band.low : kind == 1 ? band.high : uniform(random, band.low, band.high);
}
Vec3 within(std::mt19937_64& random, const Band3& b) {
  return {within(random, b.x), within(random, b.y), within(random, b.z)};
}

/// The mean of a leg's pulls toward its second end.
Vec3 mean_pull(const LegChange& c) { return 0.5 * (c.from_pull_N - c.to_pull_N); }

void expect_holds(const LegBand& band, const Catenary& leg) {
  expect_in(band.from_way, (1 / leg.mid_tension_N) * leg.from_pull_N(), "pull on the first end", of_rounding);
  expect_in(band.to_way, (1 / leg.mid_tension_N) * leg.to_pull_N(), "pull on the second end", of_rounding);
  expect_in(band.length_m, leg.length_m, "length", of_rounding);
  EXPECT_LE(least_tension_N(band, std::min(leg.from_tension_N(), leg.to_tension_N())),
            leg.least_tension_N() * (1 + of_rounding));
  const LegChange x = vary(leg, {1, 0, 0}, 0), y = vary(leg, {0, 1, 0}, 0), z = vary(leg, {0, 0, 1}, 0),
                  tighter = vary(leg, {}, 1);
  expect_in(band.per_span, {x.length_m, y.length_m, z.length_m}, "length per span", of_rounding);
  expect_in(band.per_mid_m_per_N, tighter.length_m, "length per tension", of_rounding);
  const BandStiffness& k = band.stiffness_N_per_m;
  expect_in(Band3{k.xx, k.xy, k.xz}, mean_pull(x), "pull per x", of_rounding);
  expect_in(Band3{k.xy, k.yy, k.yz}, mean_pull(y), "pull per y", of_rounding);
  expect_in(Band3{k.xz, k.yz, k.zz}, mean_pull(z), "pull per z", of_rounding);
  expect_in(band.per_span, mean_pull(tighter), "pull per tension", of_rounding);
}

TEST(LegBand, OfTwentyThousandRandomLegsNoneLeavesItsBands) {
  std::mt19937_64 random(11);
  int hung = 0;
  for (int i = 0; i < 2000; ++i) {
    const double size = std::pow(10, uniform(random, -0.3, 1.5)), half = size * std::pow(10, uniform(random, -5, -0.8));
    const Vec3 to = unit({uniform(random, -1, 1), uniform(random, -0.3, 0.3), uniform(random, -1, 1)});
    const double w = i % 5 == 0 ? 0 : uniform(random, 0.1, 1.5), T = std::pow(10, uniform(random, 1.5, 2.9));
    // Plumb and level legs among them.
    const Band3 span{around(i % 7 == 0 ? 0 : size * to.x, half), around(i % 7 == 0 ? 0 : size * to.y, half),
                     around(i % 7 == 1 ? 0 : size * to.z, half)};
    const Band mid = around(T, T * half / size);
    const LegBand band = leg_between(span, mid, w);
    if (!band.hangs) continue;
    ++hung;
    for (int k = 0; k < 12; ++k) {
      const auto leg = hang_leg(within(random, span), within(random, mid), w);
      ASSERT_TRUE(leg) << "the band says that all of it hangs";
      expect_holds(band, *leg);
    }
    if (HasFailure()) FAIL() << "leg " << i << ": size " << size << ", half " << half << ", w " << w << ", T " << T;
  }
  EXPECT_GT(hung, 1600);
}

TEST(LegBand, OfASingleLegTheyAreThatLeg) {
  for (const Vec3 span : {Vec3{28, 3, 4}, Vec3{-2, 9, -6}, Vec3{0, 0, 5}}) {
    const auto leg = hang_leg(span, 47, 1.2);
    const LegBand band = leg_between(span, 47, 1.2);
    ASSERT_TRUE(leg && band.hangs);
    const BandStiffness& k = band.stiffness_N_per_m;
    for (const Band b : {band.from_way.x, band.from_way.y, band.from_way.z, band.to_way.z, band.per_span.x,
                         band.per_span.y, band.per_span.z, band.per_mid_m_per_N, k.xx, k.xy, k.xz, k.yy, k.yz, k.zz})
      EXPECT_LT(b.width(), 1e-12 * (1 + b.greatest_size()));
    expect_holds(band, *leg);
  }
}

TEST(LegBand, WhereSomeLegOfTheBandCannotHangNothingIsClaimed) {
  EXPECT_TRUE(leg_between({{29, 30}, 0, 0}, {45, 50}, 1.2).hangs);
  EXPECT_FALSE(leg_between({{29, 31}, 0, 0}, {20, 50}, 1.2).hangs);
  EXPECT_FALSE(leg_between({{-0.1, 0.1}, {-0.1, 0.1}, {-0.1, 0.1}}, 45, 1.2).hangs) << "it may have no length";
}

/// Height over the chord at a share of it in plan: the catenary through both ends, by its lowest point's place.
double over_chord(const Catenary& leg, double share) {
  const double d = std::hypot(leg.span.x, leg.span.y), a = leg.horizontal_N() / leg.weight_N_per_m;
  const double first = std::asinh(leg.from_V_N / leg.horizontal_N()), half = share * d / a / 2;
  return 2 * a * std::sinh(first + half) * std::sinh(half) - share * leg.span.z;
}

/// Legs from taut to as slack as they hang, their span and tension changing evenly: also steep ones, and such that move
/// square to themselves, that only rise, or that only slacken or tighten.
struct Changing {
  Vec3 first, rate;
  double T{}, T_rate{}, w{}, step{};
  std::optional<Catenary> at(double x) const { return hang_leg(first + x * rate, T + x * T_rate, w); }
};
Changing draw(std::mt19937_64& random, int i) {
  const double size = std::pow(10, uniform(random, -0.3, 1.5));
  const bool steep = i % 3 == 1;
  Changing c;
  c.w = uniform(random, 0.1, 1.5);
  c.first = size * unit({uniform(random, -1, 1), uniform(random, -0.3, 0.3), uniform(random, -1, 1) * (steep ? 4 : 1)});
  // Near the least tension that holds it up, or anything.
  c.T = steep        ? c.w * std::abs(c.first.z) / 2 * uniform(random, 1.02, 1.4)
        : i % 3 == 2 ? c.w * size * uniform(random, 0.5, 1.5)
                     : std::pow(10, uniform(random, 1.5, 2.9));
  c.step = size * std::pow(10, uniform(random, -3, -0.5));
  c.T_rate = c.T / size * uniform(random, -1, 1);
  const int kind = i / 3 % 4;
  if (kind == 0) c.rate = {uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)};
  if (kind == 1) c.rate = {0, 0, uniform(random, -1, 1)};
  if (kind == 2) c.rate = unit(cross(c.first, i % 2 == 0 ? Vec3{0, 0, 1} : Vec3{0, 1, 0})), c.T_rate = 0;
  return c;
}

// Along a straight change of span and tension the rates are constants, so all straying is the sag's own. Its rate is
// taken by differences.
TEST(LegBand, TheSagStraysFromItsInterpolationByNoMoreThanItsBound) {
  std::mt19937_64 random(5);
  int hung = 0;
  double nearest_stray = 0, nearest_width = 0, nearest_rate = 0;
  for (int i = 0; i < 12000; ++i) {
    const Changing c = draw(random, i);
    const Vec3 last = c.first + c.step * c.rate;
    const LegBand band =
        leg_between({band_of(c.first.x, last.x), band_of(c.first.y, last.y), band_of(c.first.z, last.z)},
                    band_of(c.T, c.T + c.step * c.T_rate), c.w);
    if (!band.hangs) continue;
    ++hung;
    const SagRate sag = sag_rate(band, c.rate, c.T_rate, c.step);
    const auto drop_at = [&](double x, double share) {
      const auto leg = c.at(x);
      return leg ? over_chord(*leg, share) : std::nan("");
    };
    for (int k = 0; k < 10; ++k) {
      const double part = uniform(random, 0, 1), share = uniform(random, 0, 1), on = 1e-4 * c.step;
      const double from = drop_at(0, share), to = drop_at(c.step, share), here = drop_at(part * c.step, share);
      const double stray = std::abs(here - (from + part * (to - from))), bound = sag.width * c.step / 4;
      const double first_rate = (drop_at(on, share) - from) / on, last_rate = (to - drop_at(c.step - on, share)) / on;
      const double turned = std::abs(last_rate - first_rate), fastest = std::abs(first_rate);
      constexpr double rounding = 1e-9;
      EXPECT_LE(stray, bound + rounding);
      // Differences tell a rate as well as their rounding lets them.
      const double shaky = rounding + 2e-13 * (norm(c.first) + 1) / on;
      EXPECT_LE(turned, sag.width + shaky);
      EXPECT_LE(fastest, sag.greatest + shaky + 1e-4 * sag.width);
      if (bound < 1e3 * rounding || sag.width < 1e3 * shaky) continue;
      nearest_stray = std::max(nearest_stray, stray / bound);
      nearest_width = std::max(nearest_width, turned / sag.width);
      nearest_rate = std::max(nearest_rate, fastest / sag.greatest);
    }
    if (HasFailure())
      FAIL() << "leg " << i << ": span " << c.first.x << " " << c.first.y << " " << c.first.z << ", T " << c.T << ", w "
             << c.w << ", step " << c.step << ", h " << band.h.high;
  }
  EXPECT_GT(hung, 6000);
  // Bounds nothing comes near say nothing.
  EXPECT_GT(nearest_stray, 0.3);
  EXPECT_GT(nearest_width, 0.7);
  EXPECT_GT(nearest_rate, 0.9);
}

}  // namespace
}  // namespace fairlead::reeving
