// What a leg's answers in bands must hold: the exact answers of legs met at both ends, contacts following.
#include "geometry/reeving/leg_answer.hpp"

#include <gtest/gtest.h>

#include <optional>
#include <random>

#include "geometry/reeving/contact.hpp"
#include "tests/reeving/bands.hpp"

namespace fairlead::reeving {
namespace {

constexpr double of_rounding = 1e-9;

Vec3 any(std::mt19937_64& random) { return {uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)}; }

/// One leg with its ends and its line's tension.
struct Sample {
  LegEnd from, to;
  Tension tension;
  MetLeg leg;
};

Vec3 contact(const LegEnd& end, Vec3 e) { return end.radius_m * e; }

/// A band around all samples of a vector.
template <class Get>
Band3 hull_of(const std::vector<Sample>& samples, Get get) {
  std::optional<Band3> all;
  for (const Sample& s : samples) {
    const Band3 v(get(s));
    all = all ? Band3{hull(all->x, v.x), hull(all->y, v.y), hull(all->z, v.z)} : v;
  }
  return *all;
}

EndBand end_over(const std::vector<Sample>& samples, bool first) {
  const auto end = [&](const Sample& s) -> const LegEnd& { return first ? s.from : s.to; };
  const auto e = [&](const Sample& s) { return first ? s.leg.from_e : s.leg.to_e; };
  EndBand band;
  band.at = hull_of(samples, [&](const Sample& s) { return (end(s).centre - Point3{}) + contact(end(s), e(s)); });
  band.radius_m = end(samples[0]).radius_m;
  band.turn = end(samples[0]).turn;
  band.axle = hull_of(samples, [&](const Sample& s) { return end(s).axle; });
  band.e = hull_of(samples, e);
  band.tangent = hull_of(samples, [&](const Sample& s) { return cross(end(s).axle, e(s)); });
  return band;
}

/// One sample's answer to moves of its ends against the answer over all of them.
void expect_holds(const LegAnswer& answer, const Sample& s, const EndBand& from, const EndBand& to, const Move& A,
                  const Move& B, double newton) {
  const MetLegChange exact = vary(s.leg, s.from, s.to, A, B, newton);
  const auto shift = [](const Move& move, const EndBand& end) {
    Band3 v(move.shift);
    if (end.radius_m > 0) v += cross(Band3(move.turn), end.radius_m * end.e);
    return v;
  };
  const Band3 a = shift(A, from), b = shift(B, to);
  const LegReply reply = answer.reply({b - a, a + b, A.turn, B.turn, true, true, true}, newton);
  const auto gain = [](const LegEnd& end, double turn_rad) { return end.radius_m * end.turn * turn_rad; };
  const double from_gain = gain(s.from, exact.from_turn_rad), to_gain = gain(s.to, exact.to_turn_rad);
  const double w = s.tension.weight_N_per_m;
  expect_in(reply.length_m, exact.length_m + from_gain + to_gain, "length", of_rounding);
  expect_in(reply.mid_N, exact.mid_tension_N, "mean tension", of_rounding);
  expect_in(reply.from_pull_N, exact.from_pull_N - (w * from_gain) * s.tension.up, "pull on the first end",
            of_rounding);
  expect_in(reply.to_pull_N, exact.to_pull_N - (w * to_gain) * s.tension.up, "pull on the second end", of_rounding);
  if (s.from.radius_m > 0)
    expect_in(reply.from_turn_rad, exact.from_turn_rad, "turn of the first contact", of_rounding);
  if (s.to.radius_m > 0) expect_in(reply.to_turn_rad, exact.to_turn_rad, "turn of the second contact", of_rounding);
  // The direction of a pull.
  const Vec3 u = unit(s.leg.hang.from_pull_N());
  const Vec3 u_rate = (1 / norm(s.leg.hang.from_pull_N())) * (exact.from_pull_N - dot(u, exact.from_pull_N) * u);
  expect_in(answer.from_end.unit(), u, "direction", of_rounding);
  expect_in(answer.from_end.unit_rate(answer.from_end.unit(), exact.from_pull_N), u_rate, "its rate", of_rounding);
}

struct Kind {
  double unsure;  ///< how far the samples lie apart, of the leg's size
  int samples;
};

/// Legs between two sheaves, a sheave and a point or two points; fleet angles up to 20 deg, sheaves not small beside
/// the leg; the load plumb or aslant.
std::vector<Sample> draw(std::mt19937_64& random, const Kind& kind) {
  const double size = std::pow(10, uniform(random, -0.2, 1.3));
  const Vec3 run = size * unit(any(random));
  const auto end = [&](Point3 at) {
    if (random() % 4 == 0) return point_end(at);
    const Vec3 axle = unit(unit(cross(run, any(random))) + uniform(random, -0.35, 0.35) * unit(run));
    return LegEnd{at, axle, size * uniform(random, 0.01, 0.2), random() % 2 == 0 ? 1.0 : -1.0};
  };
  const LegEnd from = end({1, 2, 3}), to = end(Point3{1, 2, 3} + run);
  Tension tension{std::pow(10, uniform(random, 1.7, 3)), {0, 0, 2}, random() % 5 == 0 ? 0 : uniform(random, 0.1, 1.5)};
  if (random() % 2 == 0) tension.up = unit({uniform(random, -0.4, 0.4), uniform(random, -0.4, 0.4), 1});
  std::vector<Sample> samples;
  for (int i = 0; i < kind.samples; ++i) {
    const auto moved = [&](LegEnd e) {
      e.centre = e.centre + size * kind.unsure * any(random);
      if (e.radius_m > 0) e.axle = unit(e.axle + kind.unsure * any(random));
      return e;
    };
    Sample s{moved(from), moved(to), tension, {}};
    s.tension.at_N *= 1 + kind.unsure * uniform(random, -1, 1);
    const auto met = meet(s.from, s.to, s.tension);
    if (!met) return {};
    s.leg = *met;
    samples.push_back(s);
  }
  return samples;
}

/// Counts legs and how many of their answers are known.
void hold(const Kind& kind, int legs, double known_share) {
  std::mt19937_64 random(17);
  int known = 0, tried = 0;
  while (tried < legs) {
    const auto samples = draw(random, kind);
    if (samples.empty()) continue;
    ++tried;
    const EndBand from = end_over(samples, true), to = end_over(samples, false);
    std::optional<Band> mid;
    for (const Sample& s : samples) mid = mid ? hull(*mid, s.leg.hang.mid_tension_N) : Band(s.leg.hang.mid_tension_N);
    const Tension& t = samples[0].tension;
    const LegAnswer answer =
        leg_answer(from, to, to.at - from.at, *mid, t.weight_N_per_m, LineAxes::against(-t.weight_N_per_m * t.up));
    if (!answer.hangs) continue;
    ++known;
    for (const Sample& s : samples) {
      const auto move = [&](const LegEnd& end) {
        return Move{any(random), end.radius_m > 0 ? uniform(random, 0, 2) * any(random) : Vec3{}};
      };
      expect_holds(answer, s, from, to, move(s.from), move(s.to), uniform(random, -20, 20));
    }
    if (testing::Test::HasFailure()) FAIL() << "leg " << tried;
  }
  EXPECT_GT(known, known_share * legs);
}

TEST(LegAnswer, OfASingleLegItIsThatLegsOwn) { hold({0, 1}, 3000, 0.999); }
TEST(LegAnswer, OfTwentyThousandRandomLegsNoneAnswersOutsideItsBands) { hold({0.02, 10}, 2000, 0.9); }

TEST(LegAnswer, OfASingleLegItIsExact) {
  std::mt19937_64 random(23);
  for (int i = 0; i < 200; ++i) {
    const auto samples = draw(random, {0, 1});
    if (samples.empty()) continue;
    const EndBand from = end_over(samples, true), to = end_over(samples, false);
    const Tension& t = samples[0].tension;
    const LegAnswer answer = leg_answer(from, to, to.at - from.at, samples[0].leg.hang.mid_tension_N, t.weight_N_per_m,
                                        LineAxes::against(-t.weight_N_per_m * t.up));
    ASSERT_TRUE(answer.hangs);
    const LegReply r = answer.reply({Vec3{1, 2, 3}, Vec3{3, 2, 1}, Vec3{0, 1, 0}, Vec3{1, 0, 0}, true, true, true}, 5);
    for (const Band b : {r.length_m, r.from_pull_N.x, r.from_pull_N.y, r.from_pull_N.z, r.to_pull_N.x, r.to_pull_N.z,
                         r.from_turn_rad, r.to_turn_rad})
      EXPECT_LT(b.width(), 1e-9 * (1 + b.greatest_size())) << "leg " << i;
  }
}

// Where the fleet angle is nothing a contact that turns changes neither length nor force: what the leg loses the wrap
// gains.
TEST(LegAnswer, WithoutFleetAngleAContactsTurnChangesNothing) {
  const Sheave sheave{{0, 0, 0}, {0, 1, 0}, 0.3, 1};
  const LegEnd from = leaving(sheave), to = point_end({7, 0, 1});
  const Tension tension{60, {}, 1.2};
  const auto leg = meet(from, to, tension);
  ASSERT_TRUE(leg);
  const std::vector<Sample> one{{from, to, tension, *leg}};
  const EndBand a = end_over(one, true), b = end_over(one, false);
  const LegAnswer answer = leg_answer(a, b, b.at - a.at, leg->hang.mid_tension_N, 1.2, {});
  ASSERT_TRUE(answer.hangs);
  EXPECT_LT(answer.from.alone.length_m.greatest_size(), 1e-12);
  EXPECT_LT(longest(answer.from.alone.from_pull_N), 1e-10);
  EXPECT_LT(longest(answer.from.alone.to_pull_N), 1e-10);
  EXPECT_LT(longest(answer.from.couple_N_m), 1e-10) << "the pull moves along itself";
}

}  // namespace
}  // namespace fairlead::reeving
