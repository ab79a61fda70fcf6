#include <fmt/format.h>

#include <cmath>
#include <utility>
#include <variant>

#include "geometry/layout/outline.hpp"
#include "geometry/layout/read.hpp"
#include "geometry/layout/suggest.hpp"
#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

struct Json;
using Object = std::vector<std::pair<std::string, Json>>;
using Array = std::vector<Json>;
struct Json {
  std::variant<std::string, Object, Array> value;  ///< a string is JSON as it stands
};

Json text(std::string_view words) {
  std::string quoted = "\"";
  for (const char c : words) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return {quoted + '"'};
}

Json texts(const std::vector<std::string>& all) {
  Array array;
  for (const std::string& one : all) array.push_back(text(one));
  return {array};
}

Json number(double value) { return {fmt::format("{}", value)}; }

std::string printed(const Json& json, int depth) {
  const std::string inner(2 * static_cast<std::size_t>(depth) + 2, ' '),
      outer(2 * static_cast<std::size_t>(depth), ' ');
  std::vector<std::string> lines;
  if (const auto* object = std::get_if<Object>(&json.value)) {
    for (const auto& [key, value] : *object)
      lines.push_back(
          fmt::format("{}{}: {}", inner, std::get<std::string>(text(key).value), printed(value, depth + 1)));
    return fmt::format("{{\n{}\n{}}}", fmt::join(lines, ",\n"), outer);
  }
  if (const auto* array = std::get_if<Array>(&json.value)) {
    for (const Json& item : *array) lines.push_back(inner + printed(item, depth + 1));
    return fmt::format("[\n{}\n{}]", fmt::join(lines, ",\n"), outer);
  }
  return std::get<std::string>(json.value);
}

// A text with a unit, or a number where a bare one may stand.
Object quantity(Dimension dimension, const Bounds& bounds) {
  if (!bare_number_allowed(dimension)) return {{"type", text("string")}};
  Object schema{{"type", texts({"number", "string"})}};
  if (std::isfinite(bounds.least))
    schema.emplace_back(bounds.least_itself ? "minimum" : "exclusiveMinimum", number(bounds.least));
  if (std::isfinite(bounds.most))
    schema.emplace_back(bounds.most_itself ? "maximum" : "exclusiveMaximum", number(bounds.most));
  return schema;
}

Object list_of(const Json& items, std::size_t least, std::size_t most = 0) {
  Object schema{{"type", text("array")}, {"items", items}, {"minItems", number(static_cast<double>(least))}};
  if (most > 0) schema.emplace_back("maxItems", number(static_cast<double>(most)));
  return schema;
}

Object words_schema(const Outline& outline) {
  return {{"enum", texts({outline.choices.begin(), outline.choices.end()})}};
}

Object words() { return {{"type", text("string")}, {"minLength", number(1)}}; }

Object table_schema(const Outline& table);

// What may stand for this key, without what is said of it.
Object value_schema(const Outline& outline) {
  const Key& key = outline.key;
  Object one = quantity(key.dimension, key.bounds);
  switch (outline.kind) {
    case Outline::Kind::words:
      return words();
    case Outline::Kind::number:
      return one;
    case Outline::Kind::range:
      return {{"anyOf", {Array{{one}, {list_of({one}, 2, 2)}}}}};
    case Outline::Kind::point:
      return {{"anyOf", {Array{{list_of({one}, 3, 3)}, {words()}}}}};
    case Outline::Kind::displacement:
    case Outline::Kind::size:
    case Outline::Kind::per_axis:
      return list_of({one}, 3, 3);
    case Outline::Kind::direction:
      return list_of({Object{{"type", text("number")}}}, 3, 3);
    case Outline::Kind::curve:
      return list_of({list_of({Array{{quantity(key.over, not_negative)}, {one}}}, 2, 2)}, 2);
    case Outline::Kind::date:
      return {{"type", text("string")}, {"format", text("date")}};
    case Outline::Kind::limit:
      return {{"type", text("object")},
              {"additionalProperties", {"false"}},
              {"required", texts({"at", "basis"})},
              {"properties", {Object{{"at", {one}}, {"basis", {words()}}}}}};
    case Outline::Kind::choice:
      return words_schema(outline);
    case Outline::Kind::choices:
      return list_of({words_schema(outline)}, 1);
    case Outline::Kind::reference:
      return words();
    case Outline::Kind::axes:
      return list_of({words()}, 3, 3);
    case Outline::Kind::truth:
      return {{"type", text("boolean")}};
    case Outline::Kind::joins:
      return list_of({words()}, 2);
    case Outline::Kind::route:
      return list_of({Object{{"anyOf", {Array{{words()}, {table_schema(outline)}}}}}}, 0);
    case Outline::Kind::table:
      return table_schema(outline);
    case Outline::Kind::tables:
      return list_of({table_schema(outline)}, key.need == Need::required ? 1 : 0);
  }
  return {};
}

