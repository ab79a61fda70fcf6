#include "geometry/records/units_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "geometry/layout/brake_fields.hpp"
#include "geometry/quantity/nearest.hpp"
#include "geometry/records/columns_file.hpp"

namespace fairlead {
namespace {

enum Units : std::size_t { serial, key, value };
constexpr std::array<RecordColumn, 3> units_columns{{{"serial", true}, {"key", true}, {"value", true}}};

class UnitsReader : ColumnsFile {
 public:
  explicit UnitsReader(std::string_view text) : ColumnsFile(text, units_columns, "line") {}

  tl::expected<std::vector<UnitDatum>, PointsErrors> read() {
    while (next()) row();
    if (rows_.empty() && errors_.first.empty())
      add_of_file("there is no unit in the file", "begin it with serial,key,value and write a line for each key");
    add_later({}, 0);  // in the order of their places
    if (!errors_.first.empty()) return tl::unexpected<PointsErrors>(std::move(errors_));
    return std::move(rows_);
  }

 private:
  void row() {
    UnitDatum one{text(serial), text(key), text(value), number_};
    constexpr std::size_t longest = 80;
    if (one.serial.find_first_of("\"\\") != std::string::npos)
      wrong(serial, "a serial has no quotes and no backslash", "write it as it stands on the unit's plate");
    if (std::ranges::find(keys_, one.key) == keys_.end()) {
      const auto near = one.key.size() <= longest ? nearest(one.key, keys_) : std::nullopt;
      wrong(key, fmt::format("\"{}\" is none of a unit's keys", points_row::shown(one.key)),
            near ? fmt::format("did you mean \"{}\"?", *near) : fmt::format("known: {}", fmt::join(keys_, ", ")));
    } else if (const auto [at, fresh] = first_.try_emplace({one.serial, one.key}, number_); !fresh) {
      wrong(key,
            fmt::format("{} of \"{}\" stands in line {} already", one.key, points_row::shown(one.serial), at->second),
            "remove one of them");
    }
    rows_.push_back(std::move(one));
  }

  const std::vector<std::string> keys_ = unit_keys();
  std::vector<UnitDatum> rows_;
  std::map<std::pair<std::string, std::string>, unsigned> first_;
};

}  // namespace

std::vector<std::string> unit_keys() {
  std::vector<std::string> keys;
  for (const Field<UnplacedUnit>& field : unplaced_unit_fields)
    if (field.key.name != "rest_extension") keys.emplace_back(field.key.name);
  for (const char* own : {"lead_angle", "mass", "certificate_due"}) keys.emplace_back(own);
  return keys;
}

tl::expected<std::vector<UnitDatum>, PointsErrors> read_units(std::string_view text) {
  const auto lines = lines_of(text);
  if (!lines) return tl::unexpected<PointsErrors>(lines.error());
  return UnitsReader(*lines).read();
}

std::vector<Override> swapped_in(const std::vector<UnitDatum>& data, const std::string& of) {
  if (std::ranges::find(data, of, &UnitDatum::serial) == data.end()) return {};
  std::vector<Override> changes{{"brake_unit.serial", '"' + of + '"'}};
  for (const std::string& name : unit_keys()) {
    const auto found =
        std::ranges::find_if(data, [&](const UnitDatum& one) { return one.serial == of && one.key == name; });
    Override change{"brake_unit." + name, found == data.end() ? "" : found->value};
    change.absent = found == data.end();
    changes.push_back(std::move(change));
  }
  return changes;
}

}  // namespace fairlead
