#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "geometry/layout/node.hpp"
#include "geometry/layout/syntax_hint.hpp"

namespace {

// What the library takes for granted of a text is asked in every build: unasked it is undefined behaviour, and a text
// such as "[" at the end of a line breaks it.
struct Surprised {};
constexpr void take_for_granted(bool holds) {
  if (!holds) throw Surprised{};
}

}  // namespace

#pragma push_macro("NDEBUG")
#undef NDEBUG
#define TOML_ASSERT(holds) take_for_granted(static_cast<bool>(holds))
#include <toml++/toml.h>
#pragma pop_macro("NDEBUG")

namespace fairlead {
namespace {

// The lines up to the first that surprises the library, which tells no place. A text's beginning is parsed as the
// text is, so that the line is found by halving.
unsigned surprising_line(std::string_view text) {
  std::vector<std::size_t> ends;
  for (std::size_t end = text.find('\n'); end != text.npos; end = text.find('\n', end + 1)) ends.push_back(end + 1);
  const auto surprises = [&](std::size_t end) {
    try {
      static_cast<void>(toml::parse(text.substr(0, end)));
    } catch (const toml::parse_error&) {
      return false;
    } catch (const Surprised&) {
      return true;
    }
    return false;
  };
  const auto first = std::partition_point(ends.begin(), ends.end(), [&](std::size_t end) { return !surprises(end); });
  return static_cast<unsigned>(first - ends.begin()) + 1;
}

Place place_of(const toml::source_region& region) {
  return {0, static_cast<unsigned>(region.begin.line), static_cast<unsigned>(region.begin.column)};
}

/// Makes our tree of the library's: theirs loses places when it is copied, and knows no command line.
class Converter {
 public:
  /// Every place is `instead` where that is given. Where errors are given they learn how long each thing is.
  Converter(Errors* errors, std::optional<Place> instead) : errors_(errors), instead_(instead) {}

  Node node(const toml::node& from) const {
    Node to;
    to.place = place(from.source());
    switch (from.type()) {
      case toml::node_type::table:
        to.kind = Node::Kind::table;
        for (const auto& [key, value] : *from.as_table())
          to.entries.push_back({std::string(key.str()), place(key.source()), node(value)});
        break;
      case toml::node_type::array:
        to.kind = Node::Kind::list;
        for (const toml::node& item : *from.as_array()) to.items.push_back(node(item));
        break;
      case toml::node_type::string:
        to.kind = Node::Kind::text;
        to.text = from.as_string()->get();
        break;
      case toml::node_type::integer:
        to.kind = Node::Kind::number;
        to.number = static_cast<double>(from.as_integer()->get());
        break;
      case toml::node_type::floating_point:
        to.kind = Node::Kind::number;
        to.number = from.as_floating_point()->get();
        break;
      case toml::node_type::boolean:
        to.kind = Node::Kind::truth;
        to.text = from.as_boolean()->get() ? "true" : "false";
        break;
      case toml::node_type::date:
        to.kind = Node::Kind::date;
        to.date = {from.as_date()->get().year, from.as_date()->get().month, from.as_date()->get().day};
        break;
      default:
        to.kind = Node::Kind::time;  // times of the day, with a date or without
    }
    return to;
  }

 private:
  Place place(const toml::source_region& region) const {
    if (instead_) return *instead_;
    // What goes on over several lines is underlined to the end of the first: longer than any line will do.
    const bool one_line = region.begin.line == region.end.line;
    if (errors_)
      errors_->measure(place_of(region),
                       one_line ? static_cast<unsigned>(region.end.column - region.begin.column) : ~0u);
    return place_of(region);
  }
  Errors* errors_;
  std::optional<Place> instead_;
};

}  // namespace

const Node* Node::find(std::string_view key) const {
  for (const Entry& entry : entries)
    if (entry.key == key) return &entry.node;
  return nullptr;
}

Node* Node::find(std::string_view key) {
  for (Entry& entry : entries)
    if (entry.key == key) return &entry.node;
  return nullptr;
}

std::string_view kind_words(Node::Kind kind) {
  switch (kind) {
    case Node::Kind::table:
      return "a table";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::text:
      return "a text";
    case Node::Kind::number:
      return "a number";
    case Node::Kind::truth:
      return "true or false";
    case Node::Kind::date:
      return "a date";
    case Node::Kind::time:
      return "a time";
  }
  return "a value";
}

std::optional<Node> parse_toml(std::string_view text, Errors& errors) {
  try {
    const toml::table root = toml::parse(text);
    return Converter(&errors, std::nullopt).node(root);
  } catch (const toml::parse_error& error) {
    std::string_view what = error.description();
    if (what.starts_with("Error while ")) what.remove_prefix(std::string_view("Error while ").size());
    const Place place = place_of(error.source());
    errors.add(place, fmt::format("this is no TOML: {}", what),
               syntax_hint(what, errors.line(place.line), place.column));
    return std::nullopt;
  } catch (const Surprised&) {
    const unsigned number = surprising_line(text);
    const std::size_t first = errors.line(number).find_first_not_of(" \t");
    errors.add({0, number, static_cast<unsigned>(first) + 1}, "this is no TOML: the line cannot be read",
               "write [site], [[anchor]], key = value or a date such as 2026-03-01");
    return std::nullopt;
  }
}

Node parse_value(std::string_view text, Place place) {
  Node bare{.kind = Node::Kind::text, .place = place, .text = std::string(text)};
  const std::string line = fmt::format("value = {}", text);
  Errors ignored(line, "", {});
  if (text.find('\n') != text.npos || !scan_toml(line, ignored)) return bare;
  try {
    const toml::table root = toml::parse(line);
    if (root.size() == 1) return Converter(nullptr, place).node(root.begin()->second);
  } catch (const toml::parse_error&) {
    // no TOML value: a text without its quotes
  } catch (const Surprised&) {
    // neither
  }
  return bare;
}

}  // namespace fairlead