Json key_schema(const Outline& outline) {
  const Key& key = outline.key;
  Object schema{{"description", text(key.says)}};
  for (auto& part : value_schema(outline)) schema.push_back(std::move(part));
  if (!key.fallback.empty()) schema.emplace_back("default", Json{with_double_quotes(key.fallback)});
  return {schema};
}

// One rule for each group of keys of which exactly one, or at most one, may be given.
Array group_rules(const Outline& table) {
  Array rules;
  for (int group = 1;; ++group) {
    std::vector<std::string> names;
    Need need{};
    for (const Outline& outline : table.keys)
      if (outline.key.group == group) {
        names.emplace_back(outline.key.name);
        need = outline.key.need;
      }
    if (names.empty()) return rules;
    Array each;
    for (const std::string& name : names) each.push_back({Object{{"required", texts({name})}}});
    if (need == Need::exactly_one)
      rules.push_back({Object{{"oneOf", {each}}}});
    else
      for (std::size_t i = 0; i < names.size(); ++i)
        for (std::size_t j = i + 1; j < names.size(); ++j)
          rules.push_back({Object{{"not", {Object{{"required", texts({names[i], names[j]})}}}}}});
  }
}

// One rule for each word of "kind": which keys a table of that kind must have, and which it can not have.
void add_kind_rules(const Outline& table, Array& rules) {
  const Outline* kind = table.find("kind");
  if (!kind) return;
  for (const std::string_view word : kind->choices) {
    std::vector<std::string> required;
    Object of_others;
    for (const Outline& outline : table.keys) {
      const Key& key = outline.key;
      if (key.of == word && key.need == Need::required) required.emplace_back(key.name);
      if (!key.of.empty() && key.of != word) of_others.emplace_back(key.name, Json{"false"});
    }
    if (required.empty() && of_others.empty()) continue;
    const Object is_word{{"required", texts({"kind"})},
                         {"properties", {Object{{"kind", {Object{{"const", text(word)}}}}}}}};
    rules.push_back(
        {Object{{"if", {is_word}}, {"then", {Object{{"required", texts(required)}, {"properties", {of_others}}}}}}});
  }
}

Object table_schema(const Outline& table) {
  Object properties, dependencies;
  std::vector<std::string> required;
  for (const Outline& outline : table.keys) {
    const std::string name(outline.key.name);
    properties.emplace_back(name, key_schema(outline));
    if (outline.key.need == Need::required && outline.key.of.empty()) required.push_back(name);
    if (!outline.key.with.empty()) dependencies.emplace_back(name, texts({std::string(outline.key.with)}));
  }
  Object schema{{"type", text("object")}, {"additionalProperties", {"false"}}};
  if (!required.empty()) schema.emplace_back("required", texts(required));
  if (!dependencies.empty()) schema.emplace_back("dependencies", Json{dependencies});
  Array rules = group_rules(table);
  add_kind_rules(table, rules);
  if (!rules.empty()) schema.emplace_back("allOf", Json{rules});
  schema.emplace_back("properties", Json{properties});
  return schema;
}

std::string schema_of(const Outline& whole, std::string_view title) {
  Object schema{{"$schema", text("http://json-schema.org/draft-07/schema#")}, {"title", text(title)}};
  for (auto& part : table_schema(whole)) schema.push_back(std::move(part));
  return printed({schema}, 0) + "\n";
}

}  // namespace

std::string layout_schema() { return schema_of(layout_outline(), "fairlead layout"); }
std::string concept_schema() { return schema_of(concept_outline(), "fairlead concept"); }

}  // namespace fairlead
