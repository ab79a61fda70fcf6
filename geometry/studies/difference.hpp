// What changed from one revision of a layout to another: what its author changed, and what follows from that.
#pragma once

#include "geometry/checks/check.hpp"
#include "geometry/layout/differences.hpp"

namespace fairlead {

/// A number of either side; nothing where that side has no such thing, or could not solve it.
struct Pair {
  std::optional<double> was, is;
};

/// How much greater it is now, as a share of what it was; nothing without both, or from 0.
std::optional<double> growth(const Pair&);

/// A place that both sides give, and that stands elsewhere now. Along, across (to the left) and up of the old frame.
struct MovedPoint {
  std::string section, id, key;  ///< as in PartChange; of the brake trolley's mark on the bare main line "rest_mark"
  Vec3 by_m;                     ///< site frame
  double along_m{}, across_m{}, up_m{}, total_m{};
};

/// How the main line's own directions changed.
struct FrameChange {
  Vec3 start_by_m, end_by_m;  ///< of its supports, site frame
  double turned_rad{};        ///< in plan, anticlockwise seen from above: to the left
  Pair span_m, rise_m;
  bool any() const { return start_by_m != Vec3{} || end_by_m != Vec3{}; }
};

/// Of a [[line]] or [[support_line]].
struct LineChange {
  Item::Kind kind{};
  std::string id;
  Pair hanging_m, unloaded_m, cut_m, rest_tension_N, greatest_tension_N;
};

/// The worst fleet angle as its check found it.
struct SheaveChange {
  std::string id;
  Pair fleet_rad;
};

/// The greatest force on or in a part.
struct LoadChange {
  Pair force_N;
  Pair utilisation;  ///< as its check found it; of an anchor that only members rate the greatest of theirs
  std::optional<int> case_was, case_is;  ///< governing, index into the loads' cases; -1: nothing is tied to it
};

struct AnchorChange : LoadChange {
  std::string id;
};

/// The bare main line in one state.
struct StateChange {
  std::string name;  ///< "cold"; with the ends of the ranges it stands at where the layout leaves them open
  Pair sag_m, start_tension_N, end_tension_N;
};

/// One finding on both sides, or on one.
struct FindingChange {
  std::optional<std::size_t> was, is;  ///< index into the findings
  Pair reserve;                        ///< reserve_of
};

/// A tenth of the limit more or less left to it is worth saying.
inline constexpr double notable_reserve = 0.1;

struct Difference {
  std::vector<PartChange> inputs;
  std::vector<MovedPoint> moved;
  FrameChange frame;
  // Everything either side has, the old side's first, changed or not:
  std::vector<StateChange> main_line;
  LoadChange main_line_load;  ///< its greatest tension
  std::vector<AnchorChange> anchors;
  std::vector<LineChange> lines;
  std::vector<SheaveChange> sheaves;
  std::vector<FindingChange> findings;
};

Difference difference(const Judged& was, const Judged& is);

}  // namespace fairlead
