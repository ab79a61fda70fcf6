#include "geometry/layout/told.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/layout/items.hpp"
#include "geometry/layout/layout_fields.hpp"

namespace fairlead {
namespace {

template <class T>
concept Table = !fields_of<T>.empty();

template <class T>
std::string name_of(const T& item) {
  return item.id.value;
}
std::string name_of(const Revision& row) { return row.revision; }
std::string name_of(const Waiver& waiver) {
  return waiver.subject ? fmt::format("{} {}", waiver.check.value, *waiver.subject) : waiver.check.value;
}

class Teller {
 public:
  explicit Teller(const Layout& layout) : layout_(layout) {
    for (const Field<Layout>& field : fields_of<Layout>)
      visit_stored(field, layout, [&](const auto& stored) { section(std::string(field.key.name), stored); });
  }

  std::vector<ToldPart> take() { return std::move(parts_); }

 private:
  template <class T>
  void section(const std::string& name, const std::optional<T>& one) {
    if (one) section(name, *one);
  }
  template <class T>
  void section(const std::string& name, const std::vector<T>& list) {
    for (const T& item : list) part(name, name_of(item), item);
  }
  template <Table T>
  void section(const std::string& name, const T& one) {
    part(name, "", one);
  }

  template <class T>
  void part(const std::string& section, const std::string& id, const T& table) {
    const std::size_t index = parts_.size();
    parts_.push_back({section, id});
    if constexpr (requires { table.place; }) parts_[index].place = table.place;
    keys(index, "", table);
    // A table that does not say where it stands does so by its first key that does.
    for (const ToldKey& key : parts_[index].keys)
      if (parts_[index].place.line == 0) parts_[index].place = key.told.place;
    for (ToldKey& key : parts_[index].keys)
      if (key.told.place == Place{}) key.told.place = parts_[index].place;
  }

  template <class T>
  void keys(std::size_t part, const std::string& prefix, const T& table) {
    for (const Field<T>& field : fields_of<T>) {
      const bool idle_default = !field.key.fallback.empty() && !means_something(field, table);
      if (idle_default || follows(field, table)) continue;
      visit_stored(field, table, OneValue{*this, part, prefix, field.key});
    }
  }

  /// Tells one value of a table.
  struct OneValue {
    Teller& teller;
    std::size_t part;
    const std::string& prefix;
    const Key& key;
    template <class... Stored>
    void operator()(const Stored&... stored) const {
      teller.value(part, prefix, key, stored...);
    }
  };

  /// Stored whether it was given or not, and another key of its group was given.
  template <class T>
  static bool follows(const Field<T>& field, const T& table) {
    if (field.key.group == 0) return false;
    bool may_be_absent = false, other_given = false;
    for (const Field<T>& one : fields_of<T>) {
      if (one.key.group != field.key.group) continue;
      std::optional<bool> given;
      visit_stored(one, table, IsGiven{given});
      may_be_absent = may_be_absent || (given && one.key.name == field.key.name);
      other_given = other_given || given.value_or(false);
    }
    return !may_be_absent && other_given;
  }

  template <class V>
  void value(std::size_t part, const std::string& prefix, const Key& key, const std::optional<V>& stored) {
    if (stored) value(part, prefix, key, *stored);
  }
  template <class V>
  void value(std::size_t part, const std::string& prefix, const Key& key, const Given<V>& stored) {
    value(part, prefix, key, stored.value, stored.place);
  }
  template <Table T>
  void value(std::size_t part, const std::string& prefix, const Key& key, const T& table) {
    keys(part, fmt::format("{}{}.", prefix, key.name), table);
  }
  template <Table T>
  requires(!std::is_same_v<T, Over>) void value(std::size_t owner, const std::string&, const Key& key,
                                                const std::vector<T>& list) {
    const std::string section = fmt::format("{}.{}", parts_[owner].section, key.name);
    for (const T& item : list) part(section, name_of(item), item);
  }
  template <class V>
  requires(!Table<V>) void value(std::size_t part, const std::string& prefix, const Key& key, const V& stored,
                                 Place place = {}) {
    Told told = tell(key, stored);
    if (told.place == Place{}) told.place = place;
    parts_[part].keys.push_back({prefix + std::string(key.name), &key, std::move(told)});
  }
  template <class T>
  void value(std::size_t part, const std::string& prefix, const Key& key, const std::optional<T>& reference,
             Place place) {
    if (reference) value(part, prefix, key, *reference, place);
  }

  static Told numbers(Told::Form form, Dimension dimension, std::initializer_list<double> si) {
    Told told{form};
    for (const double one : si) told.numbers.push_back({one, dimension});
    return told;
  }
  static Told words(std::string words) { return {Told::Form::words, std::move(words)}; }

