#include "geometry/layout/values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/layout/suggest.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/quantity/utf8.hpp"

namespace fairlead {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

bool within(double value, const Bounds& bounds) {
  return (value > bounds.least || (bounds.least_itself && value == bounds.least)) &&
         (value < bounds.most || (bounds.most_itself && value == bounds.most));
}

// "must be above 0", "must not be negative", "must be at least 1", "must be above 0 and at most 1", "must lie from 0 to
// below 1".
std::string bounds_words(const Bounds& bounds, Dimension dimension) {
  const auto number = [&](double si) { return si == 0 ? "0" : print_quantity({si, dimension}); };
  if (std::isinf(bounds.most) && bounds.least == 0)
    return bounds.least_itself ? "must not be negative" : "must be above 0";
  if (std::isinf(bounds.most)) return fmt::format("must be at least {}", number(bounds.least));
  if (!bounds.least_itself)
    return fmt::format("must be above {} and at most {}", number(bounds.least), number(bounds.most));
  return fmt::format("must lie from {} to {}{}", number(bounds.least), bounds.most_itself ? "" : "below ",
                     number(bounds.most));
}

}  // namespace

void ValueReader::refuse(const Node& node, const std::string& who, const std::string& message,
                         const std::string& instead) {
  errors_.add(node.place, who + ": " + message, instead);
}

void ValueReader::refuse_kind(const Node& node, const Key& key, const std::string& who, std::string_view wanted) {
  refuse(node, who, fmt::format("\"{}\" is {}, not {}", key.name, wanted, kind_words(node.kind)), example(key));
}

bool ValueReader::check_table(const Node& node, const Key& key, const std::string& who,
                              const std::vector<std::string>& known) {
  if (node.kind != Node::Kind::table) {
    refuse_kind(node, key, who, "a table");
    return false;
  }
  for (const Entry& entry : node.entries)
    if (std::find(known.begin(), known.end(), entry.key) == known.end())
      errors_.add(entry.place, fmt::format("{}: unknown key \"{}\"", who, entry.key), did_you_mean(entry.key, known));
  return true;
}

double ValueReader::quantity(const Node& node, const Key& key, const std::string& who, Dimension dimension,
                             const Bounds& bounds) {
  if (node.kind != Node::Kind::text && node.kind != Node::Kind::number) {
    refuse_kind(node, key, who, dimension_words(dimension));
    return unknown;
  }
  const auto read =
      node.kind == Node::Kind::text ? read_quantity(node.text, dimension) : read_bare_number(node.number, dimension);
  if (!read) {
    refuse(node, who, read.error().message, read.error().instead);
    return unknown;
  }
  if (!within(*read, bounds)) {
    refuse(node, who, fmt::format("\"{}\" {}", key.name, bounds_words(bounds, dimension)));
    return unknown;
  }
  return *read;
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, double& value) {
  value = quantity(node, key, who, key.dimension, key.bounds);
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, std::string& value) {
  if (node.kind != Node::Kind::text) return refuse_kind(node, key, who, "a text");
  value = node.text;
  const bool control = std::any_of(value.begin(), value.end(),
                                   [](char c) { return (static_cast<unsigned char>(c) < 0x20) || c == 0x7F; });
  if (value.find_first_not_of(' ') == value.npos)
    refuse(node, who, fmt::format("\"{}\" is empty", key.name), example(key));
  else if (!is_utf8(value))
    refuse(node, who, fmt::format("\"{}\" is no UTF-8 text", key.name));
  else if (control)
    refuse(node, who, fmt::format("\"{}\" holds a line break or control character", key.name), "write it in one line");
  else if (key.name == "id" && value.find_first_of(". \"'") != value.npos)
    refuse(node, who, "an id has no blanks, dots or quotes", "letters, digits, - and _ will do");
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, bool& value) {
  if (node.kind != Node::Kind::truth) return refuse_kind(node, key, who, "true or false");
  value = node.text == "true";
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, Range& value) {
  if (node.kind != Node::Kind::list) {
    value.low = value.high = quantity(node, key, who, key.dimension, key.bounds);
    return;
  }
  if (node.items.size() != 2)
    return refuse(node, who, fmt::format("a range has two ends, not {}", node.items.size()), example(key));
  value.low = quantity(node.items[0], key, who, key.dimension, key.bounds);
  value.high = quantity(node.items[1], key, who, key.dimension, key.bounds);
  if (value.low > value.high) refuse(node, who, "the range runs from high to low", "write the lower end first");
}

