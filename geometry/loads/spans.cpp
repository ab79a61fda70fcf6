// Riders and rescuers anywhere on the main line, with and without riders on the lines beside it.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/loads/cases.hpp"
#include "geometry/mainline/names.hpp"
#include "geometry/mainline/worst.hpp"

namespace fairlead::loads {
namespace {

/// What is to be the greatest.
struct Aim {
  mainline::ForceOf force;
  bool start{}, saddle{};  ///< at the start support, else the landing; on the saddle there, else the tension
  Slip slip{};             ///< of a saddle
};

Spanning spanning(const mainline::Cable& cable, const mainline::Shape& shape, const reeving::Inputs& reeving) {
  const mainline::SupportForces ends = mainline::support_forces(cable, shape);
  return {cable,
          {},
          ends.start_x_N * reeving.along + ends.start_z_N * reeving.up,
          ends.end_x_N * reeving.along + ends.end_z_N * reeving.up};
}

std::vector<Aim> aims_of(const Rigged& rig, const mainline::Cable& cable) {
  std::vector<Aim> aims{{mainline::tension_at_start(cable), true}, {mainline::tension_at_end(cable), false}};
  for (const bool start : {true, false}) {
    if ((start ? rig.in.start_back_anchor : rig.in.end_back_anchor) == no_anchor) continue;
    for (const Slip slip : rig.books.slips()) {
      const auto force = [&rig, &cable, start, slip](const mainline::Shape& shape) {
        return size(rig.books.on_support(spanning(cable, shape, rig.reeving_in), start, slip));
      };
      aims.push_back({force, start, true, slip});
    }
  }
  return aims;
}

/// By how much the forces on the anchors of one end may be greater beside the place that was found.
void add_gap(const Rigged& rig, const Aim& aim, const mainline::WorstPlace& at, std::vector<double>& gap_N) {
  const int support = aim.start ? rig.in.start_anchor : rig.in.end_anchor,
            back = aim.start ? rig.in.start_back_anchor : rig.in.end_back_anchor;
  const double gap = at.bound_N - at.force_N, K = rig.in.saddle_friction;
  const bool both = back != no_anchor && !aim.saddle;  // the tension on both sides of the saddle
  gap_N[static_cast<std::size_t>(support)] += both ? (1 + K) * gap : gap;
  if (both) gap_N[static_cast<std::size_t>(back)] += K * gap;
}

std::string worst_for(const Aim& aim) {
  return fmt::format("worst for the {} {}", aim.start ? "start" : "landing", aim.saddle ? "saddle" : "support");
}

std::string family_of(Action action, const mainline::State& state, const Aim& aim, Slip slip) {
  return fmt::format("{}, {}, {}, {}", static_cast<int>(action), mainline::word_for(state.weather), worst_for(aim),
                     static_cast<int>(slip));
}

/// Of still air, or of the wind from one side.
struct Wind {
  std::string words;  ///< ", side wind from the left"
  Vec3 line_N_per_m, rider_N;
  std::vector<Vec3> beside_N_per_m;
};

std::vector<Wind> winds_of(const Rigged& rig, int sweep) {
  std::vector<Wind> winds{{"", {}, {}, std::vector<Vec3>(rig.in.beside.size())}};
  if (rig.in.ridden_wind.empty()) return winds;
  const RiddenWind& most = rig.in.ridden_wind[static_cast<std::size_t>(rig.path_of(sweep).state)];
  for (const double side : {1., -1.}) {
    const Vec3 across = side * rig.reeving_in.across;
    Wind wind{", " + wind_words(across, rig.reeving_in), most.line_N_per_m * across, most.rider_N * across, {}};
    for (const double N_per_m : most.beside_N_per_m) wind.beside_N_per_m.push_back(N_per_m * across);
    winds.push_back(std::move(wind));
  }
  return winds;
}

bool is_still(const Wind& wind) { return wind.words.empty(); }

/// A parallel line in the state of a sweep, from anchor to anchor.
struct BesideLine {
  const mainline::Cable& cable;
  Point3 from, to;
};
BesideLine beside_line(const Rigged& rig, int sweep, std::size_t i) {
  const Beside& line = rig.in.beside[i];
  return {line.in_state[static_cast<std::size_t>(rig.path_of(sweep).state)],
          rig.in.anchors[static_cast<std::size_t>(line.from)], rig.in.anchors[static_cast<std::size_t>(line.to)]};
}

Solved<HungForces> bare_beside(const Rigged& rig, int sweep, std::size_t i, const Wind& wind) {
  const BesideLine line = beside_line(rig, sweep, i);
  auto bare = hang_between(line.from, line.to, line.cable, wind.beside_N_per_m[i]);
  if (!bare) return unsolved("a parallel line: " + bare.error().why, bare.error().residual);
  return bare;
}

/// [line][0: worst for its start, 1: for its end], in still air; none where nothing rolls on it.
using BesidePlaces = std::vector<std::vector<mainline::WorstPlace>>;

Solved<BesidePlaces> beside_places(const Rigged& rig, int sweep) {
  BesidePlaces all;
  for (std::size_t i = 0; i < rig.in.beside.size(); ++i) {
    all.emplace_back();
    if (!(rig.in.beside[i].rider_N > 0)) continue;
    const mainline::Cable& cable = beside_line(rig, sweep, i).cable;
    const mainline::ForceOf tensions[] = {mainline::tension_at_start(cable), mainline::tension_at_end(cable)};
    auto worst = mainline::worst_places(cable, rig.in.beside[i].rider_N, std::nullopt, 0.01 * cable.span_m,
                                        0.99 * cable.span_m, tensions);
    if (!worst) return unsolved("a parallel line: " + worst.error().why, worst.error().residual);
    all.back() = std::move(*worst);
  }
  return all;
}

/// A parallel line with its rider at the worst place for one of its supports.
struct BesideWorst {
  HungForces forces;
  Tension tension;
};

/// [line][0: worst for its start, 1: for its end]; bare where nothing rolls on it.
using BesideWorsts = std::vector<std::array<BesideWorst, 2>>;

Solved<BesideWorsts> beside_worsts(const Rigged& rig, int sweep, const BesidePlaces& places, const Wind& wind) {
  BesideWorsts all;
  for (std::size_t i = 0; i < rig.in.beside.size(); ++i) {
    if (places[i].empty()) {
      const auto bare = bare_beside(rig, sweep, i, wind);
      if (!bare) return tl::unexpected(bare.error());
      const BesideWorst empty{*bare, {bare->tension_N, bare->tension_N}};
      all.push_back({empty, empty});
      continue;
    }
    const auto& [cable, from, to] = beside_line(rig, sweep, i);
    const Vec3 chord = to - from, along = (1 / cable.span_m) * Vec3{chord.x, chord.y, 0};
    all.emplace_back();
    for (const std::size_t end : {0, 1}) {
      const mainline::WorstPlace& at = places[i][end];
      HungForces forces = forces_of(from, along, rig.reeving_in.up, cable, at.shape);
      const double gap_N = at.bound_N - at.force_N;
      if (!is_still(wind)) {
        const Vec3 square_N = wind.rider_N - dot(wind.rider_N, along) * along;
        const Borne rider{at.rider_x_m, square_N - rig.in.beside[i].rider_N * rig.reeving_in.up};
        auto blown = hang_ridden(from, to, cable, wind.beside_N_per_m[i], {&rider, 1}, forces.on_from_N);
        if (!blown) return unsolved("a parallel line: " + blown.error().why, blown.error().residual);
        forces = std::move(*blown);
      }
      const double value_N = is_still(wind) ? at.force_N : forces.tension_N;
      all.back()[end] = {std::move(forces), {value_N, value_N + gap_N}};
    }
  }
  return all;
}

class Spans {
 public:
  explicit Spans(const Rigged& rig) : rig_(rig) {}

