#include "report/words/revision_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/layout/suggest.hpp"
#include "report/words/changes.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::words {
namespace {

bool of_project(const PartChange& part) { return part.section.starts_with("project"); }

/// "37 mm", "1.20 m", or feet and inches.
std::string short_length(double m, const Style& style) {
  if (style.units == Units::us) return shown(m, Dimension::length, style);
  if (m < 0.01) return fmt::format("{:.1f} mm", 1000 * m);
  return m < 1 ? fmt::format("{:.0f} mm", 1000 * m) : fmt::format("{:.2f} m", m);
}

/// Where most of the movement goes.
std::string_view toward(const MovedPoint& point) {
  const double along = std::abs(point.along_m), across = std::abs(point.across_m), up = std::abs(point.up_m);
  if (along >= across && along >= up) return point.along_m > 0 ? "downstream" : "upstream";
  if (across >= up) return point.across_m > 0 ? "left" : "right";
  return point.up_m > 0 ? "up" : "down";
}

std::string short_name(const MovedPoint& point) {
  if (point.section == "brake_trolley") return "rest mark";
  if (point.key == "position") return point.id;
  return point.id.empty() ? fmt::format("{} {}", in_words(point.section), key_name(point.key))
                          : fmt::format("{} {}", point.id, key_name(point.key));
}

/// Marks that moved alike are told together, those that moved most first.
void add_moved(const Changes& changes, const Style& style, std::vector<std::string>& pieces) {
  std::vector<MovedPoint> points = changes.difference.moved;
  std::stable_sort(points.begin(), points.end(),
                   [](const MovedPoint& a, const MovedPoint& b) { return a.total_m > b.total_m; });
  std::vector<std::pair<std::string, std::string>> moves;
  for (const MovedPoint& point : points) {
    const std::string move = fmt::format("moved {} {}", short_length(point.total_m, style), toward(point));
    const auto known = std::find_if(moves.begin(), moves.end(), [&](const auto& one) { return one.second == move; });
    if (known == moves.end())
      moves.emplace_back(short_name(point), move);
    else
      known->first += ", " + short_name(point);
  }
  for (const auto& [names, move] : moves) pieces.push_back(fmt::format("{} {}", names, move));
}

void add_parts(const Changes& changes, std::vector<std::string>& pieces) {
  for (const PartChange& part : changes.difference.inputs)
    if (!of_project(part) && !(part.was && part.is))
      pieces.push_back(fmt::format("{} {}", part_name(part), part.is ? "added" : "removed"));
}

bool is_limit(const KeyChange& key) { return key.key->stricter != Stricter::not_a_limit; }

/// Every key of the parts that are on both sides.
template <class Use>
void for_values(const Changes& changes, const Use& use) {
  for (const PartChange& part : changes.difference.inputs)
    if (!of_project(part) && part.was && part.is)
      for (const KeyChange& key : part.keys) use(part, key);
}

std::string owner_and_key(const PartChange& part, const std::string& key) {
  return fmt::format("{} {}", part.id.empty() ? in_words(part.section) : part.id, key_name(key));
}

/// Numbers from and to; anything longer by its name alone.
void add_changed(const Changes& changes, const Style& style, std::vector<std::string>& pieces) {
  std::vector<std::string> by_name;
  for_values(changes, [&](const PartChange& part, const KeyChange& key) {
    if (!key.was || !key.is || key.was->form == Told::Form::place || is_limit(key)) return;
    const std::string name = owner_and_key(part, key.name);
    const std::string was = shown(*key.was, changes.was.rig.layout, style),
                      is = shown(*key.is, changes.is.rig.layout, style);
    const auto single = [](const Told& told) {
      return told.form == Told::Form::number || (told.form == Told::Form::range && told.numbers[0] == told.numbers[1]);
    };
    if (single(*key.was) && single(*key.is) && was != is)
      pieces.push_back(fmt::format("{} {} to {}", name, was, is));
    else
      by_name.push_back(name + " changed");
  });
  pieces.insert(pieces.end(), by_name.begin(), by_name.end());
}

/// A table inside a part counts once.
void add_given(const Changes& changes, std::vector<std::string>& pieces) {
  for_values(changes, [&](const PartChange& part, const KeyChange& key) {
    if ((key.was && key.is) || is_limit(key)) return;
    const std::string piece = fmt::format("{} {}", owner_and_key(part, key.name.substr(0, key.name.find('.'))),
                                          key.is ? "given" : "no longer given");
    if (std::find(pieces.begin(), pieces.end(), piece) == pieces.end()) pieces.push_back(piece);
  });
}

void add_limits(const Changes& changes, Strictness strictness, std::vector<std::string>& pieces) {
  constexpr std::size_t most = 3;
  std::vector<std::string> names;
  for_values(changes, [&](const PartChange& part, const KeyChange& key) {
    if (is_limit(key) && fairlead::strictness(key) == strictness)
      names.push_back(part.section == "limits" ? key_name(key.name) : owner_and_key(part, key.name));
  });
  if (names.empty()) return;
  const std::string_view word = strictness == Strictness::unsaid ? "changed" : word_for(strictness);
  if (names.size() > most)
    pieces.push_back(fmt::format("{} limits {}", names.size(), word));
  else
    pieces.push_back(fmt::format("limit {} {}", fmt::join(names, ", "), word));
}

}  // namespace

