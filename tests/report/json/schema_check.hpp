// Holds a JSON value against the part of JSON Schema (draft-07) that report/json/schema.json uses.
#pragma once

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace fairlead {

/// Every way in which a value breaks its schema, "at/the/place: what"; empty when it keeps it. A keyword this checker
/// does not know is reported too, so that no rule is passed over.
class SchemaCheck {
 public:
  explicit SchemaCheck(nlohmann::json schema) : schema_(std::move(schema)) {}
  std::vector<std::string> faults(const nlohmann::json& value) const {
    std::vector<std::string> found;
    check(value, schema_, "", found);
    return found;
  }

 private:
  using Json = nlohmann::json;

  void check(const Json& value, const Json& schema, const std::string& at, std::vector<std::string>& found) const {
    for (const auto& [keyword, rule] : schema.items()) {
      if (keyword == "$ref") {
        check(value, schema_.at(Json::json_pointer(rule.get<std::string>().substr(1))), at, found);
      } else if (keyword == "type") {
        if (!is_of(value, rule)) found.push_back(at + ": not " + rule.dump() + " but " + value.dump().substr(0, 40));
      } else if (keyword == "enum") {
        if (std::find(rule.begin(), rule.end(), value) == rule.end())
          found.push_back(at + ": not one of " + rule.dump());
      } else if (keyword == "const") {
        if (value != rule) found.push_back(at + ": not " + rule.dump());
      } else if (keyword == "allOf") {
        for (const Json& part : rule) check(value, part, at, found);
      } else if (keyword == "oneOf" || keyword == "anyOf") {
        alternatives(value, rule, keyword == "oneOf", at, found);
      } else if (keyword == "required") {
        for (const Json& key : rule)
          if (value.is_object() && !value.contains(key.get<std::string>()))
            found.push_back(at + ": lacks " + key.dump());
      } else if (keyword == "properties") {
        properties(value, schema, at, found);
      } else if (keyword == "items") {
        for (std::size_t i = 0; value.is_array() && i < value.size(); ++i)
          check(value[i], rule, at + "/" + std::to_string(i), found);
      } else if (keyword == "minItems" || keyword == "maxItems") {
        const bool kept = !value.is_array() || (keyword == "minItems" ? value.size() >= rule : value.size() <= rule);
        if (!kept) found.push_back(at + ": " + keyword + " " + rule.dump());
      } else if (keyword == "minimum") {
        if (value.is_number() && !(value >= rule)) found.push_back(at + ": below " + rule.dump());
      } else if (!is_only_words(keyword)) {
        found.push_back(at + ": this checker does not know " + keyword);
      }
    }
  }

  void alternatives(const Json& value, const Json& parts, bool one, const std::string& at,
                    std::vector<std::string>& found) const {
    int kept = 0;
    for (const Json& part : parts) {
      std::vector<std::string> faults;
      check(value, part, at, faults);
      kept += faults.empty();
    }
    if (kept == 0 || (one && kept > 1)) found.push_back(at + ": keeps " + std::to_string(kept) + " alternatives");
  }

  void properties(const Json& value, const Json& schema, const std::string& at, std::vector<std::string>& found) const {
    if (!value.is_object()) return;
    for (const auto& [key, inner] : value.items()) {
      const auto described = schema["properties"].find(key);
      if (described != schema["properties"].end())
        check(inner, *described, at + "/" + key, found);
      else if (schema.value("additionalProperties", true) == false)
        found.push_back(at + ": " + key + " is not described");
    }
  }

  static bool is_of(const Json& value, const Json& type) {
    if (type.is_array()) return std::any_of(type.begin(), type.end(), [&](const Json& t) { return is_of(value, t); });
    const auto name = type.get<std::string>();
    return (name == "object" && value.is_object()) || (name == "array" && value.is_array()) ||
           (name == "string" && value.is_string()) || (name == "boolean" && value.is_boolean()) ||
           (name == "null" && value.is_null()) || (name == "number" && value.is_number()) ||
           (name == "integer" && value.is_number_integer());
  }

  static bool is_only_words(const std::string& keyword) {
    return keyword == "$schema" || keyword == "title" || keyword == "description" || keyword == "definitions" ||
           keyword == "additionalProperties";
  }

  Json schema_;
};

}  // namespace fairlead
