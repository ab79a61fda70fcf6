#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/asbuilt/as_built.hpp"
#include "geometry/asbuilt/drawn_findings.hpp"
#include "geometry/asbuilt/held.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

std::string plain_mm(double m, const Style& style) {
  if (style.units == Units::us) return print_quantity({m, Dimension::length}, Units::us);
  return fmt::format("{:.1f} mm", m * 1000);
}

/// "37.0 mm right": what is less than the last digit printed is left out.
std::string step(double m, const char* positive, const char* negative, const Style& style) {
  const std::string distance = plain_mm(std::abs(m), style);
  if (distance == plain_mm(0, style)) return {};
  return distance + ' ' + (m > 0 ? positive : negative);
}

/// What takes a mark back to where it is drawn.
std::string way_back(Vec3 off_m, bool on_line, const Style& style) {
  std::string words;
  for (const std::string& part : {step(-off_m.x, "downstream", "upstream", style),
                                  on_line ? std::string() : step(-off_m.y, "left", "right", style),
                                  on_line ? std::string() : step(-off_m.z, "up", "down", style)})
    if (!part.empty()) words += (words.empty() ? "" : ", ") + part;
  return words.empty() ? "as drawn" : words;
}

std::string box_of(const std::array<std::optional<double>, 3>& allowed_m, const Style& style) {
  std::string words;
  for (const auto& m : allowed_m)
    words += (words.empty() ? "" : " / ") + (m ? words::allowance(*m, style) : std::string("-"));
  return words;
}

std::string item_id(const AsBuilt& as_built, const Finding& finding) {
  return words::id_of(as_built.design.rig.layout, finding.subject);
}

/// What the shots on the main line tell of its tension, and how well.
void add_line_shots(const AsBuilt& as_built, const Style& style, Table& table) {
  const auto& [solved, doubt] = as_built.main_line;
  if (!solved) return;
  const std::size_t shots = as_built.placing.line_shots.size();
  if (*solved) {
    const LineByShots& line = **solved;
    table.rows.push_back({"tension of main_line", "by shots", cell(line.tension_N, Dimension::force),
                          cell(line.uncertainty_N, Dimension::force)});
    std::string off;
    for (std::size_t s = 0; s < shots; ++s)
      off += fmt::format("{}{} {}", s > 0 ? ", " : "", as_built.placing.line_shots[s].id,
                         step(line.above_m[s], "above", "below", style).empty()
                             ? "on it"
                             : step(line.above_m[s], "above", "below", style));
    table.notes.push_back(
        fmt::format("The tension of the main line is that of the catenary between the measured supports nearest to {} "
                    "point{} shot on "
                    "it: {}. Chi-squared {:.1f} of {} degree{} of freedom, which chance exceeds with {:.1f} %. What "
                    "the line weighs is "
                    "taken as the layout gives it: a hundredth of that is a hundredth of the tension.",
                    shots, shots == 1 ? "" : "s", off, line.chi_squared, line.redundancy,
                    line.redundancy == 1 ? "" : "s", 100 * line.probability));
    if (line.redundancy == 0)
      table.notes.emplace_back("Nothing checks a single shot: an error in it stands in the tension.");
  }
  if (!doubt.empty())
    table.notes.push_back("The tension by the shots on the main line is not believed: " + doubt + ".");
}

/// Of tapes alone: nothing says where the control marks stand but whoever named them.
Table held_marks(const AsBuilt& as_built) {
  Table table{"Control marks, held as drawn", {"mark", "measured", "off by this it would show"}, {}, {}, {{2}}};
  const Placing& placing = as_built.placing;
  std::vector<std::string> ids, unshown;
  for (const int c : placing.control) {
    const PlacedPoint& mark = placing.points[static_cast<std::size_t>(c)];
    ids.push_back(mark.id);
    const double from_m = shows_from_m(placing, mark);
    if (!std::isfinite(from_m)) unshown.push_back(mark.id);
    table.rows.push_back({mark.id, std::string("no, held as drawn"),
                          std::isfinite(from_m) ? cell(from_m, Dimension::length) : std::string("nothing shows it")});
  }
  table.notes.push_back(fmt::format(
      "Tapes alone: {} were not measured. --control says that they stand where the layout has them, and there they are "
      "held. Every place below counts from them and is as far from where it is drawn as they are; what rests on them "
      "is as drawn. They have no uncertainty here, and none is drawn.",
      fmt::join(ids, ", ")));
  table.notes.emplace_back(
      "Would show: an error of so much, whichever way, leaves tapes and rises in disagreement in 80 % of surveys.");
  if (!unshown.empty())
    table.notes.push_back(
        fmt::format("Of {} no reading, or too few, would show that it stands elsewhere, and what rests on it is "
                    "undetermined: read it from other control marks, or to more of the marks, or shoot it.",
                    fmt::join(unshown, ", ")));
  if (!placing.doubt.empty()) table.notes.push_back("No place is believed: " + placing.doubt + ".");
  return table;
}

}  // namespace