bool inputs_differ(const Changes& changes) {
  const auto& inputs = changes.difference.inputs;
  return std::any_of(inputs.begin(), inputs.end(), [](const PartChange& part) { return !of_project(part); });
}

RevisionLine revision_line(const Changes& changes, const Style& style) {
  constexpr std::size_t most = 6;
  std::vector<std::string> pieces;
  const Style one = single(style);
  add_moved(changes, one, pieces);
  add_parts(changes, pieces);
  add_limits(changes, Strictness::loosened, pieces);
  add_changed(changes, one, pieces);
  add_limits(changes, Strictness::unsaid, pieces);
  add_limits(changes, Strictness::tightened, pieces);
  add_given(changes, pieces);
  if (pieces.size() > most + 1) {
    const std::size_t more = pieces.size() - most;
    pieces.resize(most);
    pieces.push_back(fmt::format("{} more changes", more));
  }
  const Project& project = changes.is.rig.layout.project;
  RevisionLine line{project.revision.value, fmt::format("{}", fmt::join(pieces, "; ")), {}, {}};
  if (pieces.empty()) line.change = changes.difference.inputs.empty() ? "no change" : "project data only";
  if (project.creator) line.by = project.creator->value;
  if (project.date) line.date = date_of(project.date->value);
  return line;
}

std::string toml(const RevisionLine& line) {
  const auto quoted = [](const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
      if (c == '"' || c == '\\') out += '\\';
      out += c;
    }
    return out + '"';
  };
  std::string text =
      fmt::format("[[project.history]]\nrevision = {}\nchange = {}\n", quoted(line.revision), quoted(line.change));
  if (line.by) text += fmt::format("by = {}\n", quoted(*line.by));
  if (line.date) text += fmt::format("date = {}\n", *line.date);
  return text;
}

std::vector<std::string> revision_warnings(const Changes& changes) {
  const Project &was = changes.was.rig.layout.project, &is = changes.is.rig.layout.project;
  std::vector<std::string> warnings;
  if (was.number.value != is.number.value)
    warnings.push_back(fmt::format("These are two drawings, {} and {}, and not two revisions of one.", was.number.value,
                                   is.number.value));
  if (!inputs_differ(changes)) return warnings;
  if (was.revision.value == is.revision.value)
    warnings.push_back(
        fmt::format("Inputs changed, and both files are revision {}: give the new one another.", is.revision.value));
  if (!is.date)
    warnings.emplace_back("The new file has no date of issue: the line below lacks it.");
  else if (was.date && was.date->value == is.date->value)
    warnings.push_back(fmt::format("Inputs changed, and both files are dated {}.", date_of(is.date->value)));
  else if (was.date && is.date->value < was.date->value)
    warnings.push_back(fmt::format("The new file is dated {}, before the old one, {}.", date_of(is.date->value),
                                   date_of(was.date->value)));
  if (!is.creator) warnings.emplace_back("The new file names no creator: the line below lacks who changed it.");
  if (std::any_of(is.history.begin(), is.history.end(),
                  [&](const Revision& row) { return row.revision == is.revision.value; }))
    warnings.push_back(fmt::format(
        "The new file's revision table has a row {} already: see whether it says all of this.", is.revision.value));
  return warnings;
}

}  // namespace fairlead::words
