// The states a main line can be in: cold or warm, stiff or soft, taut or slack; and its paths in each.
#pragma once

#include <string>
#include <vector>

#include "geometry/mainline/cable.hpp"
#include "geometry/mainline/path.hpp"

namespace fairlead::mainline {

struct Span {
  double low{}, high{};
  bool operator==(const Span&) const = default;
};

/// What the author knows of the line, in plain numbers (SI).
struct Inputs {
  double span_m{}, rise_m{};
  double mass_kg_per_m{};
  Span compliance_per_N;  ///< low: the stiffest line
  double expansion_per_K{};
  enum class Known { unstretched_length, sag, tension } known{};
  Span measure;  ///< m, m or N
  MeasuredAt measured_at{};
  double measured_K{}, coldest_K{}, warmest_K{};
  double empty_kg{};                    ///< the brake trolley
  double lightest_kg{}, heaviest_kg{};  ///< rider, rider trolley and brake trolley together
  double path_from_m{}, path_to_m{};    ///< where paths are wanted
  bool operator==(const Inputs&) const = default;
};

enum class Weather { measured, cold, warm };
enum class Loading { empty, lightest, heaviest };

/// One state. `taut` is the end of the range of the measure that gives the tighter line.
struct State {
  Weather weather{};
  bool stiff{}, taut{};
  double temperature_K{};
  Cable cable;
  Shape bare;
  double sag_m{}, start_tension_N{}, end_tension_N{};
};

struct StatePath {
  int state{};  ///< index into states
  Loading loading{};
  Path path;
  std::vector<double> rest_points_m;
};

/// States in the order measured, cold, warm, each with every distinct end of the stiffness and measure ranges
/// (one where a range is a single value). Paths for cold and warm states, empty, lightest, heaviest.
struct MainLine {
  std::vector<State> states;
  std::vector<StatePath> paths;
};

Solved<MainLine> solve(const Inputs&);

}  // namespace fairlead::mainline
