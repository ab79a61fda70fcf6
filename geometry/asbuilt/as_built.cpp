#include "geometry/asbuilt/as_built.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>

#include "geometry/asbuilt/drawn_findings.hpp"
#include "geometry/asbuilt/hand.hpp"
#include "geometry/asbuilt/held.hpp"
#include "geometry/asbuilt/measured.hpp"
#include "geometry/checks/counterpart.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

bool same(const Finding& a, const Finding& b) {
  const auto same_fact = [](const Fact& x, const Fact& y) { return x.name == y.name && x.value == y.value; };
  return a.verdict == b.verdict && a.measured == b.measured && same(a.value, b.value) && same(a.bound, b.bound) &&
         a.why == b.why && a.travel_m == b.travel_m && std::ranges::equal(a.facts, b.facts, same_fact);
}

class Building {
 public:
  Building(Layout layout, Survey survey, const BuiltTerms& terms, const Work& work) : work_(work) {
    out_.survey = std::move(survey);
    out_.terms = terms;
    out_.design = judge(std::move(layout), {}, work);
    out_.marks = set_out_points(out_.design.rig);
  }

  tl::expected<AsBuilt, SurveyErrors> build() {
    SurveyErrors errors;
    const Layout& layout = out_.design.rig.layout;
    const std::vector<SiteReading> readings =
        site_readings(out_.survey.measurements, known_ids(layout, out_.marks), errors.measurements);
    auto placing = place_points(layout, out_.marks, out_.survey.points, out_.survey.terms, readings);
    if (placing)
      out_.placing = std::move(*placing);
    else
      join(out_.survey.terms.tapes_alone ? errors.measurements : errors.points, std::move(placing.error()));
    const bool main_line_shot = placing && !out_.placing.line_shots.empty();
    auto values = match(out_.design.rig, out_.survey.measurements, main_line_shot, out_.characteristics);
    if (!values) join(errors.measurements, std::move(values.error()));
    if (values && placing) tell_both(errors.measurements, *values);
    if (values && main_line_shot) tell_warmth(errors.points, *values);
    std::optional<Placing> earlier = placed_earlier(errors.earlier);
    if (!errors.points.first.empty() || !errors.measurements.first.empty() || !errors.earlier.first.empty())
      return tl::unexpected<SurveyErrors>(std::move(errors));
    if (out_.placing.doubt.empty()) out_.placing.doubt = hand_in_doubt(out_.placing, out_.characteristics, *values);
    if (earlier && earlier->doubt.empty() && !earlier->hand_told && !same_axes(*earlier, out_.placing))
      earlier->doubt = hand_in_doubt(*earlier, {}, {});
    for (MeasuredValue& value : *values) value = in_site_frame(std::move(value));
    out_.values = std::move(*values);
    note_measured();
    note_main_line();
    out_.place_uncertainty_m = place_uncertainty_m(out_.placing, out_.design.rig.frame, out_.terms.seed);
    if (earlier)
      out_.since = moved_since(*out_.survey.earlier, std::move(*earlier), out_.placing, out_.place_uncertainty_m,
                               out_.design.rig.frame, out_.terms.seed);
    if (out_.terms.box) out_.placement = placement(out_.design, false, work_);
    out_.built = judge(built({}, {}), {&out_.design.rig}, work_);
    for (const Finding& finding : out_.built.findings) out_.basis.push_back({.as_measured = finding.verdict});
    find_unmeasured();
    draw();
    conclude();
    return std::move(out_);
  }

 private:
  static void join(PointsErrors& all, PointsErrors more) {
    all.first.insert(all.first.end(), more.first.begin(), more.first.end());
    all.more += more.more;
    std::ranges::stable_sort(all.first, {}, &PointsError::line);
  }

  bool is_main_line(const MeasuredValue& value) const {
    return out_.characteristics[static_cast<std::size_t>(value.characteristic)].item.kind == Item::Kind::main_line;
  }

  /// A line's length is what shots tell, and its tension at another temperature is another.
  void tell_warmth(PointsErrors& errors, const std::vector<MeasuredValue>& values) const {
    if (std::ranges::any_of(values, [&](const MeasuredValue& value) { return is_main_line(value); })) return;
    errors.first.push_back({.line = 0,
                            .message = fmt::format("\"{}\" on the main line says nothing without its temperature",
                                                   out_.placing.line_shots[0].id),
                            .instead = "measure the temperature of main_line as it was shot"});
  }

