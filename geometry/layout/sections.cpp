#include "geometry/layout/sections.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <type_traits>

#include "geometry/layout/concept_fields.hpp"
#include "geometry/layout/layout_fields.hpp"
#include "geometry/layout/outline.hpp"
#include "geometry/layout/suggest.hpp"
#include "geometry/layout/values.hpp"

namespace fairlead {
namespace {

const std::vector<Item::Kind> every_kind{Item::Kind::anchor,        Item::Kind::sheave,       Item::Kind::line,
                                         Item::Kind::block,         Item::Kind::connector,    Item::Kind::brake_trolley,
                                         Item::Kind::brake_unit,    Item::Kind::support_line, Item::Kind::structure,
                                         Item::Kind::parallel_line, Item::Kind::member};
constexpr std::size_t most_items = 1000;  // of one kind; ids are 16 bits wide

template <class T>
concept Table = !fields_of<T>.empty();

class SectionReader : public ValueReader {
 public:
  SectionReader(Errors& errors, const Ids& ids, PointsTable& points, const Outline& whole)
      : ValueReader(errors, ids), points_(points), whole_(whole) {}

  template <class Whole>
  Unsound read_whole(const Node& root, Whole& layout) {
    Unsound unsound;
    for (const Entry& entry : root.entries)
      if (!whole_.find(entry.key)) refuse_section(entry);
    for (const Field<Whole>& field : fields_of<Whole>) {
      const std::size_t before = errors_.count();
      points_missed_ = false;
      if (const Node* node = root.find(field.key.name))
        visit_stored(field, layout, [&](auto& section) { read(*node, field.key, in_words(field.key.name), section); });
      else if (field.key.need == Need::required)
        errors_.add({}, fmt::format("section \"{}\" is missing: {}", field.key.name, field.key.says),
                    fmt::format("it begins with {}", header(field.key.name)));
      if (errors_.count() > before || points_missed_) unsound.emplace(field.key.name);
    }
    return unsound;
  }

 private:
  using ValueReader::read;

  void refuse_section(const Entry& entry) {
    if (layout_outline().find(entry.key))
      errors_.add(entry.place, fmt::format("{} has no section \"{}\"", whole_.key.says, entry.key),
                  "leave it out, or make it a layout: leave out [concept]");
    else
      errors_.add(entry.place, fmt::format("unknown section \"{}\"", entry.key),
                  did_you_mean(entry.key, names_of(whole_)));
  }

  std::string header(std::string_view section) const {
    const bool list = whole_.find(section)->kind == Outline::Kind::tables;
    return list ? fmt::format("[[{}]]", section) : fmt::format("[{}]", section);
  }

  template <class T>
  void read(const Node& node, const Key& key, const std::string& who, std::optional<T>& value) {
    read(node, key, who, value.emplace());
  }

  template <class T>
  void read(const Node& node, const Key& key, const std::string& who, Given<T>& value) {
    value.place = node.place;
    read(node, key, who, value.value);
  }

  void read(const Node& node, const Key& key, const std::string& who, std::optional<PointsFile>& value) {
    const std::size_t before = errors_.count();
    read(node, key, who, value.emplace());
    if (errors_.count() == before)
      points_.read(*value);
    else
      points_.read_nothing();
  }

  // A place may be the id of a point, and then it stands where that point does.
  void read(const Node& node, const Key& key, const std::string& who, Given<Point3>& value) {
    value.place = node.place;
    if (node.kind != Node::Kind::text) return read(node, key, who, value.value);
    switch (points_.state()) {
      case PointsTable::State::absent:
        return refuse(node, who, fmt::format("\"{}\" names a point, and the layout has no section [points]", key.name),
                      fmt::format("write [x, y, z]; {}", example(key)));
      case PointsTable::State::unsound:
        points_missed_ = true;
        return;
      case PointsTable::State::known:
        if (const SurveyPoint* point = points_.find(node.text, node.place, who))
          value = {point->at, {points_file, point->line, 1}};
    }
  }

  template <class E>
  requires std::is_enum_v<E>
  void read(const Node& node, const Key& key, const std::string& who, E& value) {
    std::vector<std::string> words;
    for (const Choice<E>& one : choices_of<E>) words.emplace_back(one.word);
    if (const auto index = choice(node, key, who, words)) value = choices_of<E>[*index].value;
  }

