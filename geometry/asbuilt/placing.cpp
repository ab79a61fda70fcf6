#include "geometry/asbuilt/placing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "geometry/asbuilt/held.hpp"
#include "geometry/quantity/nearest.hpp"

namespace fairlead {
namespace {

/// US survey feet and international ones are 2 millionths apart, and no survey is a thousandth off.
constexpr double scale_slack = 1e-3;

/// "main_line-" and digits. No mark is called so, for an id is no word of the layout's.
bool is_on_line(std::string_view id) {
  constexpr std::string_view beginning = "main_line-";
  if (!id.starts_with(beginning) || id.size() == beginning.size()) return false;
  return std::ranges::all_of(id.substr(beginning.size()), [](char c) { return c >= '0' && c <= '9'; });
}

class Placer {
 public:
  Placer(const Layout& layout, const std::vector<SetOutPoint>& marks, const SurveyTerms& terms)
      : known_(known_points(layout, marks)), marks_(marks) {
    placing_.terms = terms;
  }

  tl::expected<Placing, PointsErrors> place(const std::vector<SurveyPoint>& points,
                                            const std::vector<SiteReading>& readings) {
    match(points);
    if (placing_.terms.tapes_alone) return hold(readings);
    if (placing_.points.empty()) {
      add("no point of the file is a mark of the layout or a peg of its points file",
          fmt::format("give them the ids that fairlead setout lists: {}", fmt::join(first_ids(), ", ")));
      return refused();
    }
    placing_.terms.control.empty() ? in_site_frame() : on_control(points);
    if (errors_.first.empty() && !readings.empty()) take_readings(readings);
    if (!errors_.first.empty()) return refused();
    return std::move(placing_);
  }

 private:
  tl::unexpected<PointsErrors> refused() { return tl::unexpected<PointsErrors>(std::move(errors_)); }
  void add(std::string message, std::string instead) {
    errors_.first.push_back({.message = std::move(message), .instead = std::move(instead)});
  }

  tl::expected<Placing, PointsErrors> hold(const std::vector<SiteReading>& readings) {
    placing_.points = held_points(known_, marks_, placing_.terms.control, errors_);
    if (readings.empty())
      add("nothing is read from mark to mark, and no point was shot",
          "tape distances and level rises from the control marks to the others: item \"P1 to A3\"");
    if (errors_.first.empty()) refuse_other_unit(readings, known_, errors_);
    if (!errors_.first.empty()) return refused();
    for (std::size_t p = 0; p < placing_.points.size(); ++p) {
      placing_.control.push_back(static_cast<int>(p));
      std::erase(placing_.missing, placing_.points[p].id);
    }
    take_readings(readings);
    return std::move(placing_);
  }

  std::vector<std::string> first_ids() const {
    constexpr std::size_t most = 12;
    std::vector<std::string> ids;
    for (std::size_t m = 0; m < marks_.size() && m < most; ++m) ids.push_back(marks_[m].id);
    if (marks_.size() > most) ids.emplace_back("...");
    return ids;
  }

  void match(const std::vector<SurveyPoint>& points) {
    std::set<std::string_view> found;
    for (const SurveyPoint& point : points) {
      const auto known = known_.find(point.id);
      if (known == known_.end() && is_on_line(point.id)) {
        placing_.line_shots.push_back({point.id, point.at, point.at, point.line});
        continue;
      }
      if (known == known_.end()) {
        placing_.strangers.push_back(point.id);
        continue;
      }
      found.insert(known->first);
      const auto& [mark, at] = known->second;
      placing_.points.push_back({.id = point.id,
                                 .mark = mark,
                                 .design = at.value_or(point.at),
                                 .measured = point.at,
                                 .at = point.at,
                                 .line = point.line,
                                 .placed = at.has_value()});
    }
    for (const SetOutPoint& mark : marks_)
      if (!found.contains(mark.id)) placing_.missing.push_back(mark.id);
    for (const auto& [id, known] : known_)
      if (known.mark < 0 && !found.contains(id)) placing_.missing.push_back(id);
  }