  /// Shots tell a tension where both supports were measured and they lie on one line.
  void note_main_line() {
    if (out_.placing.line_shots.empty()) return;
    const Layout& layout = out_.design.rig.layout;
    auto& [solved, doubt] = out_.main_line;
    for (std::size_t m = 0; m < out_.marks.size(); ++m) {
      const SetOutPoint& mark = out_.marks[m];
      const bool support =
          mark.mark == Mark::bearing_point && (mark.item.index == static_cast<int>(layout.main_line.from) ||
                                               mark.item.index == static_cast<int>(layout.main_line.to));
      if (support && !out_.measured[m] && doubt.empty())
        doubt = fmt::format("the support {} was not measured", mark.id);
    }
    std::vector<Point3> shots;
    for (const ShotOnLine& shot : out_.placing.line_shots) shots.push_back(shot.at);
    solved = line_by_shots(built({}, {}), shots, out_.survey.terms.uncertainty_m);
    if (!*solved && doubt.empty()) doubt = solved->error().why;
    if (*solved && doubt.empty()) doubt = disagreement(**solved, out_.placing.line_shots);
    if (doubt.empty()) return;
    for (const MeasuredValue& value : out_.values)
      if (is_main_line(value)) out_.measured[static_cast<std::size_t>(value.characteristic)] = 0;
  }

  /// The earlier survey by the same control points; none where there is no such survey.
  std::optional<Placing> placed_earlier(PointsErrors& errors) const {
    if (!out_.survey.earlier) return std::nullopt;
    SurveyTerms terms = out_.survey.terms;
    terms.uncertainty_m = out_.survey.earlier->uncertainty_m;
    auto placing = place_points(out_.design.rig.layout, out_.marks, out_.survey.earlier->points, terms);
    if (placing) return std::move(*placing);
    errors = std::move(placing.error());
    return std::nullopt;
  }

  /// The rest mark may be shot or taped, not both.
  void tell_both(PointsErrors& errors, const std::vector<MeasuredValue>& values) const {
    for (const MeasuredValue& value : values) {
      const Characteristic& one = out_.characteristics[static_cast<std::size_t>(value.characteristic)];
      const auto shot = std::ranges::find(out_.placing.points, one.point, &PlacedPoint::mark);
      if (one.point < 0 || shot == out_.placing.points.end()) continue;
      for (const Measurement& measured : out_.survey.measurements)
        if (measured.measurand == Measurand::rest && measured.item == file_word(out_.design.rig.layout, one.item))
          errors.first.push_back(error_at(measured, measured.item_at,
                                          fmt::format("its place is in line {} of the {} already", shot->line,
                                                      shot->shot ? "points" : "measurements"),
                                          "remove one of the two"));
    }
  }

  MeasuredValue in_site_frame(MeasuredValue value) const {
    const Characteristic& one = out_.characteristics[static_cast<std::size_t>(value.characteristic)];
    if (one.measurands.empty() || one.measurands[0] != Measurand::bearing) return value;
    const Vec3 way = unit(turned(out_.placing, direction_of(value.value[0], value.value[1])));
    const double bearing = std::atan2(way.x, way.y);
    value.value = {bearing < 0 ? bearing + 2 * std::numbers::pi : bearing, std::atan2(way.z, std::hypot(way.x, way.y))};
    return value;
  }

  void note_measured() {
    out_.measured.assign(out_.characteristics.size(), 0);
    out_.held = out_.measured;
    const bool believed = out_.placing.doubt.empty();
    for (const PlacedPoint& point : out_.placing.points) {
      if (!believed || point.mark < 0) continue;
      // That a control mark did not move is somebody's word; it counts where the readings would have shown otherwise.
      if (point.held && !std::isfinite(shows_from_m(out_.placing, point))) continue;
      (point.held ? out_.held : out_.measured)[static_cast<std::size_t>(point.mark)] = 1;
    }
    for (const MeasuredValue& value : out_.values) {
      const Characteristic& one = out_.characteristics[static_cast<std::size_t>(value.characteristic)];
      // A direction taken with the points' instrument turns with them.
      const bool turns = !one.measurands.empty() && one.measurands[0] == Measurand::bearing;
      out_.measured[static_cast<std::size_t>(value.characteristic)] = believed || !turns ? 1 : 0;
    }
  }

  /// In the points file, or in that of the measurements behind it, or alone.
  Place place_in(unsigned short first_file, const PlacedPoint& point) const {
    return {point.shot ? first_file : measurements_in(first_file), point.line, 1};
  }
  unsigned short measurements_in(unsigned short first_file) const {
    return static_cast<unsigned short>(first_file + (out_.survey.terms.tapes_alone ? 0 : 1));
  }

  /// Of the points, then of the shots on the line; nothing drawn: as measured.
  std::vector<Point3> places_by(const std::vector<Vec3>& normals) const {
    return places(out_.placing,
                  normals.empty() ? std::vector<Vec3>(measured_places(out_.placing)) : errors_m(out_.placing, normals));
  }