std::array<double, 3> ValueReader::triple(const Node& node, const Key& key, const std::string& who,
                                          std::string_view what) {
  std::array<double, 3> values{unknown, unknown, unknown};
  if (node.kind != Node::Kind::list) {
    refuse_kind(node, key, who, what);
  } else if (node.items.size() != 3) {
    refuse(node, who, fmt::format("\"{}\" has three numbers, not {}", key.name, node.items.size()), example(key));
  } else {
    for (std::size_t i = 0; i < 3; ++i) values[i] = quantity(node.items[i], key, who, key.dimension, key.bounds);
  }
  return values;
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, Point3& value) {
  const auto [x, y, z] = triple(node, key, who, "a place [x, y, z]");
  value = {x, y, z};
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, Vec3& value) {
  const bool direction = key.dimension == Dimension::none;
  const auto [x, y, z] =
      triple(node, key, who, direction ? "a direction [x, y, z]" : "a displacement of three lengths");
  value = {x, y, z};
  const double length = norm(value);
  // A length so small or great that the unit vector overflows is no more use than none.
  if (direction && !std::isnan(length) && !(std::isfinite(1 / length) && 1 / length > 0))
    refuse(node, who, fmt::format("\"{}\" is {:.6g} long and points nowhere", key.name, length),
           "give it a direction; any length above zero will do");
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, Size& value) {
  const auto [along_m, across_m, up_m] = triple(node, key, who, "a size [along, across, up]");
  value = {along_m, across_m, up_m};
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, PerAxis& value) {
  const auto [along, across, up] = triple(node, key, who, "three values [along, across, up]");
  value = {along, across, up};
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, Curve& value) {
  if (node.kind != Node::Kind::list) return refuse_kind(node, key, who, "a list of rows");
  if (node.items.size() < 2) return refuse(node, who, "a curve has at least two rows", example(key));
  std::vector<CurvePoint> points;
  for (const Node& row : node.items) {
    if (row.kind != Node::Kind::list || row.items.size() != 2) {
      refuse(row, who, "a row of a curve has two values", example(key));
      continue;
    }
    const double x = quantity(row.items[0], key, who, key.over, not_negative);
    const double y = quantity(row.items[1], key, who, key.dimension, key.bounds);
    if (!points.empty() && x <= points.back().x)
      refuse(row.items[0], who,
             fmt::format("{} does not lie above {} of the row before", print_quantity({x, key.over}),
                         print_quantity({points.back().x, key.over})),
             "let the first column rise");
    points.push_back({x, y});
  }
  value = Curve(std::move(points));
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, Date& value) {
  if (node.kind == Node::Kind::text)
    return refuse(node, who, fmt::format("\"{}\" is a date, not a text", key.name),
                  fmt::format("write it without quotes, as {}", key.examples[0]));
  if (node.kind != Node::Kind::date) return refuse_kind(node, key, who, "a date");
  value = node.date;
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, Limit& value) {
  if (node.kind != Node::Kind::table)
    return refuse(node, who, fmt::format("the limit \"{}\" does not say who set it", key.name),
                  fmt::format("write {} = {{ at = ..., basis = \"who says so\" }}", key.name));
  const std::string its = fmt::format("{} \"{}\"", who, key.name);
  check_table(node, key, its, {"at", "basis"});
  const Node *at = node.find("at"), *basis = node.find("basis");
  Key of_at = key;
  of_at.name = "at";
  of_at.examples = {};
  if (!at) refuse(node, its, "\"at\" is missing", "add it: the value of the limit");
  if (!basis)
    refuse(node, its, "\"basis\" is missing",
           "add it: which code or person sets the limit; for example basis = \"our engineer\"");
  if (at) read(*at, of_at, its, value.at.value);
  if (at) value.at.place = at->place;
  if (basis) read(*basis, Key{.name = "basis", .says = "", .examples = {"'who says so'"}}, its, value.basis);
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, std::array<std::string, 3>& axes) {
  if (node.kind != Node::Kind::list || node.items.size() != 3)
    return refuse(node, who, fmt::format("\"{}\" is a list of three texts", key.name), example(key));
  for (std::size_t i = 0; i < 3; ++i) read(node.items[i], key, who, axes[i]);
}

void ValueReader::read(const Node& node, const Key& key, const std::string& who, std::vector<std::string>& joins) {
  if (node.kind != Node::Kind::list || node.items.size() < 2)
    return refuse(node, who, fmt::format("\"{}\" is a list of two ids or more", key.name), example(key));
  for (const Node& id : node.items)
    if (item(id, key, who,
             {Item::Kind::line, Item::Kind::block, Item::Kind::anchor, Item::Kind::brake_trolley,
              Item::Kind::brake_unit}))
      joins.push_back(id.text);
}

std::optional<Item> ValueReader::item(const Node& node, const Key& key, const std::string& who,
                                      const std::vector<Item::Kind>& kinds) {
  if (node.kind != Node::Kind::text) {
    refuse_kind(node, key, who, "an id");
    return std::nullopt;
  }
  const auto found = ids_.find(node.text);
  if (found && std::find(kinds.begin(), kinds.end(), found->kind) != kinds.end()) return found;
  std::string wanted;
  for (std::size_t i = 0; i < kinds.size(); ++i)
    wanted += fmt::format("{}{}", i == 0 ? "" : i + 1 == kinds.size() ? " or " : ", ", item_words(kinds[i]));
  refuse(node, who,
         found ? fmt::format("\"{}\" is {}, and {} is wanted", node.text, item_words(found->kind), wanted)
               : fmt::format("there is no \"{}\"; {} is wanted", node.text, wanted),
         did_you_mean(node.text, ids_.known(kinds)));
  return std::nullopt;
}

std::optional<std::size_t> ValueReader::choice(const Node& node, const Key& key, const std::string& who,
                                               const std::vector<std::string>& words) {
  if (node.kind != Node::Kind::text) {
    refuse_kind(node, key, who, "a text");
    return std::nullopt;
  }
  const auto found = std::find(words.begin(), words.end(), node.text);
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  refuse(node, who, fmt::format("\"{}\" can not be \"{}\"", key.name, node.text), did_you_mean(node.text, words));
  return std::nullopt;
}

}  // namespace fairlead