  void on_control(const std::vector<SurveyPoint>& points) {
    std::vector<FitPair> pairs;
    for (const std::string& id : placing_.terms.control) {
      const auto at = std::ranges::find(placing_.points, id, &PlacedPoint::id);
      if (at == placing_.points.end()) {
        no_control(id, points);
      } else if (std::exchange(at->control, true)) {
        add(fmt::format("the control point \"{}\" is named twice", id), "name it once");
      } else if (!at->placed || (at->mark >= 0 && marks_[static_cast<std::size_t>(at->mark)].mark == Mark::rest_mark)) {
        add(fmt::format("the rest mark, \"{}\", is no control point: it lies on a line that hangs", id),
            "name pegs, or marks that stand");
      } else {
        placing_.control.push_back(static_cast<int>(at - placing_.points.begin()));
        pairs.push_back({at->measured, at->design});
      }
    }
    if (!errors_.first.empty()) return;
    const auto fit = best_fit(pairs, placing_.terms.kind);
    if (!fit)
      return add("--control: " + fit.error().why, "name more of the points that stand where the layout has them");
    placing_.fit = *fit;
    const auto test = test_fit(pairs, placing_.terms.kind, placing_.terms.uncertainty_m);
    if (!test) return add("--uncertainty: " + test.error().why, "state a length above 0, for example \"3 mm\"");
    placing_.test = *test;
    placing_.hand_told = test->tells_mirror;
    if (!test->agrees) disagree(pairs);
    move_all();
  }

  void move_all() {
    const RigidMotion& motion = placing_.fit->motion;
    for (PlacedPoint& point : placing_.points) point.at = motion.moved(point.measured);
    for (ShotOnLine& shot : placing_.line_shots) shot.at = motion.moved(shot.measured);
  }

  void no_control(const std::string& id, const std::vector<SurveyPoint>& points) {
    if (std::ranges::find(points, id, &SurveyPoint::id) != points.end())
      return add(
          fmt::format("the control point \"{}\" is neither a mark of the layout nor a peg of its points file", id),
          "name points whose places the layout gives");
    std::vector<std::string> ids;
    for (const PlacedPoint& point : placing_.points) ids.push_back(point.id);
    const auto near = nearest(id, ids);
    add(fmt::format("there is no control point \"{}\" in the file", id),
        near ? fmt::format("did you mean \"{}\"?", *near) : "name points of the file by their ids");
  }

  /// Why they may not agree: what has one cause and one remedy is refused; else no place is believed.
  void disagree(const std::vector<FitPair>& pairs) {
    const Fit& fit = *placing_.fit;
    const double u = placing_.terms.uncertainty_m;
    if (const char* unit = wrong_unit(1 / fit.scale, scale_slack))
      return add(
          fmt::format("the control points stand {:.4g} times as far apart as in the layout: {}", 1 / fit.scale, unit),
          "state the file's --unit");
    // Mirrored they would agree, within three times what their errors make, and as they are they are far from it.
    const double believed_m = 3 * u * std::sqrt(3.0);
    if (placing_.terms.kind == FitKind::levelled && pairs.size() > 2 && fit.mirrored_rms_m <= believed_m &&
        fit.rms_m > 3 * believed_m)
      return add(
          fmt::format("the control points are those of the layout in a mirror: {:.3f} m off as they are, {:.3f} m "
                      "mirrored",
                      fit.rms_m, fit.mirrored_rms_m),
          "northing and easting are swapped: state the other --order");
    const FitTest& test = *placing_.test;
    std::string who = "more than one of them is off, or the uncertainty is greater than stated";
    if (test.outliers.size() == 1)
      who = fmt::format(
          "\"{}\" is {:.3f} m off the fit of the others: measure it again, or leave it out of --control",
          placing_.points[static_cast<std::size_t>(placing_.control[static_cast<std::size_t>(test.outliers[0])])].id,
          norm(test.off_m[0]));
    if (test.outliers.size() > 1) {
      std::vector<std::string> ids;
      for (const int o : test.outliers)
        ids.push_back(placing_.points[static_cast<std::size_t>(placing_.control[static_cast<std::size_t>(o)])].id);
      who = fmt::format("one of {} is off, and it can not be told which", fmt::join(ids, ", "));
    }
    placing_.doubt = "the control points do not agree within the stated uncertainty: " + who;
  }

