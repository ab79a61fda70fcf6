#include <fmt/format.h>

#include <algorithm>

#include "geometry/layout/outline.hpp"
#include "geometry/layout/read.hpp"
#include "geometry/layout/suggest.hpp"
#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

// Its bounds are not said here: an error says them when they matter.
std::string written_as(const Outline& outline) {
  const Dimension dimension = outline.key.dimension;
  std::string how(kind_words(outline.kind));
  const std::string words = fmt::format("\"{}\"", fmt::join(outline.choices, "\", \""));
  if (outline.kind == Outline::Kind::choice) how = "one of " + words;
  if (outline.kind == Outline::Kind::choices) how = "a list of " + words;
  if (dimension == Dimension::none) return how;
  std::vector<std::string_view> units;
  for (const Unit& unit : all_units())
    if (unit.dimension == dimension) units.push_back(unit.name);
  how = outline.kind == Outline::Kind::number ? "" : how + ": ";
  return fmt::format("{}{} in {}{}", how, dimension_words(dimension), fmt::join(units, ", "),
                     bare_number_allowed(dimension) ? "; a bare number is SI" : "");
}

std::string_view need_words(Need need) {
  switch (need) {
    case Need::required:
      return "required";
    case Need::offered:
    case Need::optional:
      return "optional";
    case Need::exactly_one:
      return "exactly one";
    case Need::at_most_one:
    case Need::offered_one:
      return "at most one";
  }
  return "";
}

// "required", "required of a box", "exactly one of ea, construction".
std::string need_of(const Outline& outline, const Outline& table) {
  std::string need(need_words(outline.key.need));
  if (!outline.key.of.empty()) need += fmt::format(" of a {}", outline.key.of);
  if (outline.key.group == 0) return need;
  std::vector<std::string_view> names;
  for (const Outline& other : table.keys)
    if (other.key.group == outline.key.group) names.push_back(other.key.name);
  return fmt::format("{} of {}", need, fmt::join(names, ", "));
}

// The sections of a layout, and behind them those that only a concept has.
const Outline& all_sections() {
  static const Outline all = [] {
    Outline sections = layout_outline();
    for (const Outline& section : concept_outline().keys)
      if (!sections.find(section.key.name)) sections.keys.push_back(section);
    return sections;
  }();
  return all;
}

void add_paths(const Outline& table, std::string_view name, const std::string& before,
               std::vector<std::string>& paths) {
  for (const Outline& inner : table.keys) {
    const std::string path = before + std::string(inner.key.name);
    if (inner.key.name == name) paths.push_back(path);
    add_paths(inner, name, path + ".", paths);
  }
}

}  // namespace

std::vector<std::string> paths_of(std::string_view name) {
  std::vector<std::string> paths;
  add_paths(all_sections(), name, "", paths);
  return paths;
}

std::optional<std::string> key_help(std::string_view key) {
  const Outline *table = &all_sections(), *outline = table;
  for (std::string_view rest = key; outline; rest.remove_prefix(std::min(rest.size(), rest.find('.') + 1))) {
    table = outline;
    outline = table->find(rest.substr(0, rest.find('.')));
    if (rest.find('.') == rest.npos) break;
  }
  if (!outline) return std::nullopt;
  std::string help =
      fmt::format("{}: {}\n  {}; {}\n", key, outline->key.says, written_as(*outline), need_of(*outline, *table));
  if (!outline->key.fallback.empty())
    help += fmt::format("  default {} ({})\n", with_double_quotes(outline->key.fallback), outline->key.because);
  if (!outline->key.examples[0].empty())
    help += fmt::format("  for example {} = {}\n", outline->key.name, with_double_quotes(outline->key.examples[0]));
  for (const Outline& inner : outline->keys) help += fmt::format("  {:<18}  {}\n", inner.key.name, inner.key.says);
  return help;
}

}  // namespace fairlead
