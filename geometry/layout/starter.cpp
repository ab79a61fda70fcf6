#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

#include "geometry/layout/outline.hpp"
#include "geometry/layout/read.hpp"
#include "geometry/layout/suggest.hpp"

namespace fairlead {
namespace {

constexpr std::string_view layout_head =
    "# A layout to start from. Every number in it is invented: replace each by your own.\n"
    "# x, y, z are in the site frame, z up.\n";
constexpr std::string_view concept_head =
    "# A concept to start from: how riders are to stop, before anything has a place. \"fairlead arrest\" reads it.\n"
    "# Every number in it is invented: replace each by your own. Chainages count from the brake trolley's rest mark.\n";
constexpr std::string_view how_to_write =
    "# Values are texts with a unit: \"12.5 m\", \"12 ft 6 1/2 in\", \"1.5 deg\", \"15 C\", \"2 t\", \"2700 lbf\", "
    "\"27 mph\".\n"
    "# A line that begins with # is a key you may add.\n";

// A layout's examples of chainages count from its zero; of a concept they count from the rest mark.
constexpr std::array<std::string_view, 2> from_the_mark[] = {{"backup_brake.engages", "'15.5 m'"},
                                                             {"landing.platform_from", "'6 m'"},
                                                             {"landing.platform_to", "'24 m'"},
                                                             {"landing.earliest_rest", "'7 m'"},
                                                             {"landing.latest_rest", "'14 m'"}};

class Starter {
 public:
  Starter(std::string_view head, std::span<const std::array<std::string_view, 2>> examples)
      : text(std::string(head) + std::string(how_to_write)), examples_(examples) {}

  std::string text;

  void section(const Outline& section) {
    const bool shown = section.key.need == Need::required || section.key.need == Need::offered;
    text += fmt::format("\n# {}\n", section.key.says);
    tables(section, std::string(section.key.name), shown);
  }

 private:
  // As many tables as its ids have examples; all in comments unless shown.
  void tables(const Outline& table, const std::string& path, bool shown) {
    const bool list = table.kind == Outline::Kind::tables;
    const Outline* id = table.find("id");
    for (std::size_t i = 0; i < 4 && (i == 0 || (id && !id->key.examples[i].empty())); ++i) {
      if (i > 0) text += "\n";
      text += fmt::format("{}{}{}{}\n", shown ? "" : "# ", list ? "[[" : "[", path, list ? "]]" : "]");
      for (const Outline& outline : table.keys)
        if (!is_section(outline)) key(outline, path, i, shown, table);
      for (const Outline& outline : table.keys)
        if (is_section(outline)) {
          text += fmt::format("\n# {}\n", outline.key.says);
          tables(outline, fmt::format("{}.{}", path, outline.key.name),
                 shown && (outline.key.need == Need::offered || chosen(outline, table)));
        }
    }
  }

  // A table inside a section with an example of its own is written in one line.
  static bool is_section(const Outline& outline) {
    return (outline.kind == Outline::Kind::table || outline.kind == Outline::Kind::tables) &&
           outline.key.examples[0].empty();
  }

  void key(const Outline& outline, const std::string& path, std::size_t item, bool shown, const Outline& table) {
    const Key& key = outline.key;
    if (!of_its_kind(key, item, table)) return;
    std::string_view example = key.examples[item].empty() ? key.examples[0] : key.examples[item];
    for (const auto& [of, other] : examples_)
      if (of == fmt::format("{}.{}", path, key.name)) example = other;
    const bool wanted = key.need == Need::required || key.need == Need::offered || chosen(outline, table);
    const std::string line =
        fmt::format("{}{} = {}", shown && wanted ? "" : "# ", key.name, with_double_quotes(example));
    if (item > 0 && key.of.empty())  // the first item says it
      text += wanted ? line + "\n" : "";
    else if (line.size() <= 40 && key.says.size() <= 76)
      text += fmt::format("{:<40}  # {}\n", line, key.says);
    else
      text += fmt::format("# {}: {}\n{}\n", key.name, key.says, line);
  }

  // Whether a key belongs to the kind of which the table's example number `item` is.
  static bool of_its_kind(const Key& key, std::size_t item, const Outline& table) {
    return key.of.empty() || table.find("kind")->key.examples[item] == fmt::format("'{}'", key.of);
  }

  // Of keys that exclude one another the first is written.
  static bool chosen(const Outline& outline, const Outline& table) {
    const auto same_group = [&](const Outline& other) { return other.key.group == outline.key.group; };
    const bool one = outline.key.need == Need::exactly_one || outline.key.need == Need::offered_one;
    return one && &*std::find_if(table.keys.begin(), table.keys.end(), same_group) == &outline;
  }

  std::span<const std::array<std::string_view, 2>> examples_;  ///< path and example, in place of the key's own
};

std::string starting(const Outline& outline, Starter starter) {
  for (const Outline& section : outline.keys) starter.section(section);
  return std::move(starter.text);
}

}  // namespace

std::string new_layout() { return starting(layout_outline(), {layout_head, {}}); }
std::string new_concept() { return starting(concept_outline(), {concept_head, from_the_mark}); }

}  // namespace fairlead