  /// What was shot is adjusted with the readings in its own frame, which no fit bends; then it is fitted anew.
  void take_readings(const std::vector<SiteReading>& readings) {
    if (placing_.terms.kind == FitKind::tilted)
      for (const SiteReading& one : readings)
        if (one.kind == NetworkReading::Kind::rise)
          return add(fmt::format("{} is plumb, and --tilted says that the points' frame is not", words_of(one)),
                     "leave out the rises, or fit about the plumb line");
    Taping taping{.readings = readings, .ids = {}, .adjustment = {}, .placed = {}};
    Network network;
    std::map<std::string, int> index;
    for (const SiteReading& one : readings)
      for (const std::string* id : {&one.from, &one.to})
        if (index.try_emplace(*id, static_cast<int>(index.size())).second) {
          taping.ids.push_back(*id);
          network.points.push_back(about(*id));
        }
    for (const SiteReading& one : readings)
      network.readings.push_back({one.kind, index[one.from], index[one.to], one.value_m, one.uncertainty_m});
    auto adjusted = adjust(network);
    if (!adjusted) {
      if (placing_.doubt.empty()) placing_.doubt = "of the readings from mark to mark: " + adjusted.error().why;
      return;
    }
    taping.adjustment = std::move(*adjusted);
    for (std::size_t p = 0; p < taping.ids.size(); ++p)
      if (taping.adjustment.open[p].empty()) taping.placed.push_back(adjusted_point(taping, p));
    if (placing_.doubt.empty()) placing_.doubt = disagreement(taping);
    placing_.taping = std::move(taping);
    fit_anew();
  }

  /// As it was shot or is held; else where the layout has it, in the file's frame.
  NetworkPoint about(const std::string& id) const {
    const auto shot = std::ranges::find(placing_.points, id, &PlacedPoint::id);
    if (shot != placing_.points.end() && shot->held) return {shot->at, std::nullopt, true};
    if (shot != placing_.points.end()) return {shot->measured, placing_.terms.uncertainty_m};
    const Known& known = known_.at(id);
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    if (!known.at) return {{unknown, unknown, unknown}, std::nullopt};
    return {placing_.fit ? placing_.fit->motion.back(*known.at) : *known.at, std::nullopt};
  }

  /// Its index among the points.
  int adjusted_point(const Taping& taping, std::size_t p) {
    const std::string& id = taping.ids[p];
    auto at = std::ranges::find(placing_.points, id, &PlacedPoint::id);
    if (at == placing_.points.end()) {
      const auto first =
          std::ranges::find_if(taping.readings, [&](const SiteReading& one) { return one.from == id || one.to == id; });
      const Known& known = known_.at(id);
      placing_.points.push_back({.id = id,
                                 .mark = known.mark,
                                 .design = *known.at,
                                 .measured = {},
                                 .at = {},
                                 .line = first->line,
                                 .shot = false});
      std::erase(placing_.missing, id);
      at = placing_.points.end() - 1;
    }
    at->measured = at->at = taping.adjustment.at[p];
    at->taped = !at->held;
    return static_cast<int>(at - placing_.points.begin());
  }

  void fit_anew() {
    if (!placing_.fit) return;
    std::vector<FitPair> pairs;
    for (const int c : placing_.control) {
      const PlacedPoint& point = placing_.points[static_cast<std::size_t>(c)];
      pairs.push_back({point.measured, point.design});
    }
    // Millimetres leave no turn open that was none.
    if (const auto fit = best_fit(pairs, placing_.terms.kind)) placing_.fit = *fit;
    move_all();
  }

  /// Farther than this from where it is drawn no mark is built: another frame, own rule.
  static constexpr double astray_m = 10;

  void in_site_frame() {
    double farthest_m = 0, nearest_m = std::numeric_limits<double>::infinity(), swapped_m = 0;
    std::vector<double> times;
    for (const PlacedPoint& point : placing_.points) {
      if (!point.placed) continue;
      const double off_m = norm(point.measured - point.design);
      farthest_m = std::max(farthest_m, off_m);
      nearest_m = std::min(nearest_m, off_m);
      swapped_m =
          std::max(swapped_m, norm(Point3{point.measured.y, point.measured.x, point.measured.z} - point.design));
      const Vec3 is = point.measured - Point3{}, drawn = point.design - Point3{};
      times.push_back(norm(is) / norm(drawn));
    }
    // A layout about its own datum may lie as near to itself swapped; then which of the two fits better speaks, and
    // where neither does by much nothing tells left from right.
    constexpr double near_m = 0.5, clearly = 3;
    placing_.hand_told = farthest_m > near_m || swapped_m > near_m;
    const bool better_swapped = farthest_m > near_m && clearly * swapped_m < farthest_m;
    if (!(farthest_m > astray_m) && !better_swapped) return;
    if (swapped_m <= astray_m)
      return add(fmt::format("the points are up to {:.0f} m off the layout's marks, with northing and easting swapped "
                             "{:.3f} m",
                             farthest_m, swapped_m),
                 "state the other --order");
    std::ranges::sort(times);
    if (const char* unit = times.empty() ? nullptr : wrong_unit(times[times.size() / 2], scale_slack))
      return add(fmt::format("the points stand {:.4g} times as far from the datum as in the layout: {}",
                             times[times.size() / 2], unit),
                 "state the file's --unit");
    if (nearest_m > astray_m)
      add(fmt::format("every point is more than {:.0f} m off where the layout has it", astray_m),
          "name control points with --control, to which the points are fitted");
  }