  tl::expected<void, Unsolved> walk(std::size_t path, int sweep) {
    const reeving::SweepInputs& carried = rig_.reeving_in.sweeps[static_cast<std::size_t>(sweep)];
    const std::string loading(mainline::word_for(mainline::Loading::heaviest));
    const std::vector<Wind> winds = winds_of(rig_, sweep);
    const bool ridden =
        std::any_of(rig_.in.beside.begin(), rig_.in.beside.end(), [](const Beside& line) { return line.rider_N > 0; });
    const auto places = beside_places(rig_, sweep);
    if (!places) return tl::unexpected(places.error());
    if (auto placed = place(path, sweep, carried.rider_weight_N, 1); !placed) return placed;
    for (const Wind& wind : winds) {
      if (auto added = alone(sweep, wind, Action::rider_on_span, loading + " on the open span", bare(sweep, wind));
          !added)
        return added;
      if (!ridden) continue;
      const auto beside = beside_worsts(rig_, sweep, *places, wind);
      if (!beside) return tl::unexpected(beside.error());
      if (auto added = together(sweep, wind, *beside); !added) return added;
    }
    if (!(rig_.in.rescuer_N > 0)) return {};
    if (auto placed = place(path, sweep, carried.rider_weight_N + rig_.in.rescuer_N, 2); !placed) return placed;
    for (const Wind& wind : winds)
      if (auto added = alone(sweep, wind, Action::rescue, "rescue on the open span", bare(sweep, wind)); !added)
        return added;
    return {};
  }

