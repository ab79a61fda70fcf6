#include "report/sheets/crew_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "report/sheets/blocks.hpp"
#include "report/tables/tables.hpp"
#include "report/words/marks.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets::crew {

bool holds_main_line(const Layout& layout, AnchorId anchor) {
  return anchor == layout.main_line.from || anchor == layout.main_line.to;
}

namespace {

/// What line a height is measured from, and what would be measured on a colder and a warmer day.
void add_heights(const Rig& rig, const SeenMark& mark, const Style& style, std::vector<std::string>& all) {
  const LineOffset& offset = *mark.from_line;
  std::string sentence = fmt::format(
      "UP and DOWN: plumb from the centre of the bare main line at {}, with no rider and no trolley on it; the line is "
      "{} thick.",
      degrees(offset.temperature_K, style), words::shown(rig.layout.main_line.diameter_m, Dimension::length, style));
  if (offset.open_m > 0)
    sentence += fmt::format(" Its height is known to {} either way only.",
                            words::shown(offset.open_m, Dimension::length, style));
  all.push_back(std::move(sentence));
  const auto cold = offset_from_line(rig, mark.at(), mainline::Weather::cold),
             warm = offset_from_line(rig, mark.at(), mainline::Weather::warm);
  if (!cold || !warm) return;
  const auto in = [&](const LineOffset& o) {
    const auto up = words::up_of(o.up_m, style);
    return fmt::format("{} {} at {}", up.side, up.distance, degrees(o.temperature_K, style));
  };
  all.push_back(fmt::format("{} on another day: {}, {}.", mark.point->id, in(*cold), in(*warm)));
}

/// Which of the marks are not measured from the main line; what holds for several is said once.
void add_reasons(const std::vector<SeenMark>& marks, std::vector<std::string>& all) {
  for (std::size_t i = 0; i < marks.size();) {
    if (marks[i].from_line) {
      ++i;
      continue;
    }
    const std::string& why = marks[i].from_line.error().why;
    std::string ids;
    for (; i < marks.size() && !marks[i].from_line && marks[i].from_line.error().why == why; ++i)
      ids += (ids.empty() ? "" : ", ") + marks[i].point->id;
    all.push_back(fmt::format("{}: not measured from the main line: {}.", ids, why));
  }
}

}  // namespace

std::vector<std::string> measured_from(const Rig& rig, const std::vector<SeenMark>& marks, const Style& style) {
  std::vector<std::string> all;
  add_reasons(marks, all);
  const auto seen = std::find_if(marks.begin(), marks.end(), [](const SeenMark& mark) { return mark.from_line; });
  if (seen != marks.end()) add_heights(rig, *seen, style, all);
  const Item first = marks.front().point->item;
  const bool by_coordinates =
      first.kind == Item::Kind::anchor && holds_main_line(rig.layout, static_cast<AnchorId>(first.index));
  if (marks.size() > 1 || !by_coordinates)
    all.push_back(
        "LEFT, RIGHT: looking toward the landing, square to the main line in plan. UPSTREAM, DOWNSTREAM: level, from "
        "the rest mark.");
  return all;
}

namespace {

/// Which of the two places where the three tapes meet it is.
std::string side_sentence(const Frame& frame, const std::string& id, const TiedMark& tied, const Style& style) {
  if (!tied.mirror_apart) return fmt::format("{}: its three tapes meet in this place alone.", id);
  std::string sentence = fmt::format("{} stands {}.", id, tables::side_of(frame, tied, style));
  if (!tied.check) return sentence + " No fourth mark is in reach to check it by.";
  return sentence + fmt::format(" At the mirror image on the other side the check tape would read {}{}.",
                                words::travel(tied.check->at_mirror_m, style),
                                tied.check->tells_mirror ? "" : ", which no tape tells from its own reading");
}

/// Whether a tape runs to or from the mark that hangs higher and lower with the main line's temperature.
bool touches_rest_mark(const SettingOut& out, const TiedMark& tied) {
  const auto touches = [&](const Tie& tie) {
    const std::size_t pegs = out.tape_ends.size() - out.marks.size();
    const auto is_rest = [&](int end) {
      const auto at = static_cast<std::size_t>(end);
      return at >= pegs && out.marks.at(at - pegs).point.mark == Mark::rest_mark;
    };
    return is_rest(tie.from) || is_rest(tie.to);
  };
  return std::any_of(tied.ties.begin(), tied.ties.end(), touches) || (tied.check && touches(tied.check->tie));
}

}  // namespace