  template <class E>
  requires std::is_enum_v<E>
  void read(const Node& node, const Key& key, const std::string& who, std::vector<E>& values) {
    values.clear();
    if (node.kind != Node::Kind::list || node.items.empty())
      return refuse(node, who, fmt::format("\"{}\" is a list of one word or more", key.name), example(key));
    for (const Node& item : node.items) {
      E value{};
      read(item, key, who, value);
      if (std::find(values.begin(), values.end(), value) == values.end()) values.push_back(value);
    }
  }

  template <class Id>
  void read(const Node& node, const Key& key, const std::string& who, Id& to, Place& place) {
    place = node.place;
    if (const auto found = item(node, key, who, kinds_of(&to))) point_at(*found, to);
  }

  // The subject of a waiver: misspelt it would waive nothing.
  void read(const Node& node, const Key& key, const std::string& who, std::optional<std::string>& subject,
            Place& place) {
    place = node.place;
    read(node, key, who, subject.emplace());
    const Outline* section = layout_outline().find(*subject);
    const bool one = section && section->kind == Outline::Kind::table;
    if (node.kind == Node::Kind::text && !one && *subject != "layout" && !ids_.find(*subject))
      refuse(node, who, fmt::format("there is no \"{}\"", *subject), did_you_mean(*subject, ids_.known(every_kind)));
  }

  template <Table T>
  void read(const Node& node, const Key& key, const std::string& who, T& value) {
    if (node.kind == Node::Kind::list)
      return refuse(node, who, fmt::format("there is only one \"{}\"", key.name), fmt::format("write [{}]", key.name));
    read_table(node, key, who, value);
  }

  template <Table T>
  void read(const Node& node, const Key& key, const std::string& who, std::vector<T>& list) {
    if (node.kind != Node::Kind::list)
      return refuse(node, who, fmt::format("\"{}\" is a list of tables, not {}", key.name, kind_words(node.kind)),
                    fmt::format("write [[{}]]", key.name));
    if (node.items.empty() && key.need == Need::required)
      return refuse(node, who, fmt::format("\"{}\" is an empty list", key.name));
    if (node.items.size() > most_items)
      return refuse(node, who, fmt::format("there are more than {} of \"{}\"", most_items, key.name));
    for (const Node& item : node.items) {
      const Node* id = item.find("id");
      const std::string name =
          id && id->kind == Node::Kind::text ? fmt::format("\"{}\"", id->text) : std::to_string(list.size() + 1);
      list.emplace_back();
      read_table(item, key, fmt::format("{} {}", who, name), list.back());
    }
  }

  void read(const Node& node, const Key& key, const std::string& who, std::vector<Over>& route) {
    if (node.kind != Node::Kind::list) return refuse_kind(node, key, who, "a list of sheaves");
    for (const Node& item : node.items) {
      route.emplace_back();
      if (item.kind == Node::Kind::table)
        read_table(item, key, who, route.back());
      else
        read(item, key, who, route.back().sheave, route.back().place);
    }
  }

  template <class T>
  void read_table(const Node& node, const Key& key, const std::string& who, T& value) {
    std::vector<std::string> names;
    for (const Field<T>& field : fields_of<T>) names.emplace_back(field.key.name);
    if (!check_table(node, key, who, names)) return;
    if constexpr (requires { value.place; }) value.place = node.place;
    const std::string kind = kind_word<T>(node);
    for (const Field<T>& field : fields_of<T>) {
      const std::string_view of = field.key.of;
      const Node* given = node.find(field.key.name);
      if (given && !of.empty() && !kind.empty() && of != kind)
        refuse(*given, who, fmt::format("a {} has no \"{}\"", kind, field.key.name),
               fmt::format("only a {} has it", of));
      else if (given)
        read_given(*given, node, field, who, value);
      else if (of.empty() || of == kind)
        read_absent(node, field, who, value);
    }
    check_groups(node, who, fields_of<T>);
  }

