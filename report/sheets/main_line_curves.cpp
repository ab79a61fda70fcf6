#include "report/sheets/main_line_curves.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <functional>
#include <numeric>

#include "report/words/states.hpp"

namespace fairlead::sheets {

using namespace drawing;
using mainline::Loading;
using mainline::MainLine;
using mainline::Path;

namespace {

/// What one state has at every place.
struct Candidate {
  int state{};
  std::vector<double> values;
};

struct Edge {
  std::vector<double> values;
  std::vector<int> states;  ///< that it is of
};

/// The highest of all at every place, or the lowest. The state that is it on the whole is named first, and all that
/// lie beyond those already named.
Edge edge_of(std::vector<Candidate> all, bool highest, double unseen) {
  const double sign = highest ? 1 : -1;
  const auto sum = [](const Candidate& c) { return std::accumulate(c.values.begin(), c.values.end(), 0.0); };
  std::stable_sort(all.begin(), all.end(),
                   [&](const Candidate& a, const Candidate& b) { return sign * sum(a) > sign * sum(b); });
  Edge edge{all.front().values, {all.front().state}};
  for (const Candidate& other : all) {
    bool beyond = false;
    for (std::size_t i = 0; i < edge.values.size(); ++i) {
      const double more = sign * (other.values[i] - edge.values[i]);
      beyond = beyond || more > unseen;
      if (more > 0) edge.values[i] = other.values[i];
    }
    if (beyond) edge.states.push_back(other.state);
  }
  return edge;
}

LineType type_of(Loading loading) {
  switch (loading) {
    case Loading::empty:
      return LineType::dashed;
    case Loading::lightest:
      return LineType::long_dash_short_dash;
    case Loading::heaviest:
      return LineType::dash_double_dot;
  }
  return LineType::continuous;
}

/// Both edges, thin and wide.
void add(std::vector<PlotCurve>& out, const MainLine& line, std::string_view of, const std::vector<double>& chainages_m,
         const std::vector<Candidate>& all, Pen pen, double unseen) {
  for (const bool highest : {true, false}) {
    const Edge edge = edge_of(all, highest, unseen);
    std::string states;
    for (const int state : edge.states)
      states += (states.empty() ? "" : " or ") + words::name_of(line, line.states.at(static_cast<std::size_t>(state)));
    PlotCurve curve{{}, fmt::format("{}, {}: {}", of, highest ? "highest" : "lowest", states), pen};
    curve.pen.width_mm = highest ? narrow_mm : wide_mm;
    for (std::size_t i = 0; i < chainages_m.size(); ++i) curve.values.push_back({chainages_m[i], edge.values[i]});
    out.push_back(std::move(curve));
  }
}

using ValueOf = std::function<double(const Path&, const Path::Knot&)>;
/// Of every loading, by what a knot of its paths has, at the knots from `first` on up to `end`. All paths have theirs
/// at the same places.
void add_loaded(std::vector<PlotCurve>& out, const Rig& rig, const ValueOf& value, double unseen, std::size_t first = 0,
                std::size_t end = SIZE_MAX) {
  const MainLine& line = *rig.main_line.solved();
  for (const Loading loading : {Loading::empty, Loading::lightest, Loading::heaviest}) {
    std::vector<Candidate> all;
    std::vector<double> chainages_m;
    for (const mainline::StatePath& path : line.paths) {
      if (path.loading != loading) continue;
      const auto& knots = path.path.knots();
      all.push_back({path.state, {}});
      chainages_m.clear();
      for (std::size_t i = first; i < std::min(end, knots.size()); ++i) {
        chainages_m.push_back(knots[i].x_m + rig.frame.chainage_of_origin_m);
        all.back().values.push_back(value(path.path, knots[i]));
      }
    }
    const Layer layer = loading == Loading::empty ? Layer::braking_line : Layer::envelope;
    add(out, line, name_of_load(loading), chainages_m, all, {0, type_of(loading), layer}, unseen);
  }
}

constexpr Pen bare_pen{0, LineType::continuous, Layer::main_line};

}  // namespace

std::string_view name_of_load(Loading loading) {
  return loading == Loading::empty ? "empty trolley" : words::word_for(loading);
}

std::vector<PlotCurve> heights(const Rig& rig, double unseen_m) {
  const MainLine& line = *rig.main_line.solved();
  const Frame& frame = rig.frame;
  const double zero_m = frame.chainage_of_origin_m, start_m = frame.origin.z;
  std::vector<PlotCurve> out{{{{zero_m, start_m}, {zero_m + frame.span_m, start_m + frame.rise_m}},
                              "chord",
                              {narrow_mm, LineType::dash_dot, Layer::dimensions}}};
  // As far apart as the knots of the paths.
  const int steps = static_cast<int>(line.paths.front().path.knots().size()) + 1;
  std::vector<double> chainages_m;
  std::vector<Candidate> all;
  for (std::size_t s = 0; s < line.states.size(); ++s) all.push_back({static_cast<int>(s), {}});
  for (int i = 0; i <= steps; ++i) {
    const double x_m = std::min(frame.span_m * i / steps, frame.span_m);  // the last may round to beyond it
    chainages_m.push_back(zero_m + x_m);
    for (std::size_t s = 0; s < line.states.size(); ++s)
      all[s].values.push_back(start_m + line_at(line.states[s].cable, line.states[s].bare, x_m).z_m);
  }
  add(out, line, "bare line", chainages_m, all, bare_pen, unseen_m);
  add_loaded(
      out, rig, [&](const Path&, const Path::Knot& knot) { return start_m + knot.z_m; }, unseen_m);
  return out;
}

std::vector<PlotCurve> tensions(const Rig& rig, double unseen_N) {
  const MainLine& line = *rig.main_line.solved();
  const double zero_m = rig.frame.chainage_of_origin_m;
  std::vector<PlotCurve> out;
  std::vector<Candidate> bare;
  for (std::size_t s = 0; s < line.states.size(); ++s) {
    const double H_N = line.states[s].bare.pieces[0].H_N;
    bare.push_back({static_cast<int>(s), {H_N, H_N}});
  }
  add(out, line, "bare line", {zero_m, zero_m + rig.frame.span_m}, bare, bare_pen, unseen_N);
  add_loaded(
      out, rig, [](const Path&, const Path::Knot& knot) { return knot.H_N; }, unseen_N);
  return out;
}

std::vector<PlotCurve> drives(const Rig& rig, double from_m, double to_m, double unseen) {
  const double zero_m = rig.frame.chainage_of_origin_m;
  const auto& knots = rig.main_line.solved()->paths.front().path.knots();
  const auto before = [&](double chainage_m) {  // how many knots lie before a chainage
    return static_cast<std::size_t>(
        std::ranges::count_if(knots, [&](const Path::Knot& knot) { return zero_m + knot.x_m < chainage_m; }));
  };
  const std::size_t first = before(from_m), end = before(to_m);
  std::vector<PlotCurve> out;
  add_loaded(
      out, rig, [](const Path& path, const Path::Knot& knot) { return knot.drive_force_N / path.weight_N(); }, unseen,
      first > 0 ? first - 1 : 0, end + 1);
  return out;
}

}  // namespace fairlead::sheets
