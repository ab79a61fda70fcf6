#include <fmt/format.h>

#include "geometry/layout/layout_fields.hpp"
#include "geometry/layout/node.hpp"
#include "geometry/layout/outline.hpp"
#include "geometry/layout/suggest.hpp"

namespace fairlead {
namespace {

constexpr const char* how = "write section.key=value or section.id.key=value";

// One --set: walks down the tree by the words of its key and leaves its value there.
class Change {
 public:
  Change(const Override& change, const Outline& whole, Place key, Place value, Errors& errors)
      : key_(change.key),
        value_(change.value),
        absent_(change.absent),
        whole_(whole),
        key_place_(key),
        value_place_(value),
        errors_(errors) {}

  void apply(Node& root) {
    const std::string section = next_word();
    const Outline* outline = whole_.find(section);
    if (!outline) {
      errors_.add(key_place_, fmt::format("there is no section \"{}\"", section),
                  did_you_mean(section, names_of(whole_)));
    } else if (rest_.empty()) {
      errors_.add(key_place_, fmt::format("\"{}\" names no key", section), how);
    } else if (outline->kind != Outline::Kind::tables) {
      descend(table_at(root, section));
    } else if (Node* item = find_item(root, *outline)) {
      descend(item);
    }
  }

 private:
  std::string next_word() {
    const std::size_t dot = rest_.find('.');
    std::string word(rest_.substr(0, dot));
    rest_ = dot == rest_.npos ? std::string_view{} : rest_.substr(dot + 1);
    return word;
  }

  Node* find_item(Node& root, const Outline& section) {
    const std::string_view name = section.key.name;
    if (!section.find("id")) {
      errors_.add(key_place_, fmt::format("a \"{}\" has no id, so nothing in it can be set from here", name),
                  "change it in the file");
      return nullptr;
    }
    const std::string id = next_word();
    std::vector<std::string> ids;
    if (Node* list = root.find(name))
      for (Node& item : list->items)
        if (const Node* its_id = item.find("id")) {
          if (its_id->text == id) return &item;
          ids.push_back(its_id->text);
        }
    errors_.add(key_place_, fmt::format("there is no {} \"{}\"", in_words(name), id), did_you_mean(id, ids));
    return nullptr;
  }

  // The table of this name in `parent`, made if it is not there.
  Node* table_at(Node& parent, std::string_view name) {
    Node* found = parent.find(name);
    if (!found) {
      parent.entries.push_back({std::string(name), key_place_, Node{.kind = Node::Kind::table, .place = key_place_}});
      found = &parent.entries.back().node;
    }
    return found;
  }

  void descend(Node* table) {
    const std::string name = next_word();
    if (name.empty()) {
      errors_.add(key_place_, fmt::format("\"{}\" names no key", key_), how);
    } else if (table->kind != Node::Kind::table) {
      errors_.add(key_place_, fmt::format("\"{}\" is in {}, and only a table has keys", name, kind_words(table->kind)));
    } else if (absent_ && rest_.empty()) {
      std::erase_if(table->entries, [&](const Entry& entry) { return entry.key == name; });
    } else if (!rest_.empty()) {
      descend(table_at(*table, name));
    } else if (Node* old = table->find(name)) {
      *old = parse_value(value_, value_place_);
      for (Entry& entry : table->entries)
        if (entry.key == name) entry.place = key_place_;
    } else {
      table->entries.push_back({name, key_place_, parse_value(value_, value_place_)});
    }
  }

  std::string_view key_, value_, rest_ = key_;
  bool absent_;
  const Outline& whole_;
  Place key_place_, value_place_;
  Errors& errors_;
};

}  // namespace

std::string told(const Override& change) {
  return change.absent ? change.key + " left out" : fmt::format("{} = {}", change.key, change.value);
}

void apply_overrides(Node& root, const Outline& whole, const std::vector<Override>& overrides, Errors& errors) {
  for (std::size_t i = 0; i < overrides.size(); ++i)
    Change(overrides[i], whole, errors.key_of_override(i), errors.value_of_override(i), errors).apply(root);
}

}  // namespace fairlead