  // The word by which a table is of one kind among several; "" where it has none, or none that is known.
  template <class T>
  static std::string kind_word(const Node& node) {
    const Node* kind = node.find("kind");
    const std::string word = kind ? kind->text : "";
    const auto fields = fields_of<T>;
    const bool known =
        std::any_of(fields.begin(), fields.end(), [&](const auto& field) { return field.key.of == word; });
    return known ? word : "";
  }

  template <class T>
  void read_given(const Node& given, const Node& table, const Field<T>& field, const std::string& who, T& value) {
    read_field(given, field, who, value);
    if (!field.key.with.empty() && !table.find(field.key.with))
      refuse(given, who, fmt::format("\"{}\" says nothing without \"{}\"", field.key.name, field.key.with));
  }

  template <class T>
  void read_absent(const Node& table, const Field<T>& field, const std::string& who, T& value) {
    const Key& key = field.key;
    if (key.need == Need::required)
      refuse(table, who, fmt::format("\"{}\" is missing", key.name),
             fmt::format("add it: {}{}{}", key.says, key.examples[0].empty() ? "" : "; ", example(key)));
    else if (!key.fallback.empty() && (key.with.empty() || table.find(key.with)))
      read_field(parse_value(with_double_quotes(key.fallback), {}), field, who, value);
  }

  template <class T>
  void read_field(const Node& node, const Field<T>& field, const std::string& who, T& value) {
    visit_stored(field, value, OneValue{*this, node, field.key, who});
  }

  /// Reads one value of a table.
  struct OneValue {
    SectionReader& reader;
    const Node& node;
    const Key& key;
    const std::string& who;
    template <class... Target>
    void operator()(Target&... target) const {
      if constexpr (sizeof...(target) == 1 && (Nested<Target> && ...))
        reader.read(node, key, fmt::format("{} {}", who, in_words(key.name)), target...);
      else
        reader.read(node, key, who, target...);
    }
  };

  /// A table or list of tables inside a section: it names itself in messages.
  template <class V>
  struct IsNested : std::bool_constant<Table<V>> {};
  template <class T>
  struct IsNested<std::optional<T>> : IsNested<T> {};
  template <class T>
  struct IsNested<std::vector<T>> : std::bool_constant<Table<T> && !std::is_same_v<T, Over>> {};
  template <class V>
  static constexpr bool Nested = IsNested<V>::value;

  // Exactly one, or at most one, of the keys that share a group.
  template <class T>
  void check_groups(const Node& node, const std::string& who, std::span<const Field<T>> fields) {
    for (int group = 1;; ++group) {
      std::vector<std::string> names;
      std::vector<const Entry*> given;
      Need need{};
      for (const Field<T>& field : fields) {
        if (field.key.group != group) continue;
        need = field.key.need;
        names.push_back(fmt::format("\"{}\"", field.key.name));
        for (const Entry& entry : node.entries)
          if (entry.key == field.key.name) given.push_back(&entry);
      }
      if (names.empty()) return;
      // The first one written is taken to be meant.
      std::sort(given.begin(), given.end(), [](const Entry* a, const Entry* b) {
        return std::tuple(a->place.file, a->place.line, a->place.column) <
               std::tuple(b->place.file, b->place.line, b->place.column);
      });
      const std::string all = fmt::format("{} and {}", fmt::join(names.begin(), names.end() - 1, ", "), names.back());
      if (given.empty() && need == Need::exactly_one)
        refuse(node, who, fmt::format("one of {} is missing", all), "give exactly one");
      for (std::size_t i = 1; i < given.size(); ++i)
        errors_.add(given[i]->place,
                    fmt::format("{}: \"{}\" and \"{}\" are both given", who, given[0]->key, given[i]->key),
                    fmt::format("of {} only one may be given", all));
    }
  }

  PointsTable& points_;
  const Outline& whole_;
  bool points_missed_ = false;  // in the section that is read: a point of an unsound points file
};

}  // namespace

Unsound read_sections(const Node& root, const Ids& ids, PointsTable& points, Layout& layout, Errors& errors) {
  return SectionReader(errors, ids, points, layout_outline()).read_whole(root, layout);
}

Unsound read_sections(const Node& root, const Ids& ids, PointsTable& points, Concept& idea, Errors& errors) {
  return SectionReader(errors, ids, points, concept_outline()).read_whole(root, idea);
}

}  // namespace fairlead