Table control_points(const AsBuilt& as_built, const Style& style) {
  if (as_built.survey.terms.tapes_alone) return held_marks(as_built);
  Table table{"Control points", {"point", "east off", "north off", "up off"}, {}, {}, {{1, 2, 3}}};
  const Placing& placing = as_built.placing;
  if (!placing.fit || !placing.test) {
    table.notes = {"No control points were named: the points are taken as standing in the site frame."};
    return table;
  }
  for (std::size_t c = 0; c < placing.control.size(); ++c) {
    const Vec3 off = -placing.fit->residual_m[c];
    table.rows.push_back({placing.points[static_cast<std::size_t>(placing.control[c])].id,
                          cell(off.x, Dimension::length), cell(off.y, Dimension::length),
                          cell(off.z, Dimension::length)});
  }
  const bool levelled = placing.terms.kind == FitKind::levelled;
  const Vec3 east = placing.fit->motion.turned({1, 0, 0});
  const double turned_deg = std::atan2(east.y, east.x) * 57.29577951308232;
  table.notes.push_back(fmt::format(
      "Off: as measured, less as drawn. Least squares of turn and shift, {}; turned {:.4f} deg in plan, {}; "
      "scale is not fitted and would be {:.6f}.",
      levelled ? "about the plumb line, as a levelled instrument sees" : "about any axis", std::abs(turned_deg),
      turned_deg < 0 ? "clockwise" : "anticlockwise", placing.fit->scale));
  table.notes.push_back(fmt::format(
      "Root mean square {}; with {} as every coordinate's standard uncertainty chi-squared {:.1f} of {} degrees, which "
      "chance exceeds with {:.1f} %.",
      plain_mm(placing.fit->rms_m, style), plain_mm(placing.terms.uncertainty_m, style), placing.test->chi_squared,
      placing.test->redundancy, 100 * placing.test->probability));
  if (!placing.test->tells_mirror && placing.doubt.empty())
    table.notes.emplace_back(
        "The control points stand in one line in plan, or nearly, and tell no left from right; the bearings do: with "
        "northing and easting swapped, or either turned, one of them would lie more than 30 deg off as drawn.");
  if (!placing.doubt.empty()) table.notes.push_back("No place is believed: " + placing.doubt + ".");
  return table;
}