  Told tell(const Key&, const std::string& text) const { return words(text); }
  Told tell(const Key&, bool truth) const { return words(truth ? "true" : "false"); }
  Told tell(const Key&, Date date) const {
    return words(fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day));
  }
  Told tell(const Key& key, double si) const { return numbers(Told::Form::number, key.dimension, {si}); }
  Told tell(const Key& key, const Range& range) const {
    return numbers(Told::Form::range, key.dimension, {range.low, range.high});
  }
  Told tell(const Key& key, Point3 p) const { return numbers(Told::Form::place, key.dimension, {p.x, p.y, p.z}); }
  Told tell(const Key& key, Vec3 v) const { return numbers(Told::Form::triple, key.dimension, {v.x, v.y, v.z}); }
  Told tell(const Key& key, const Size& size) const {
    return numbers(Told::Form::triple, key.dimension, {size.along_m, size.across_m, size.up_m});
  }
  Told tell(const Key& key, const PerAxis& per) const {
    return numbers(Told::Form::triple, key.dimension, {per.along, per.across, per.up});
  }
  Told tell(const Key& key, const Curve& curve) const {
    Told told{Told::Form::curve};
    for (const CurvePoint& point : curve.points()) {
      told.numbers.push_back({point.x, key.over});
      told.numbers.push_back({point.y, key.dimension});
    }
    return told;
  }
  Told tell(const Key& key, const Limit& limit) const {
    return {Told::Form::limit, limit.basis, {{limit.at.value, key.dimension}}, limit.at.place};
  }
  Told tell(const Key&, const std::array<std::string, 3>& axes) const {
    return words(fmt::format("{}, {}, {}", axes[0], axes[1], axes[2]));
  }
  Told tell(const Key&, const std::vector<std::string>& ids) const {
    return words(fmt::format("{}", fmt::join(ids, ", ")));
  }
  template <class E>
  requires std::is_enum_v<E> Told tell(const Key&, E choice)
  const { return words(std::string(word_of(choice))); }
  /// In the order of their words: that of the file says nothing.
  template <class E>
  requires std::is_enum_v<E> Told tell(const Key&, const std::vector<E>& several)
  const {
    std::vector<std::string_view> chosen;
    for (const Choice<E>& choice : choices_of<E>)
      if (std::find(several.begin(), several.end(), choice.value) != several.end()) chosen.push_back(choice.word);
    return words(fmt::format("{}", fmt::join(chosen, ", ")));
  }

  /// Of each sheave all that its table says: "R1 clockwise, R2".
  Told tell(const Key&, const std::vector<Over>& route) const {
    Told told{Told::Form::words, "", {}, route.empty() ? Place{} : route.front().place};
    for (const Over& over : route) {
      std::string one;
      const auto add = [&](const Key& key, const auto& value) {
        const Told part = tell(key, value);
        one += one.empty() || part.words.empty() ? part.words : " " + part.words;
        told.numbers.insert(told.numbers.end(), part.numbers.begin(), part.numbers.end());
      };
      for (const Field<Over>& field : fields_of<Over>)
        visit_stored(field, over, [&](const auto& stored, const auto&...) {
          if constexpr (!requires { stored.has_value(); })
            add(field.key, stored);
          else if (stored)
            add(field.key, *stored);
        });
      told.words += told.words.empty() ? one : ", " + one;
    }
    return told;
  }

  Told id(Item::Kind kind, int index) const { return words(*given_id(layout_, {kind, index})); }
  Told tell(const Key&, AnchorId anchor) const { return id(Item::Kind::anchor, static_cast<int>(anchor)); }
  Told tell(const Key&, SheaveId sheave) const { return id(Item::Kind::sheave, static_cast<int>(sheave)); }
  Told tell(const Key&, BlockId block) const { return id(Item::Kind::block, static_cast<int>(block)); }
  Told tell(const Key&, ConnectorId connector) const { return id(Item::Kind::connector, static_cast<int>(connector)); }
  Told tell(const Key&, BrakeTrolleyEnd) const { return words("brake_trolley"); }
  Told tell(const Key&, BrakeUnitEnd) const { return words("brake_unit"); }
  template <class... Ends>
  Told tell(const Key& key, const std::variant<Ends...>& end) const {
    return std::visit([&](const auto& one) { return tell(key, one); }, end);
  }

  const Layout& layout_;
  std::vector<ToldPart> parts_;
};

bool same_number(Quantity a, Quantity b) {
  const double most = std::max(std::abs(a.si), std::abs(b.si));
  return a.dimension == b.dimension &&
         (a.si == b.si || std::abs(a.si - b.si) <= 4 * std::numeric_limits<double>::epsilon() * most);
}

}  // namespace

bool same(const Told& a, const Told& b) {
  return a.form == b.form && a.words == b.words &&
         std::equal(a.numbers.begin(), a.numbers.end(), b.numbers.begin(), b.numbers.end(), same_number);
}

std::vector<ToldPart> told(const Layout& layout) { return Teller(layout).take(); }

}  // namespace fairlead