  std::vector<Single> found;

 private:
  struct Placed {
    Aim aim;
    mainline::WorstPlace at;
  };

  /// Riders of a weight, so many persons, where they are worst in still air.
  tl::expected<void, Unsolved> place(std::size_t path, int sweep, double weight_N, int persons) {
    const reeving::SweepInputs& carried = rig_.reeving_in.sweeps[static_cast<std::size_t>(sweep)];
    const mainline::Cable& cable = carried.state.cable;
    const reeving::Pose& upstream = rig_.reeved.sweeps[static_cast<std::size_t>(sweep)].poses.front();
    trolley_ = {rig_.reeving_in.rest_m, carried.trolley_weight_N - dot(upstream.pull_on_trolley_N, rig_.reeving_in.up)};
    weight_N_ = weight_N;
    persons_ = persons;
    const std::vector<Aim> aims = aims_of(rig_, cable);
    std::vector<mainline::ForceOf> forces;
    for (const Aim& aim : aims) forces.push_back(aim.force);
    const auto worst =
        mainline::worst_places(cable, weight_N, trolley_, from_m(path, cable), trolley_.x_m - 0.01, forces);
    if (!worst) return tl::unexpected(worst.error());
    placed_.clear();
    for (std::size_t i = 0; i < aims.size(); ++i) placed_.push_back({aims[i], (*worst)[i]});
    return {};
  }

  /// A saddle may carry most when the rider is beside it, the tensions on the span itself in its middle.
  double from_m(std::size_t path, const mainline::Cable& cable) const {
    const bool saddle = rig_.in.start_back_anchor != no_anchor;
    return saddle ? 1e-3 * cable.span_m : rig_.main_line.paths[path].path.from_m();
  }

  /// Parallel lines on which nobody rides.
  Solved<BesideForces> bare(int sweep, const Wind& wind) const {
    if (is_still(wind)) return rig_.books.bare_beside(sweep);
    BesideForces all;
    for (std::size_t i = 0; i < rig_.in.beside.size(); ++i) {
      auto hung = bare_beside(rig_, sweep, i, wind);
      if (!hung) return tl::unexpected(hung.error());
      all.push_back(std::move(*hung));
    }
    return all;
  }

  tl::expected<void, Unsolved> alone(int sweep, const Wind& wind, Action action, const std::string& words,
                                     const Solved<BesideForces>& beside) {
    if (!beside) return tl::unexpected(beside.error());
    for (const Placed& one : placed_)
      for (const Slip slip : rig_.books.slips())
        if (!one.aim.saddle || one.aim.slip == slip)
          if (auto added = add(one, sweep, wind, slip, action, words, *beside); !added) return added;
    return {};
  }