Table built_marks(const AsBuilt& as_built, const Style& style) {
  Table table{"Marks as built",
              {"mark", "along", "left", "up", "off", "uncertainty", "back to its drawn place"},
              {},
              {},
              {{1, 2, 3, 4, 5}}};
  const bool boxed = as_built.placement && as_built.placement->box;
  if (boxed) table.headings.insert(table.headings.begin() + 6, {"allowed along / across / up", "verdict"});
  for (std::size_t p = 0; p < as_built.placing.points.size(); ++p) {
    const PlacedPoint& point = as_built.placing.points[p];
    if (point.mark < 0 || !point.placed) continue;
    const bool on_line = as_built.marks[static_cast<std::size_t>(point.mark)].mark == Mark::rest_mark;
    if (point.held) {
      std::vector<Cell> row(table.headings.size(), std::string("-"));
      row.front() = point.id;
      row.back() = std::string("not measured, held as drawn");
      if (boxed) row[row.size() - 2] = std::string(words::word_for(in_box(as_built, p)));
      table.rows.push_back(std::move(row));
      continue;
    }
    const Vec3 off = off_by(as_built, p), u = as_built.place_uncertainty_m[p];
    std::vector<Cell> row{point.id,
                          cell(off.x, Dimension::length),
                          cell(off.y, Dimension::length),
                          cell(off.z, Dimension::length),
                          cell(norm(off), Dimension::length),
                          cell(std::max({u.x, u.y, u.z}), Dimension::length)};
    if (boxed) {
      const auto allowed = as_built.placement->allowed_m(static_cast<std::size_t>(point.mark));
      row.emplace_back(box_of(allowed, style));
      row.emplace_back(std::string(words::word_for(in_box(as_built, p))));
    }
    row.emplace_back(way_back(off, on_line, style));
    table.rows.push_back(std::move(row));
  }
  table.notes.push_back(fmt::format(
      "From where the layout has them: along the main line toward the landing, to the left of it, up. Uncertainty: "
      "standard, of the coordinate that has the most, {}. The rest mark counts along the line "
      "alone. What a workshop makes, riders, weather and structures are taken as the layout gives them.",
      as_built.survey.terms.tapes_alone ? "without that of the control marks, which is not known"
                                        : "with that of the fit"));
  if (boxed)
    table.notes.emplace_back(
        "Allowed: the box in which all marks may stand at once. Pass, fail: by more than 1.645 "
        "uncertainties; else undetermined. The findings judge the rig as it stands, box or not.");
  else if (as_built.placement)
    table.notes.push_back("No allowance: " + as_built.placement->box.error().why + ".");
  else
    table.notes.emplace_back("What each may be off was not asked for: --windows.");
  const auto ids = [](const std::vector<std::string>& names, std::size_t besides = 0) {
    constexpr std::size_t most = 24;  // of a survey of the whole slope more are in the JSON
    const std::size_t shown = std::min(names.size(), most), all = names.size() + besides;
    return fmt::format("{}{}", fmt::join(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(shown), ", "),
                       all > shown ? fmt::format(" and {} more", all - shown) : "");
  };
  if (!as_built.placing.strangers.empty())
    table.notes.push_back("Points that the layout does not know: " +
                          ids(as_built.placing.strangers, as_built.survey.points_left_out) + ".");
  if (!as_built.placing.missing.empty())
    table.notes.push_back((as_built.survey.terms.tapes_alone ? "Not placed by tapes: " : "Not in the points file: ") +
                          ids(as_built.placing.missing) + ".");
  return table;
}

Table built_values(const AsBuilt& as_built, const Style& style) {
  Table table{"Measured besides", {"what", "quantity", "measured", "uncertainty"}, {}, {}, {{2, 3}}};
  add_line_shots(as_built, style, table);
  for (const MeasuredValue& value : as_built.values) {
    const Characteristic& one = as_built.characteristics[static_cast<std::size_t>(value.characteristic)];
    for (std::size_t v = 0; v < value.value.size(); ++v) {
      const MeasurandKind& kind = kind_of(one.measurands[v]);
      // A difference of temperatures is no temperature: 1 K is not -272 C.
      const Cell off = kind.dimension == Dimension::temperature ? Cell{fmt::format("{:.1f} K", value.uncertainty[v])}
                                                                : cell(value.uncertainty[v], kind.dimension);
      table.rows.push_back({one.name, std::string(kind.word), cell(value.value[v], kind.dimension), off});
    }
  }
  const auto wears = [](const Measurement& one) { return one.measurand == Measurand::diameter; };
  if (std::ranges::any_of(as_built.survey.measurements, wears))
    table.notes.emplace_back("Diameters are judged by fairlead records, against the register of parts, and not here.");
  if (!as_built.values.empty())
    table.notes.emplace_back(as_built.survey.terms.tapes_alone
                                 ? "Bearings clockwise from the site's north, as they were read."
                                 : "Bearings clockwise from the site's north, as the fit turned them.");
  return table;
}

