// What a layout file says, before any of it means something: tables, lists and values, each with its place.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/layout/errors.hpp"

namespace fairlead {

struct Entry;
struct Outline;

struct Node {
  enum class Kind { table, list, text, number, truth, date, time };
  Kind kind = Kind::table;
  Place place{};       ///< of the value; of a table its header or brace
  std::string text{};  ///< of a truth "true" or "false"
  double number{};
  Date date{};
  std::vector<Node> items;     ///< of a list
  std::vector<Entry> entries;  ///< of a table

  const Node* find(std::string_view key) const;
  Node* find(std::string_view key);
};

struct Entry {
  std::string key;
  Place place;  ///< of the key
  Node node;
};

/// "a table", "a date": to be read after "not".
std::string_view kind_words(Node::Kind);

/// Looks for what the TOML library must not be shown: bytes that are no text, letters beyond ASCII outside quotes and
/// comments, nesting without end. True when there is none; else the first is among the errors.
bool scan_toml(std::string_view text, Errors&);

/// The tree of a scanned text, or the syntax error.
std::optional<Node> parse_toml(std::string_view text, Errors&);

/// What stands right of "=" on the command line: a TOML value, else the text itself.
Node parse_value(std::string_view text, Place);

/// Changes the tree, of a file whose sections are those of the outline, as the command line says.
void apply_overrides(Node& root, const Outline&, const std::vector<Override>&, Errors&);

}  // namespace fairlead