  std::map<std::string, Known> known_;
  const std::vector<SetOutPoint>& marks_;
  Placing placing_;
  PointsErrors errors_;
};

}  // namespace

tl::expected<Placing, PointsErrors> place_points(const Layout& layout, const std::vector<SetOutPoint>& marks,
                                                 const std::vector<SurveyPoint>& points, const SurveyTerms& terms,
                                                 const std::vector<SiteReading>& readings) {
  return Placer(layout, marks, terms).place(points, readings);
}

std::vector<std::string> known_ids(const Layout& layout, const std::vector<SetOutPoint>& marks) {
  std::vector<std::string> ids;
  for (const SetOutPoint& mark : marks) ids.push_back(mark.id);
  for (const auto& [id, known] : known_points(layout, marks))
    if (known.mark < 0) ids.push_back(id);
  return ids;
}

std::function<bool(std::string_view)> surveyed_ids(const Layout& layout, const SurveyTerms& terms) {
  std::set<std::string, std::less<>> ids(terms.control.begin(), terms.control.end());
  for (std::string& id : known_ids(layout, set_out_points(layout))) ids.insert(std::move(id));
  return [ids = std::move(ids)](std::string_view id) { return ids.contains(id) || is_on_line(id); };
}

std::size_t measured_places(const Placing& placing) { return placing.points.size() + placing.line_shots.size(); }

std::vector<Vec3> errors_m(const Placing& placing, const std::vector<Vec3>& normals) {
  std::vector<Vec3> errors;
  for (std::size_t p = 0; p < measured_places(placing); ++p) errors.push_back(placing.terms.uncertainty_m * normals[p]);
  if (!placing.taping) return errors;
  const std::vector<int>& placed = placing.taping->placed;
  const std::vector<double>& factor_m = placing.taping->adjustment.factor_m;
  const std::size_t n = 3 * placed.size();
  for (std::size_t i = 0; i < n; i += 3) {
    double sum[] = {0, 0, 0};
    for (std::size_t axis = 0; axis < 3; ++axis)
      for (std::size_t k = 0; k < n; k += 3) {
        const Vec3& normal = normals[static_cast<std::size_t>(placed[k / 3])];
        const double* row = &factor_m[(i + axis) * n + k];
        sum[axis] += row[0] * normal.x + row[1] * normal.y + row[2] * normal.z;
      }
    errors[static_cast<std::size_t>(placed[i / 3])] = {sum[0], sum[1], sum[2]};
  }
  return errors;
}

std::vector<Point3> places(const Placing& placing, const std::vector<Vec3>& errors_m) {
  std::vector<Point3> at;
  for (std::size_t p = 0; p < placing.points.size(); ++p) at.push_back(placing.points[p].measured + errors_m[p]);
  for (std::size_t s = 0; s < placing.line_shots.size(); ++s)
    at.push_back(placing.line_shots[s].measured + errors_m[placing.points.size() + s]);
  if (!placing.fit) return at;
  std::vector<FitPair> pairs;
  for (const int c : placing.control) {
    const auto i = static_cast<std::size_t>(c);
    pairs.push_back({at[i], placing.points[i].design});
  }
  // Errors of millimetres leave no turn open that was none; if they did, the fit as measured would hold.
  const auto fit = best_fit(pairs, placing.terms.kind);
  const RigidMotion& motion = fit ? fit->motion : placing.fit->motion;
  for (Point3& point : at) point = motion.moved(point);
  return at;
}

Vec3 turned(const Placing& placing, Vec3 measured) {
  return placing.fit ? placing.fit->motion.turned(measured) : measured;
}

}  // namespace fairlead
