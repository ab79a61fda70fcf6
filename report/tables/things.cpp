#include "geometry/checks/worst.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {

std::string passage(const Rig& rig, int sweep) { return passage_of(rig, sweep); }

std::string sheave_name(const Rig& rig, std::size_t sheave) {
  const int reeved = rig.reeved.at(sheave);
  if (reeved >= 0) return words::name_of(rig.layout, {Item::Kind::sheave, reeved});
  const reeving::Body block = rig.reeving.inputs->sheaves.at(sheave).body;
  return "wheel of " + words::name_of(rig.layout, {Item::Kind::block, block});
}

std::string thing(const Rig& rig, clearance::Thing what) {
  using Kind = clearance::Thing::Kind;
  const auto index = static_cast<std::size_t>(what.index);
  switch (what.kind) {
    case Kind::rider:
      return "rider";
    case Kind::hands:
      return "line beside the brake trolley";
    case Kind::line:
      return words::name_of(rig.layout, rig.lines.at(index));
    case Kind::main_line:
      return "main line";
    case Kind::block:
      return words::name_of(rig.layout, {Item::Kind::block, what.index});
    case Kind::sheave:
      return sheave_name(rig, index);
    case Kind::frame:
      return "frame of " + sheave_name(rig, index);
    case Kind::unit:
      return "brake unit";
    case Kind::structure:
      return words::name_of(rig.layout, {Item::Kind::structure, what.index});
  }
  return "thing";
}

std::string_view moment(clearance::Moment::When when) {
  using When = clearance::Moment::When;
  switch (when) {
    case When::contact:
      return "at contact, nearest to";
    case When::full_travel:
      return "at full travel, nearest to";
    case When::leaning_back:
      return "leaning farthest back, nearest to";
    case When::leaning_forward:
      return "leaning farthest forward, nearest to";
    case When::beside:
      return "nearest to";
  }
  return "near";
}

}  // namespace fairlead::tables
