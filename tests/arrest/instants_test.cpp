// Which instants of an arrest are kept for the loads.
#include "geometry/arrest/instants.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

constexpr Bodies bodies{.rider_kg = 80, .rider_trolley_kg = 2.5, .brake_trolley_kg = 4, .hanging_m = 1.3};

Track level() {
  auto track = Track::plain({.ratio = 1, .travel_m = 15, .weight_N = 86.5 * standard_gravity});
  if (!track) throw std::runtime_error(track.error().why);
  return *track;
}

/// A cloud of instants between 0 and 15 m, some drawn in; the lanyard plumb, so that the load is its pull and both
/// trolleys.
std::vector<Instant> cloud(std::size_t count) {
  std::vector<Instant> all;
  for (std::size_t i = 0; i < count; ++i) {
    const double t = 0.005 * static_cast<double>(i), x = 7.5 - 7.49 * std::cos(0.3 * t);
    all.push_back({.t_s = t,
                   .travel_m = x,
                   .extension_m = x + 0.1 * std::sin(3 * t),
                   .line_speed_m_per_s = std::sin(0.3 * t) > 0 ? 1.0 : -1.0,
                   .unit_tension_N = 300 + 200 * std::sin(1.7 * t),
                   .lanyard_N = 900 + 700 * std::cos(2.3 * t),
                   .brake_travel_m = x});
  }
  return all;
}

double down_N(const Instant& i) { return i.lanyard_N + 6.5 * standard_gravity; }

/// Greatest of a T + b W over one cell and sense; -infinity where there is none.
template <class Instants, class Of>
double greatest(const Instants& instants, int cell, bool out, const Of& of) {
  double most = -INFINITY;
  for (const auto& i : instants) {
    if (load_cell(i.travel_m) == cell && (i.line_speed_m_per_s > 0) == out) most = std::max(most, of(i));
  }
  return most;
}

/// SUPPORT: in every direction of (T, W) the kept ones reach as far as all, but for the share that may be left out.
TEST(LoadInstants, ReachAsFarAsTheWholeRecordInEveryDirection) {
  const std::vector<Instant> record = cloud(8000);
  const std::vector<LoadInstant> kept = load_instants(level(), bodies, record, {});
  EXPECT_LT(kept.size(), 900u);
  EXPECT_GT(kept.size(), 100u);
  const double T = 500, W = 1600 + 6.5 * standard_gravity;  // the greatest of the cloud
  for (int cell = 0; cell <= load_cell(15); ++cell)
    for (const bool out : {true, false})
      for (int d = 0; d < 36; ++d) {
        const double a = std::cos(d * 0.1745) / T, b = std::sin(d * 0.1745) / W;
        const double all =
            greatest(record, cell, out, [&](const Instant& i) { return a * i.unit_tension_N + b * down_N(i); });
        const double few =
            greatest(kept, cell, out, [&](const LoadInstant& i) { return a * i.unit_tension_N + b * i.down_N(); });
        EXPECT_LE(few, all + 1e-12);
        EXPECT_GE(few, all - left_out_share) << cell << " " << d;
      }
}

TEST(LoadInstants, HoldTheFarthestExtensionAndTheEdges) {
  std::vector<Instant> record = cloud(500), edges = {record[100]};
  edges[0].unit_tension_N = 5000;  // an impact that the record steps over
  edges[0].extension_m = 40;
  const std::vector<LoadInstant> kept = load_instants(level(), bodies, record, edges);
  const auto has = [&](auto what) { return std::any_of(kept.begin(), kept.end(), what); };
  EXPECT_TRUE(has([](const LoadInstant& i) { return i.unit_tension_N == 5000; }));
  EXPECT_TRUE(has([](const LoadInstant& i) { return i.extension_m == 40; }));
  EXPECT_TRUE(load_instants(level(), bodies, {}, {}).empty());
}

/// A line that stands still over its sheaves may be held by friction either way.
TEST(LoadInstants, AtAStandstillCountWithBothSensesOfFriction) {
  std::vector<Instant> record = cloud(3);
  for (Instant& i : record) i.travel_m = i.brake_travel_m = 1;
  record[0].line_speed_m_per_s = 0, record[0].unit_tension_N = 900;
  record[1].line_speed_m_per_s = 1, record[2].line_speed_m_per_s = -1;
  const std::vector<LoadInstant> kept = load_instants(level(), bodies, record, {});
  EXPECT_GE(std::count_if(kept.begin(), kept.end(), [](const LoadInstant& i) { return i.unit_tension_N == 900; }), 2);
}

TEST(LoadInstants, OfSeveralMotionsReachAsFarAsEach) {
  std::vector<OfMotion> all;
  for (int m = 0; m < 3; ++m) {
    std::vector<Instant> record = cloud(3000);
    for (Instant& i : record) i.unit_tension_N *= 1 + 0.1 * m, i.lanyard_N *= 1 - 0.1 * m;
    for (const LoadInstant& i : load_instants(level(), bodies, record, {})) all.push_back({m, i});
  }
  const std::vector<OfMotion> kept = governing_instants(all);
  EXPECT_LT(kept.size(), all.size());
  const auto most = [](const std::vector<OfMotion>& of, auto what) {
    double found = 0;
    for (const OfMotion& one : of) found = std::max(found, what(one.at));
    return found;
  };
  EXPECT_EQ(most(kept, [](const LoadInstant& i) { return i.unit_tension_N; }),
            most(all, [](const LoadInstant& i) { return i.unit_tension_N; }));
  EXPECT_EQ(most(kept, [](const LoadInstant& i) { return i.down_N(); }),
            most(all, [](const LoadInstant& i) { return i.down_N(); }));
}

TEST(LoadCells, CoverTheTravelWithoutAGap) {
  int before = -1;
  for (double x = 0; x < 20; x += 0.01) {
    const int cell = load_cell(x);
    EXPECT_TRUE(cell == before || cell == before + 1) << x;
    EXPECT_LE(cell_begins_m(cell), x + 1e-12);
    EXPECT_GT(cell_begins_m(cell + 1), x);
    before = cell;
  }
}

}  // namespace
}  // namespace fairlead::arrest
