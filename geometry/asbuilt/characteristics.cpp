#include "geometry/asbuilt/characteristics.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/layout/items.hpp"

namespace fairlead {
namespace {

using Kind = Item::Kind;
using Values = std::vector<double>;

/// v turned by what turns one direction into another the shortest way. Opposite ones leave the way open: v is then
/// turned about nothing, which a rig with its axis the wrong way round notices.
Vec3 carried(Vec3 v, Vec3 from, Vec3 to) {
  const Vec3 a = unit(from), b = unit(to), axis = cross(a, b);
  const double c = dot(a, b);
  if (!(c > -1 + 1e-9)) return v;
  return c * v + cross(axis, v) + (dot(axis, v) / (1 + c)) * axis;
}

/// Two unit vectors square to a direction and to each other.
Vec3 square_to(Vec3 d, int way) {
  const Vec3 n = unit(d);
  const Vec3 other = std::abs(n.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  const Vec3 first = unit(cross(n, other));
  return way == 0 ? first : cross(n, first);
}

class Characteristics {
 public:
  Characteristics(const Rig& design, const std::vector<std::string>& sags, bool main_line_shot)
      : design_(design), sags_(sags), main_line_shot_(main_line_shot) {}

  std::vector<Characteristic> all() {
    marks();
    const Layout& layout = design_.layout;
    cable(
        {Kind::main_line, 0}, [](Layout& l) -> MainLine& { return l.main_line; }, layout.main_line);
    for (std::size_t i = 0; i < layout.parallel_lines.size(); ++i)
      cable(
          of(Kind::parallel_line, i), [i](Layout& l) -> ParallelLine& { return l.parallel_lines[i]; },
          layout.parallel_lines[i]);
    for (std::size_t i = 0; i < layout.support_lines.size(); ++i)
      cable(
          of(Kind::support_line, i), [i](Layout& l) -> SupportLine& { return l.support_lines[i]; },
          layout.support_lines[i]);
    for (std::size_t i = 0; i < layout.members.size(); ++i)
      if (layout.members[i].pretension_N)
        scaled(of(Kind::member, i), "pretension of ", Measurand::tension,
               [i](Layout& l) -> Real& { return *l.members[i].pretension_N; });
    for (std::size_t i = 0; i < layout.sheaves.size(); ++i) sheave(i);
    for (std::size_t i = 0; i < layout.lines.size(); ++i)
      if (layout.lines[i].length_m)
        offset(of(Kind::line, i), "length of ", Measurand::length,
               [i](Layout& l) -> Real& { return *l.lines[i].length_m; });
    for (std::size_t i = 0; i < layout.blocks.size(); ++i)
      if (layout.blocks[i].rest_m)
        offset(of(Kind::block, i), "rest of ", Measurand::rest,
               [i](Layout& l) -> Real& { return *l.blocks[i].rest_m; });
    unit_and_landing();
    return std::move(all_);
  }

 private:
  static Item of(Kind kind, std::size_t i) { return {kind, static_cast<int>(i)}; }

  void add(Item item, const std::string& what, Characteristic one) {
    one.item = item;
    one.id = file_word(design_.layout, item);
    one.name = what + one.id;
    all_.push_back(std::move(one));
  }

  void marks() {
    const std::vector<SetOutPoint> points = set_out_points(design_);
    for (std::size_t p = 0; p < points.size(); ++p) {
      const SetOutPoint& point = points[p];
      const bool on_line = point.mark == Mark::rest_mark;
      const Vec3 axes[] = {design_.frame.along, design_.frame.across, design_.frame.up};
      Characteristic one{.item = point.item,
                         .id = point.id,
                         .name = "place of " + point.id,
                         .point = static_cast<int>(p),
                         .ways = on_line ? 1 : 3};
      one.shift = [point, axes = std::vector<Vec3>(axes, axes + 3), frame = design_.frame](Layout& layout, int way,
                                                                                           double share) {
        layout = moved(std::move(layout), point, frame, share * missed_m * axes[static_cast<std::size_t>(way)]);
      };
      if (on_line) {
        one.measurands = {Measurand::rest};
        one.set = [](Layout& layout, const Values& values, Place at) { layout.brake_trolley.rest_m = {values[0], at}; };
      }
      all_.push_back(std::move(one));
    }
  }

  template <class Get>
  void offset(Item item, const std::string& what, Measurand measurand, Get get) {
    add(item, what,
        {.measurands = {measurand},
         .shift = [get](Layout& layout, int, double share) { get(layout).value += share * missed_m; },
         .set =
             [get](Layout& layout, const Values& values, Place at) {
               get(layout) = Real{values[0], at};
             }});
  }

  template <class Get>
  void scaled(Item item, const std::string& what, Measurand measurand, Get get) {
    add(item, what,
        {.measurands = {measurand},
         .shift = [get](Layout& layout, int, double share) { get(layout).value *= 1 + share * missed_share; },
         .set =
             [get](Layout& layout, const Values& values, Place at) {
               get(layout) = Real{values[0], at};
             }});
  }

  static void put(std::optional<Real>& into, double value, Place at) { into = Real{value, at}; }
  static void put(std::optional<Given<Range>>& into, double value, Place at) {
    into = Given<Range>{{value, value}, at};
  }
  static void scale(Real& one, double by) { one.value *= by; }
  static void scale(Given<Range>& one, double by) { one.value = {one.value.low * by, one.value.high * by}; }

  /// What the author states of a bare cable is one of three; what was measured takes its place.
  template <class Get, class Cable>
  void cable(Item item, Get get, const Cable&) {
    const bool sag = std::ranges::find(sags_, file_word(design_.layout, item)) != sags_.end();
    std::vector<Measurand> measurands{sag ? Measurand::sag : Measurand::tension, Measurand::temperature};
    if (main_line_shot_ && item.kind == Kind::main_line) measurands = {Measurand::temperature};
    add(item, sag ? "sag of " : "tension of ",
        {.measurands = measurands,
         .ways = 2,
         .shift =
             [get](Layout& layout, int way, double share) {
               auto& line = get(layout);
               if (way == 1) {
                 line.at_temperature_K.value += share * missed_K;
               } else if (line.unstretched_length_m) {
                 // A taut line's tension turns on a thousandth of its length.
                 scale(*line.unstretched_length_m, 1 + share * 1e-3);
               } else {
                 scale(line.sag_m ? *line.sag_m : *line.tension_N, 1 + share * missed_share);
               }
             },
         .set =
             [get, sag](Layout& layout, const Values& values, Place at) {
               auto& line = get(layout);
               line.unstretched_length_m.reset(), line.sag_m.reset(), line.tension_N.reset();
               put(sag ? line.sag_m : line.tension_N, values[0], at);
               line.at_temperature_K = Real{values[1], at};
             }});
  }

  /// `turn` gives a layout the direction; `get` tells the one it has.
  template <class Get, class Turn>
  void direction(Item item, const std::string& what, Get get, Turn turn, bool either_end) {
    add(item, what,
        {.measurands = {Measurand::bearing, Measurand::tilt},
         .ways = 2,
         .shift =
             [get, turn](Layout& layout, int way, double share) {
               const Vec3 now = unit(get(layout));
               turn(layout, now + std::tan(share * missed_rad) * square_to(now, way));
             },
         .set =
             [get, turn, either_end](Layout& layout, const Values& values, Place) {
               const Vec3 is = direction_of(values[0], values[1]);
               turn(layout, either_end && dot(is, get(layout)) < 0 ? -is : is);
             },
         .drawn = get(design_.layout),
         .either_end = either_end});
  }

  void sheave(std::size_t i) {
    const Sheave& sheave = design_.layout.sheaves[i];
    const Item item = of(Kind::sheave, i);
    if (!std::holds_alternative<AnchorId>(sheave.on)) return;  // made so, on its block
    if (sheave.mount == Mount::fixed)
      direction(
          item, "axle of ", [i](const Layout& l) { return l.sheaves[i].axle.value; },
          [i](Layout& l, Vec3 d) { l.sheaves[i].axle.value = d; }, true);
    if (sheave.mount == Mount::swivel && sheave.swivel_axis)
      direction(
          item, "swivel axis of ", [i](const Layout& l) { return l.sheaves[i].swivel_axis->value; },
          [i](Layout& l, Vec3 d) {
            // Sheave and frame go with the axis they turn about.
            Sheave& turned = l.sheaves[i];
            const Vec3 was = turned.swivel_axis->value;
            const Point3 eye = turned.swivel_at
                                   ? turned.swivel_at->value
                                   : l.anchors[static_cast<std::size_t>(std::get<AnchorId>(turned.on))].position.value;
            if (turned.position) turned.position->value = eye + carried(turned.position->value - eye, was, d);
            turned.axle.value = carried(turned.axle.value, was, d);
            turned.swivel_axis->value = d;
          },
          true);
    if (sheave.mount == Mount::free && sheave.link_m)
      offset(item, "link of ", Measurand::length, [i](Layout& l) -> Real& { return *l.sheaves[i].link_m; });
  }

  void unit_and_landing() {
    const Layout& layout = design_.layout;
    const Item unit_item{Kind::brake_unit, 0}, landing{Kind::landing, 0};
    direction(
        unit_item, "axis of ", [](const Layout& l) { return l.brake_unit.axis.value; },
        [](Layout& l, Vec3 d) { l.brake_unit.axis.value = d; }, false);
    offset(unit_item, "extension at rest of ", Measurand::rest_extension,
           [](Layout& l) -> Real& { return l.brake_unit.rest_extension_m; });
    if (layout.landing) {
      offset(landing, "platform_from of ", Measurand::platform_from,
             [](Layout& l) -> Real& { return l.landing->platform_from_m; });
      offset(landing, "platform_to of ", Measurand::platform_to,
             [](Layout& l) -> Real& { return l.landing->platform_to_m; });
      offset(landing, "platform_level of ", Measurand::platform_level,
             [](Layout& l) -> Real& { return l.landing->platform_level_m; });
    }
    if (layout.backup_brake)
      offset({Kind::backup_brake, 0}, "place of ", Measurand::engages,
             [](Layout& l) -> Real& { return l.backup_brake->engages_m; });
  }

  const Rig& design_;
  const std::vector<std::string>& sags_;
  const bool main_line_shot_;
  std::vector<Characteristic> all_;
};

}  // namespace

std::vector<Characteristic> characteristics(const Rig& design, const std::vector<std::string>& sags,
                                            bool main_line_shot) {
  return Characteristics(design, sags, main_line_shot).all();
}

std::string file_word(const Layout& layout, Item item) {
  if (const std::string* id = given_id(layout, item)) return *id;
  switch (item.kind) {
    case Kind::main_line:
      return "main_line";
    case Kind::brake_unit:
      return "brake_unit";
    case Kind::brake_trolley:
      return "brake_trolley";
    case Kind::landing:
      return "landing";
    case Kind::backup_brake:
      return "backup_brake";
    default:
      return {};  // none of these is measured
  }
}

Vec3 direction_of(double bearing_rad, double tilt_rad) {
  return {std::sin(bearing_rad) * std::cos(tilt_rad), std::cos(bearing_rad) * std::cos(tilt_rad), std::sin(tilt_rad)};
}

}  // namespace fairlead