  /// The design with all that was measured in place, each off by a standard normal number of its uncertainty; none
  /// where there are no such numbers.
  Layout built(const std::vector<Vec3>& of_points, const std::vector<double>& of_values) const {
    const Rig& rig = out_.design.rig;
    Layout layout = rig.layout;
    const auto file = static_cast<unsigned short>(layout.files.size());
    if (!out_.survey.terms.tapes_alone) layout.files.push_back(out_.survey.points_file);
    if (!out_.survey.measurements_file.empty()) layout.files.push_back(out_.survey.measurements_file);
    const std::vector<Point3> at = places_by(of_points);
    const PlacedPoint* rest = nullptr;
    Point3 rest_at;
    for (std::size_t p = 0; p < out_.placing.points.size(); ++p) {
      const PlacedPoint& point = out_.placing.points[p];
      if (point.mark < 0 || !out_.measured[static_cast<std::size_t>(point.mark)]) continue;
      const SetOutPoint& mark = out_.marks[static_cast<std::size_t>(point.mark)];
      if (mark.mark == Mark::rest_mark) {
        rest = &point;
        rest_at = at[p];
        continue;
      }
      layout = moved(std::move(layout), mark, rig.frame, at[p] - *mark.at);
      place_of(layout, mark) = place_in(file, point);
    }
    // Chainages run along the line as it was built.
    if (rest) {
      layout.brake_trolley.rest_m = {frame_of(layout).chainage_m(rest_at), place_in(file, *rest)};
    }
    std::size_t n = 0;
    for (const MeasuredValue& value : out_.values) {
      std::vector<double> drawn = value.value;
      for (std::size_t v = 0; v < drawn.size(); ++v, ++n)
        if (!of_values.empty()) drawn[v] += of_values[n] * value.uncertainty[v];
      const std::size_t shots = out_.placing.line_shots.size();
      if (shots > 0 && is_main_line(value)) {
        // The very line through the drawn shots between the drawn supports; without one its state is not known.
        const auto line = line_by_shots(layout, {at.end() - static_cast<std::ptrdiff_t>(shots), at.end()},
                                        out_.survey.terms.uncertainty_m);
        drawn.insert(drawn.begin(), line ? line->tension_N : std::numeric_limits<double>::quiet_NaN());
      }
      if (out_.measured[static_cast<std::size_t>(value.characteristic)])
        out_.characteristics[static_cast<std::size_t>(value.characteristic)].set(
            layout, drawn, {measurements_in(file), value.line, 1});
    }
    return layout;
  }

  static Place& place_of(Layout& layout, const SetOutPoint& mark) {
    const auto i = static_cast<std::size_t>(mark.item.index);
    switch (mark.mark) {
      case Mark::bearing_point:
        return layout.anchors.at(i).position.place;
      case Mark::base:
        return layout.anchors.at(i).base->place;
      case Mark::axle_centre:
        return layout.sheaves.at(i).position->place;
      case Mark::swivel_eye:
        return layout.sheaves.at(i).swivel_at->place;
      case Mark::foot:
        return layout.members.at(i).to.place;
      case Mark::outlet:
        return layout.brake_unit.outlet.place;
      case Mark::rest_mark:
        break;
    }
    return layout.brake_trolley.rest_m.place;
  }

  void find_unmeasured() {
    struct Shift {
      std::size_t characteristic;
      int way;
      double share;
    };
    std::vector<Shift> shifts;
    for (std::size_t c = 0; c < out_.characteristics.size(); ++c)
      if (!out_.measured[c])
        for (int way = 0; way < out_.characteristics[c].ways; ++way)
          // Not by the same either way: what one size hides, as a part of a turn does, another does not.
          for (const double share : {-1.0, 0.7}) shifts.push_back({c, way, share});
    if (shifts.empty()) return;
    const Layout layout = out_.built.rig.layout;
    const Resolution coarse = out_.built.resolution;
    const Judged base = judge_at(coarse, layout, {&out_.built.rig}, work_);
    std::vector<std::vector<char>> moves(shifts.size());
    for_each_index(
        work_, static_cast<int>(shifts.size()),
        [&](int s) {
          const auto i = static_cast<std::size_t>(s);
          Layout other = layout;
          out_.characteristics[shifts[i].characteristic].shift(other, shifts[i].way, shifts[i].share);
          const Judged there = judge_at(coarse, std::move(other), {&out_.built.rig}, {.stop = work_.stop});
          for (std::size_t f = 0; f < base.findings.size(); ++f) {
            const Finding* found = counterpart(there.findings, base.findings[f], ordinal(base.findings, f));
            moves[i].push_back(!found || !same(*found, base.findings[f]) ? 1 : 0);
          }
        },
        "what was not measured");
    for (std::size_t f = 0; f < out_.built.findings.size(); ++f) {
      const auto here = index_in(base.findings, f);
      // A word without a number changes at once or not at all: that it did not shows nothing.
      const bool only_a_word = !out_.built.findings[f].measured && out_.built.findings[f].facts.empty();
      for (std::size_t s = 0; s < shifts.size(); ++s) {
        const int c = static_cast<int>(shifts[s].characteristic);
        auto& on = out_.held[shifts[s].characteristic] ? out_.basis[f].held : out_.basis[f].unmeasured;
        // What is not found at all at this resolution rests on everything.
        if ((!here || only_a_word || moves[s][*here]) && (on.empty() || on.back() != c)) on.push_back(c);
      }
    }
  }