Table not_measured(const AsBuilt& as_built) {
  Table table{"Not measured, and what rests on it", {"what", "measure", "findings left open"}, {}, {}};
  for (std::size_t c = 0; c < as_built.characteristics.size(); ++c) {
    if (as_built.measured[c] || as_built.held[c]) continue;
    const Characteristic& one = as_built.characteristics[c];
    std::string measure;
    if (one.point >= 0)
      measure = as_built.survey.terms.tapes_alone
                    ? fmt::format("tape \"{}\" from three placed marks and level its rise", one.id)
                    : fmt::format("shoot \"{}\"", one.id);
    std::vector<std::string_view> words;
    for (const Measurand measurand : one.measurands) words.push_back(kind_of(measurand).word);
    if (!words.empty())
      measure += fmt::format("{}{} of {}", measure.empty() ? "" : ", or measure ", fmt::join(words, " and "),
                             file_word(as_built.design.rig.layout, one.item));
    const auto open = std::ranges::count_if(as_built.basis, [&](const Basis& basis) {
      return std::ranges::find(basis.unmeasured, static_cast<int>(c)) != basis.unmeasured.end();
    });
    table.rows.push_back({one.name, measure, std::to_string(open)});
  }
  if (!table.rows.empty())
    table.notes = {
        fmt::format("Each was moved either way by what a crew might miss ({:.0f} mm, {:.0f} deg, {:.0f} %): a finding "
                    "that changed at all rests on it, and is undetermined. A drawn value is never taken for a "
                    "measured one. One point gives no axle.",
                    missed_m * 1000, missed_rad * 57.29577951308232, missed_share * 100)};
  return table;
}

Table resting_on_held(const AsBuilt& as_built) {
  Table table{"Held as drawn, and what rests on it", {"what", "findings that rest on it by itself"}, {}, {}};
  for (std::size_t c = 0; c < as_built.characteristics.size(); ++c) {
    if (!as_built.held[c]) continue;
    const auto resting = std::ranges::count_if(as_built.basis, [&](const Basis& basis) {
      return std::ranges::find(basis.held, static_cast<int>(c)) != basis.held.end();
    });
    table.rows.push_back({as_built.characteristics[c].name, std::to_string(resting)});
  }
  if (!table.rows.empty())
    table.notes = {
        "Each was moved likewise with all else where it is. A finding that changed may pass here, and then it passes "
        "on the word of whoever named the control marks, not on a measurement. The marks that were taped count from "
        "them, so that what rests on a taped mark rests on all of them."};
  return table;
}

Table built_shares(const AsBuilt& as_built) {
  Table table{"Findings over the draws", {"check", "of", "as measured", "passes", "fails"}, {}, {}};
  int drawn = 0, alike = 0, straight = 0;
  for (std::size_t f = 0; f < as_built.basis.size(); ++f) {
    const Basis& basis = as_built.basis[f];
    if (!basis.conformity) continue;
    ++drawn;
    const Conformity& c = *basis.conformity;
    straight += c.linear_within ? 1 : 0;
    const bool pass = basis.as_measured == Verdict::pass, fail = basis.as_measured == Verdict::fail;
    if ((pass && c.passes == c.draws) || (fail && c.fails == c.draws)) {
      ++alike;
      continue;
    }
    const Finding& finding = as_built.built.findings[f];
    table.rows.push_back({std::string(finding.check->name), item_id(as_built, finding),
                          std::string(words::word_for(basis.as_measured)),
                          fmt::format("{} of {}, {:.1f} % shown", c.passes, c.draws, 100 * c.pass_at_least),
                          fmt::format("{} of {}, {:.1f} % shown", c.fails, c.draws, 100 * c.fail_at_least)});
  }
  if (drawn == 0) return table;
  table.notes.push_back(fmt::format(
      "{} draws of all that was measured, normal, each by its uncertainty; seed {}. A verdict needs {:.0f} % of all "
      "possible draws, shown with 95 % confidence. The other {} of {} findings came out in every draw as measured.",
      as_built.terms.draws, as_built.terms.seed, 100 * asked_share, alike, drawn));
  if (as_built.terms.linear && as_built.terms.draws > linear_exact_draws)
    table.notes.push_back(fmt::format(
        "Linear: of {} of {} findings {} draws were judged exactly and {} told straight from how value and bound turn "
        "on "
        "each measured number, to within the most by which that erred at {} judgements drawn {:.0f} times as wide "
        "(measured, not proven; nearer to its limit a draw is neither). What exact draws leave open, {:.1f} %, is "
        "taken "
        "off their shares. The other findings, which do not run straight, have the {} exact draws alone.",
        straight, drawn, linear_exact_draws, as_built.terms.draws - linear_exact_draws, linear_wide_draws, linear_width,
        100 * linear_doubt(), linear_exact_draws));
  if (as_built.terms.hold_arrest)
    table.notes.emplace_back(
        "How riders are stopped was held as it is at the measured places, not solved in every draw: "
        "of the arrest the shares tell nothing.");
  return table;
}

}  // namespace fairlead::tables