Part tapes(const Dossier& dossier, const std::vector<std::string>& ids, const Style& style) {
  const std::string heading = "TAPES";
  if (!dossier.setting_out) return text(heading, {"Not computed."});
  const SettingOut& out = *dossier.setting_out;
  const auto read = [&](const Tie& tie) {
    return fmt::format("{} {}", out.tape_ends.at(static_cast<std::size_t>(tie.from)),
                       words::travel(tie.distance_m, style));
  };
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> sentences;
  bool moves = false;
  for (std::size_t i = 0; i < out.ties.size(); ++i) {
    const std::string& id = out.marks.at(i).point.id;
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) continue;
    const Solved<TiedMark>& tied = out.ties[i];
    if (!tied) {
      sentences.push_back(fmt::format("{}: none: {}.", id, tied.error().why));
      continue;
    }
    std::vector<std::string> row{id};
    for (const Tie& tie : tied->ties) row.push_back(read(tie));
    moves = moves || touches_rest_mark(out, *tied);
    row.push_back(tied->check ? read(tied->check->tie) : "—");
    rows.push_back(std::move(row));
    sentences.push_back(side_sentence(dossier.judged.rig.frame, id, *tied, style));
  }
  if (rows.empty()) return text(heading, sentences);
  sentences.insert(sentences.begin(),
                   "Straight from mark to mark. Their plane: through the three marks that the tapes run from.");
  if (moves)
    sentences.push_back(
        fmt::format("Tapes to the rest mark: on the bare main line at {} only, which hangs elsewhere on another day.",
                    degrees(dossier.judged.rig.layout.main_line.at_temperature_K, style)));
  return together({text(heading, sentences), table({"", "tape from", "tape from", "tape from", "check"}, rows)});
}

Part allowances(const Dossier& dossier, const std::vector<std::string>& ids, const Style& style) {
  const std::string heading = "HOW FAR OFF IT MAY STAND";
  if (!dossier.placement) return text(heading, {"Windows not computed: set out to the numbers."});
  const Placement& placement = *dossier.placement;
  if (!placement.box)
    return text(heading, {fmt::format("Not known: {}. Set out to the numbers.", placement.box.error().why)});
  std::vector<std::vector<std::string>> rows;
  for (std::size_t p = 0; p < placement.points.size(); ++p) {
    if (std::find(ids.begin(), ids.end(), placement.points[p].id) == ids.end()) continue;
    std::vector<std::string> row{placement.points[p].id};
    for (const std::optional<double>& allowed_m : placement.allowed_m(p))
      row.push_back(allowed_m ? "± " + words::allowance(*allowed_m, style) : "—");
    rows.push_back(std::move(row));
  }
  return together(
      {text(heading, {fmt::format("While every other mark is off by as much as its own page allows. Rounded down; {} "
                                  "combinations judged, between them estimated, not proven.",
                                  placement.box->judged)}),
       table({"", "up-/downstream", "left, right", "up, down"}, std::move(rows))});
}

namespace {

constexpr double degree = std::numbers::pi / 180;

/// Tenths of a degree, as they are printed.
double tenths(double rad) { return std::round(rad / degree * 10); }

std::string tilt_of(const Lie& lie, const std::string& end) {
  if (tenths(lie.tilt_rad) == 0) return "level";
  return fmt::format("{} {} {}", end, degrees_of(std::abs(lie.tilt_rad)), lie.tilt_rad > 0 ? "up" : "down");
}

std::string bearing_of(const Rig& rig, const Lie& lie, const std::string& end) {
  return fmt::format("{} bears {} clockwise from {}", end, degrees_of(*lie.bearing_rad), rig.layout.site.axes[1]);
}

}  // namespace

std::string degrees_of(double rad) {
  const double whole = std::fmod(tenths(rad), 3600);
  return fmt::format("{:.1f}°", (whole == 0 ? 0 : whole) / 10);
}

Turned axle_of(const Rig& rig, const Sheave& sheave) {
  Turned turned{"axle of " + sheave.id.value, {}, left_end(rig.frame, sheave.axle), true};
  const Lie lie = lie_of(rig.frame, turned.direction);
  if (!lie.bearing_rad) {
    turned.words = {"upright"};
    return turned;
  }
  turned.words.push_back(bearing_of(rig, lie, "left end"));
  const double off_square = *lie.off_line_rad - std::numbers::pi / 2;
  turned.words.push_back(tenths(off_square) == 0
                             ? "square to the main line"
                             : fmt::format("left end {} off square, toward {}", degrees_of(std::abs(off_square)),
                                           off_square < 0 ? "the landing" : "upstream"));
  turned.words.push_back(tilt_of(lie, "left end"));
  return turned;
}

Turned swivel_of(const Rig& rig, const Sheave& sheave) {
  Vec3 axis = unit(sheave.swivel_axis->value);
  if (axis.z < 0) axis = -axis;
  Turned turned{"swivel of " + sheave.id.value, {}, axis, false};
  const Lie lie = lie_of(rig.frame, axis);
  if (tenths(lie.tilt_rad) == 900 || !lie.bearing_rad) {
    turned.words = {"axis upright"};
    return turned;
  }
  turned.words = {fmt::format("axis {} off upright", degrees_of(std::numbers::pi / 2 - lie.tilt_rad)),
                  bearing_of(rig, lie, "its top end")};
  return turned;
}

Turned outlet_of(const Rig& rig) {
  Turned turned{"outlet of the unit", {}, unit(rig.layout.brake_unit.axis), false};
  const Lie lie = lie_of(rig.frame, turned.direction);
  if (lie.bearing_rad) turned.words.push_back(bearing_of(rig, lie, "it"));
  turned.words.push_back(tilt_of(lie, "it points"));
  if (rig.layout.brake_unit.attitude) turned.words.push_back(rig.layout.brake_unit.attitude->value);
  return turned;
}

}  // namespace fairlead::sheets::crew