  /// Where finding f of the built rig stands among others.
  std::optional<std::size_t> index_in(const std::vector<Finding>& others, std::size_t f) const {
    const Finding* found = counterpart(others, out_.built.findings[f], ordinal(out_.built.findings, f));
    if (!found) return std::nullopt;
    return static_cast<std::size_t>(found - others.data());
  }

  /// Told straight, at the first resolution, where all that was told as measured is told there too.
  Resolution drawn_at() const {
    if (!out_.terms.linear) return out_.built.resolution;
    const Judged coarse = judge_at({}, built({}, {}), {&out_.built.rig, true, false}, work_);
    for (std::size_t f = 0; f < out_.built.findings.size(); ++f) {
      const Verdict verdict = out_.basis[f].as_measured;
      const auto found = index_in(coarse.findings, f);
      if ((verdict == Verdict::pass || verdict == Verdict::fail) &&
          !(found && coarse.findings[*found].verdict == verdict))
        return out_.built.resolution;
    }
    return coarse.resolution;
  }

  void draw() {
    if (std::ranges::none_of(out_.basis, [](const Basis& basis) { return basis.unmeasured.empty(); })) return;
    const std::size_t points = measured_places(out_.placing);
    std::size_t numbers = 3 * points;
    for (const MeasuredValue& value : out_.values) numbers += value.value.size();
    const Resolution resolution = drawn_at();
    const auto judge_draw = [&](const std::vector<double>& normals) {
      std::vector<Vec3> of_points;
      for (std::size_t p = 0; p < points; ++p)
        of_points.push_back({normals[3 * p], normals[3 * p + 1], normals[3 * p + 2]});
      const std::vector<double> of_values(normals.begin() + static_cast<std::ptrdiff_t>(3 * points), normals.end());
      const Judged there = judge_at(resolution, built(of_points, of_values),
                                    {&out_.built.rig, out_.terms.hold_arrest, false}, {.stop = work_.stop});
      std::vector<Standing> standings;
      for (std::size_t f = 0; f < out_.built.findings.size(); ++f) {
        const auto found = index_in(there.findings, f);
        standings.push_back(found ? standing_of(there.findings[*found]) : Standing{});
      }
      return standings;
    };
    const std::vector<Conformity> fared =
        finding_draws(judge_draw, {out_.terms.draws, out_.terms.seed, numbers, out_.terms.linear}, work_);
    for (std::size_t f = 0; f < fared.size(); ++f)
      if (out_.basis[f].unmeasured.empty()) out_.basis[f].conformity = fared[f];
  }

  void conclude() {
    for (std::size_t f = 0; f < out_.built.findings.size(); ++f) {
      Finding& finding = out_.built.findings[f];
      const Basis& basis = out_.basis[f];
      if (finding.verdict != Verdict::pass && finding.verdict != Verdict::fail) continue;
      std::string why;
      if (!basis.unmeasured.empty()) {
        std::vector<std::string> names;
        for (const int c : basis.unmeasured) names.push_back(out_.characteristics[static_cast<std::size_t>(c)].name);
        why = fmt::format("not measured: {}", fmt::join(names, ", "));
        if (!out_.placing.doubt.empty()) why = out_.placing.doubt;
      } else if (const auto& c = basis.conformity) {
        const bool pass = finding.verdict == Verdict::pass;
        if ((pass ? c->pass_at_least : c->fail_at_least) >= asked_share) continue;
        why = fmt::format(
            "{} as measured, but in {} of {} draws from the uncertainties it {}, which shows {:.1f} %, "
            "not {:.0f} %",
            pass ? "it passes" : "it fails", pass ? c->passes : c->fails, c->draws, pass ? "passes" : "fails",
            100 * (pass ? c->pass_at_least : c->fail_at_least), 100 * asked_share);
      } else {
        why = "it was not drawn";
      }
      finding.verdict = Verdict::undetermined;
      finding.why = why;
    }
  }

  const Work& work_;
  AsBuilt out_;
};

}  // namespace

tl::expected<AsBuilt, SurveyErrors> as_built(Layout layout, Survey survey, const BuiltTerms& terms, const Work& work) {
  return Building(std::move(layout), std::move(survey), terms, work).build();
}

}  // namespace fairlead