  /// The riders of place() with those of the parallel lines.
  tl::expected<void, Unsolved> together(int sweep, const Wind& wind, const BesideWorsts& beside) {
    for (const Placed& one : placed_)
      for (const Slip slip : rig_.books.slips())
        for (const std::size_t end : {0, 1}) {
          if (one.aim.saddle && one.aim.slip != slip) continue;
          BesideForces forces;
          for (const auto& line : beside) forces.push_back(line[end].forces);
          const std::string words =
              fmt::format("riders on the main line and beside it at the worst for the {}", end == 0 ? "start" : "end");
          if (auto added = add(one, sweep, wind, slip, Action::both_lines, words, forces); !added) return added;
          for (std::size_t i = 0; i < beside.size(); ++i) {
            const Tension& tension = beside[i][end].tension;
            found.back().beside[i] = tension;
            for (const int anchor : {rig_.in.beside[i].from, rig_.in.beside[i].to})
              found.back().gap_N[static_cast<std::size_t>(anchor)] += tension.bound_N - tension.value_N;
          }
        }
    return {};
  }

  Solved<HungForces> main_line(const Placed& one, const mainline::Cable& cable, const Wind& wind) const {
    const reeving::Inputs& in = rig_.reeving_in;
    const HungForces still = forces_of(in.origin, in.along, in.up, cable, one.at.shape);
    if (is_still(wind)) return still;
    const Borne wheels[] = {{one.at.rider_x_m, persons_ * wind.rider_N - weight_N_ * in.up},
                            {trolley_.x_m, -trolley_.weight_N * in.up}};
    const Point3 end = in.origin + cable.span_m * in.along + cable.rise_m * in.up;
    return hang_ridden(in.origin, end, cable, wind.line_N_per_m, wheels, still.on_from_N);
  }

  tl::expected<void, Unsolved> add(const Placed& one, int sweep, const Wind& wind, Slip slip, Action action,
                                   const std::string& words, const BesideForces& beside) {
    const mainline::Cable& cable = rig_.reeving_in.sweeps[static_cast<std::size_t>(sweep)].state.cable;
    const mainline::State& state = rig_.state_of(sweep);
    const auto line = main_line(one, cable, wind);
    if (!line) return tl::unexpected(line.error());
    Spanned spanned = rig_.books.on_span(sweep, 0, {cable, wind.line_N_per_m}, *line, slip, beside);
    const std::size_t end = one.aim.start ? 0 : 1;
    const double tension_N = size(spanned.main_line_N[end]);
    Single single{.action = action,
                  .name = fmt::format("{}{}, {}, {}{}", words, wind.words, mainline::name_of(rig_.main_line, state),
                                      worst_for(one.aim), words_for(slip)),
                  .family = is_still(wind) ? family_of(action, state, one.aim, slip) : "",
                  .measure_N = one.at.force_N,
                  .travel_m = one.at.rider_x_m - rig_.reeving_in.rest_m,
                  .balance = std::move(spanned.balance),
                  .gap_N = std::vector<double>(rig_.in.anchors.size())};
    add_gap(rig_, one.aim, one.at, single.gap_N);
    // Elsewhere all of the wind on the rider may come to the support.
    single.gap_N[static_cast<std::size_t>(one.aim.start ? rig_.in.start_anchor : rig_.in.end_anchor)] +=
        persons_ * size(wind.rider_N);
    single.left_out = one.aim.start ? std::vector{rig_.in.end_anchor, rig_.in.end_back_anchor}
                                    : std::vector{rig_.in.start_anchor, rig_.in.start_back_anchor};
    const double gap_N = one.aim.saddle ? 0 : (one.at.bound_N - one.at.force_N) * rig_.in.saddle_friction;
    single.main_line[end] = {tension_N, tension_N + gap_N};
    for (const HungForces& hung : beside) single.beside.push_back({hung.tension_N, hung.tension_N});
    found.push_back(std::move(single));
    return {};
  }

  const Rigged& rig_;
  std::vector<Placed> placed_;
  mainline::Load trolley_;
  double weight_N_{};
  int persons_{};
};

}  // namespace

Solved<std::vector<Single>> span_cases(const Rigged& rig) {
  Spans spans(rig);
  for (std::size_t p = 0; p < rig.main_line.paths.size(); ++p) {
    const int sweep = rig.at_rest_sweep(p);
    if (rig.main_line.paths[p].loading != mainline::Loading::heaviest || sweep < 0) continue;
    if (auto walked = spans.walk(p, sweep); !walked) return tl::unexpected(walked.error());
  }
  return std::move(spans.found);
}

}  // namespace fairlead::loads
