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

/// A parallel line with its rider at the worst place for one of its supports.
struct BesideWorst {
  HungForces forces;
  Tension tension;
};

/// [line][0: worst for its start, 1: for its end]; bare where nothing rolls on it.
using BesideWorsts = std::vector<std::array<BesideWorst, 2>>;

Solved<BesideWorsts> beside_worsts(const Rigged& rig, int sweep) {
  BesideWorsts all;
  for (std::size_t i = 0; i < rig.in.beside.size(); ++i) {
    const Beside& line = rig.in.beside[i];
    const HungForces& bare = rig.books.bare_beside(sweep)[i];
    const BesideWorst empty{bare, {bare.tension_N, bare.tension_N}};
    all.push_back({empty, empty});
    if (!(line.rider_N > 0)) continue;
    const mainline::Cable& cable = line.in_state[static_cast<std::size_t>(rig.path_of(sweep).state)];
    const mainline::ForceOf tensions[] = {mainline::tension_at_start(cable), mainline::tension_at_end(cable)};
    const auto worst =
        mainline::worst_places(cable, line.rider_N, std::nullopt, 0.01 * cable.span_m, 0.99 * cable.span_m, tensions);
    if (!worst) return unsolved("a parallel line: " + worst.error().why, worst.error().residual);
    const Point3 from = rig.in.anchors[static_cast<std::size_t>(line.from)];
    const Vec3 chord = rig.in.anchors[static_cast<std::size_t>(line.to)] - from;
    const Vec3 along = (1 / cable.span_m) * Vec3{chord.x, chord.y, 0};
    for (const std::size_t end : {0, 1}) {
      const mainline::WorstPlace& at = (*worst)[end];
      all.back()[end] = {forces_of(from, along, rig.reeving_in.up, cable, at.shape), {at.force_N, at.bound_N}};
    }
  }
  return all;
}

class Spans {
 public:
  explicit Spans(const Rigged& rig) : rig_(rig) {}

  tl::expected<void, Unsolved> walk(std::size_t path, int sweep) {
    const reeving::SweepInputs& carried = rig_.reeving_in.sweeps[static_cast<std::size_t>(sweep)];
    const auto beside = beside_worsts(rig_, sweep);
    if (!beside) return tl::unexpected(beside.error());
    const std::string loading(mainline::word_for(mainline::Loading::heaviest));
    auto riders = place(path, sweep, carried.rider_weight_N, Action::rider_on_span, loading + " on the open span");
    if (!riders) return riders;
    const bool ridden =
        std::any_of(rig_.in.beside.begin(), rig_.in.beside.end(), [](const Beside& line) { return line.rider_N > 0; });
    if (ridden) together(sweep, *beside);
    if (!(rig_.in.rescuer_N > 0)) return {};
    return place(path, sweep, carried.rider_weight_N + rig_.in.rescuer_N, Action::rescue, "rescue on the open span");
  }

  std::vector<Single> found;

 private:
  struct Placed {
    Aim aim;
    mainline::WorstPlace at;
  };

  tl::expected<void, Unsolved> place(std::size_t path, int sweep, double weight_N, Action action,
                                     const std::string& words) {
    const reeving::SweepInputs& carried = rig_.reeving_in.sweeps[static_cast<std::size_t>(sweep)];
    const mainline::Cable& cable = carried.state.cable;
    const reeving::Pose& upstream = rig_.reeved.sweeps[static_cast<std::size_t>(sweep)].poses.front();
    const mainline::Load trolley{rig_.reeving_in.rest_m,
                                 carried.trolley_weight_N - dot(upstream.pull_on_trolley_N, rig_.reeving_in.up)};
    const std::vector<Aim> aims = aims_of(rig_, cable);
    std::vector<mainline::ForceOf> forces;
    for (const Aim& aim : aims) forces.push_back(aim.force);
    const auto worst =
        mainline::worst_places(cable, weight_N, trolley, from_m(path, cable), trolley.x_m - 0.01, forces);
    if (!worst) return tl::unexpected(worst.error());
    placed_.clear();
    for (std::size_t i = 0; i < aims.size(); ++i) placed_.push_back({aims[i], (*worst)[i]});
    const BesideForces& bare = rig_.books.bare_beside(sweep);
    for (const Placed& one : placed_)
      for (const Slip slip : rig_.books.slips())
        if (!one.aim.saddle || one.aim.slip == slip) add(one, sweep, slip, action, words, bare);
    return {};
  }

  /// A saddle may carry most when the rider is beside it, the tensions on the span itself in its middle.
  double from_m(std::size_t path, const mainline::Cable& cable) const {
    const bool saddle = rig_.in.start_back_anchor != no_anchor;
    return saddle ? 1e-3 * cable.span_m : rig_.main_line.paths[path].path.from_m();
  }

  /// The riders of place() with those of the parallel lines.
  void together(int sweep, const BesideWorsts& beside) {
    const std::vector<Placed> placed = placed_;
    for (const Placed& one : placed)
      for (const Slip slip : rig_.books.slips())
        for (const std::size_t end : {0, 1}) {
          if (one.aim.saddle && one.aim.slip != slip) continue;
          BesideForces forces;
          for (const auto& line : beside) forces.push_back(line[end].forces);
          add(one, sweep, slip, Action::both_lines,
              fmt::format("riders on the main line and beside it at the worst for the {}", end == 0 ? "start" : "end"),
              forces);
          for (std::size_t i = 0; i < beside.size(); ++i) {
            const Tension& tension = beside[i][end].tension;
            found.back().beside[i] = tension;
            for (const int anchor : {rig_.in.beside[i].from, rig_.in.beside[i].to})
              found.back().gap_N[static_cast<std::size_t>(anchor)] += tension.bound_N - tension.value_N;
          }
        }
  }

  void add(const Placed& one, int sweep, Slip slip, Action action, const std::string& words,
           const BesideForces& beside) {
    const mainline::Cable& cable = rig_.reeving_in.sweeps[static_cast<std::size_t>(sweep)].state.cable;
    const mainline::State& state = rig_.state_of(sweep);
    Spanned spanned = rig_.books.on_span(sweep, 0, cable, one.at.shape, slip, beside);
    Single single{.action = action,
                  .name = fmt::format("{}, {}, {}{}", words, mainline::name_of(rig_.main_line, state),
                                      worst_for(one.aim), words_for(slip)),
                  .family = fmt::format("{}, {}, {}, {}", static_cast<int>(action), mainline::word_for(state.weather),
                                        worst_for(one.aim), static_cast<int>(slip)),
                  .measure_N = one.at.force_N,
                  .travel_m = one.at.rider_x_m - rig_.reeving_in.rest_m,
                  .balance = std::move(spanned.balance),
                  .gap_N = std::vector<double>(rig_.in.anchors.size())};
    add_gap(rig_, one.aim, one.at, single.gap_N);
    single.left_out = one.aim.start ? std::vector{rig_.in.end_anchor, rig_.in.end_back_anchor}
                                    : std::vector{rig_.in.start_anchor, rig_.in.start_back_anchor};
    const double gap_N = one.aim.saddle ? 0 : (one.at.bound_N - one.at.force_N) * rig_.in.saddle_friction;
    const std::size_t end = one.aim.start ? 0 : 1;
    const double tension_N = size(spanned.main_line_N[end]);
    single.main_line[end] = {tension_N, tension_N + gap_N};
    for (const HungForces& line : beside) single.beside.push_back({line.tension_N, line.tension_N});
    found.push_back(std::move(single));
  }

  const Rigged& rig_;
  std::vector<Placed> placed_;
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
