#include "geometry/layout/outline.hpp"

#include <type_traits>

#include "geometry/layout/concept_fields.hpp"
#include "geometry/layout/layout_fields.hpp"

namespace fairlead {
namespace {

template <class T>
struct Type {
  using plain = T;
};
template <class T>
struct Type<std::optional<T>> : Type<T> {};
template <class T>
struct Type<Given<T>> : Type<T> {};

using Kind = Outline::Kind;

template <class T>
inline constexpr Kind kind_of = std::is_enum_v<T> ? Kind::choice : Kind::table;
template <>
inline constexpr Kind kind_of<std::string> = Kind::words;
template <>
inline constexpr Kind kind_of<double> = Kind::number;
template <>
inline constexpr Kind kind_of<bool> = Kind::truth;
template <>
inline constexpr Kind kind_of<Range> = Kind::range;
template <>
inline constexpr Kind kind_of<Point3> = Kind::point;
template <>
inline constexpr Kind kind_of<Vec3> = Kind::displacement;
template <>
inline constexpr Kind kind_of<Size> = Kind::size;
template <>
inline constexpr Kind kind_of<PerAxis> = Kind::per_axis;
template <>
inline constexpr Kind kind_of<Curve> = Kind::curve;
template <>
inline constexpr Kind kind_of<Date> = Kind::date;
template <>
inline constexpr Kind kind_of<Limit> = Kind::limit;
template <>
inline constexpr Kind kind_of<std::array<std::string, 3>> = Kind::axes;
template <>
inline constexpr Kind kind_of<std::vector<std::string>> = Kind::joins;
template <>
inline constexpr Kind kind_of<std::vector<Over>> = Kind::route;
template <class T>
inline constexpr Kind kind_of<std::vector<T>> = std::is_enum_v<T> ? Kind::choices : Kind::tables;

template <class E>
std::vector<std::string_view> words_of() {
  std::vector<std::string_view> words;
  for (const Choice<E>& choice : choices_of<E>) words.push_back(choice.word);
  return words;
}

template <class T>
std::vector<Outline> outline_of_table();

template <class T>
void describe(Outline& outline, const T* = nullptr) {
  outline.kind = kind_of<T>;
  if constexpr (std::is_same_v<T, Vec3>)
    if (outline.key.dimension == Dimension::none) outline.kind = Kind::direction;
  if constexpr (kind_of<T> == Kind::choice) outline.choices = words_of<T>();
  if constexpr (kind_of<T> == Kind::choices) outline.choices = words_of<typename T::value_type>();
  if constexpr (kind_of<T> == Kind::table) outline.keys = outline_of_table<T>();
  if constexpr (kind_of<T> == Kind::tables || kind_of<T> == Kind::route)
    outline.keys = outline_of_table<typename T::value_type>();
}

template <class Stored, class T>
void describe_member(Outline& outline, Stored T::*) {
  describe<typename Type<Stored>::plain>(outline);
}
template <class T, class Id>
void describe_member(Outline& outline, const Pointing<T, Id>&) {
  outline.kind = Kind::reference;
}

template <class T>
std::vector<Outline> outline_of_table() {
  std::vector<Outline> keys;
  for (const Field<T>& field : fields_of<T>) {
    Outline outline{.key = field.key};
    std::visit([&](const auto& member) { describe_member(outline, member); }, field.member);
    keys.push_back(std::move(outline));
  }
  return keys;
}

}  // namespace

const Outline* Outline::find(std::string_view name) const {
  for (const Outline& outline : keys)
    if (outline.key.name == name) return &outline;
  return nullptr;
}

const Outline& layout_outline() {
  static const Outline whole{
      .key = {.name = "layout", .says = "a layout"}, .kind = Kind::table, .keys = outline_of_table<Layout>()};
  return whole;
}

const Outline& concept_outline() {
  static const Outline whole{
      .key = {.name = "concept", .says = "a concept"}, .kind = Kind::table, .keys = outline_of_table<Concept>()};
  return whole;
}

std::string_view kind_words(Kind kind) {
  switch (kind) {
    case Kind::words:
      return "a text";
    case Kind::number:
      return "a value";
    case Kind::range:
      return "a value, or a range [low, high]";
    case Kind::point:
      return "the id of a point of the points file, or a place [x, y, z]";
    case Kind::displacement:
      return "a displacement [along, across, up]";
    case Kind::size:
      return "a size [along, across, up]";
    case Kind::per_axis:
      return "three values [along, across, up]";
    case Kind::direction:
      return "a direction [x, y, z], of any length above zero";
    case Kind::curve:
      return "a curve [[x, y], [x, y], ...], x rising";
    case Kind::date:
      return "a date, without quotes";
    case Kind::limit:
      return "a limit { at = value, basis = \"who says so\" }";
    case Kind::choice:
      return "one of its words";
    case Kind::choices:
      return "a list of its words";
    case Kind::reference:
      return "the id of what it points at";
    case Kind::axes:
      return "three texts";
    case Kind::joins:
      return "a list of ids";
    case Kind::truth:
      return "true or false";
    case Kind::route:
      return "a list of sheaves";
    case Kind::table:
      return "a table";
    case Kind::tables:
      return "a list of tables";
  }
  return "a value";
}

}  // namespace fairlead
