#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/layout/sections.hpp"

namespace fairlead {
namespace {

std::string metres(double m) { return fmt::format("{:.3f} m", m); }

class Consistency {
 public:
  Consistency(Layout& layout, const Unsound& unsound, Errors& errors)
      : layout_(layout), unsound_(unsound), errors_(errors) {}

  void check() {
    if (sound({"site"})) site();
    if (sound({"main_line", "anchor"})) hung("main line", "a main line", layout_.main_line);
    if (sound({"support_line", "anchor"}))
      for (const SupportLine& line : layout_.support_lines)
        hung(fmt::format("support line \"{}\"", line.id.value), "a support line", line);
    if (sound({"parallel_line", "anchor"}))
      for (const ParallelLine& line : layout_.parallel_lines)
        hung(fmt::format("parallel line \"{}\"", line.id.value), "a parallel line", line);
    if (sound({"main_line", "anchor"})) saddles();
    if (sound({"main_line", "anchor", "site", "brake_trolley"})) rest_mark();
    if (sound({"main_line", "anchor", "site", "backup_brake"})) backup_brake();
    if (sound({"main_line", "anchor", "site", "brake_trolley", "approach"})) push_off();
    if (sound({"main_line", "anchor", "site", "block", "support_line"})) block_rests();
    if (sound({"member"})) check_members(layout_, sound({"anchor"}), errors_);
    check_terminations(layout_, unsound_, errors_);
    const std::size_t before = errors_.count();
    if (sound({"line"})) lines();
    if (sound({"line", "connector"})) connectors();
    if (sound({"sheave", "block"})) sheave_places();
    if (sound({"sheave", "line"})) pitch_diameters();
    if (sound({"anchor", "sheave", "line", "block", "connector", "support_line"})) {
      check_blocks(layout_, errors_);
      if (errors_.count() == before) close_lines(layout_, errors_);
    }
    if (sound({"structure"})) structures();
    if (sound({"riders"})) rider_reach();
    check_arrest(layout_, unsound_, errors_);
  }

 private:
  bool sound(std::initializer_list<std::string_view> sections) const {
    return std::none_of(sections.begin(), sections.end(), [&](auto name) { return unsound_.contains(name); });
  }

  void site() {
    const Site& site = layout_.site;
    if (!(site.coldest_K.value <= site.warmest_K.value))
      errors_.add(site.warmest_K.place, "site: \"warmest\" lies below \"coldest\"");
    const std::array<std::string, 3> surveyed{"east", "north", "up"};
    if (layout_.points && site.axes != surveyed)
      errors_.add(layout_.points->place,
                  fmt::format("points: a points file counts to the east, to the north and up, and the site's axes are "
                              "{}",
                              fmt::join(site.axes, ", ")),
                  "write axes = [\"east\", \"north\", \"up\"], or type the places");
  }

  const Anchor& anchor(AnchorId id) const { return layout_.anchors[static_cast<std::size_t>(id)]; }
  template <class Known>
  Vec3 span(const HungCable<Known>& cable) const {
    const Vec3 whole = anchor(cable.to).position - anchor(cable.from).position.value;
    return {whole.x, whole.y, 0};
  }

  template <class Known>
  void hung(const std::string& who, std::string_view it, const HungCable<Known>& cable) {
    if (cable.from == cable.to)
      errors_.add(cable.to_place,
                  fmt::format("{}: it ends where it begins, at \"{}\"", who, anchor(cable.to).id.value));
    else if (!(norm(span(cable)) > 0))
      errors_.add(cable.to_place,
                  fmt::format("{}: \"{}\" and \"{}\" stand above one another", who, anchor(cable.from).id.value,
                              anchor(cable.to).id.value),
                  fmt::format("{} spans a horizontal distance", it));
  }

  void saddles() {
    const MainLine& line = layout_.main_line;
    if (line.saddle_friction && !line.from_back_anchor && !line.to_back_anchor)
      errors_.add(line.saddle_friction->place, "main line: it runs over no saddle",
                  "give \"from_back_anchor\" or \"to_back_anchor\"");
    saddle(line.from, line.from_back_anchor, line.from_back_place);
    saddle(line.to, line.to_back_anchor, line.to_back_place);
  }

  // The cable leads on beyond its support: back toward the other one it would lie on itself, straight down it has no
  // plane to hang in.
  void saddle(AnchorId support, const std::optional<AnchorId>& back, Place place) {
    if (!back || !(norm(span(layout_.main_line)) > 0)) return;
    const Vec3 away = anchor(*back).position - anchor(support).position.value;
    const double beyond_m = (support == layout_.main_line.to ? 1 : -1) * dot(away, unit(span(layout_.main_line)));
    if (!(beyond_m > 0))
      errors_.add(place,
                  fmt::format("main line: its back anchor \"{}\" does not stand behind its saddle at \"{}\"",
                              anchor(*back).id.value, anchor(support).id.value),
                  "name an anchor beyond the span");
  }

  // What holds the backup brake is pulled along the main line, so it engages on it.
  void backup_brake() {
    if (!layout_.backup_brake || !layout_.backup_brake->on || !(norm(span(layout_.main_line)) > 0)) return;
    const Reach line = reach(layout_.main_line);
    const Real& engages_m = layout_.backup_brake->engages_m;
    if (!line.holds(engages_m))
      errors_.add(engages_m.place, "backup brake: it would engage off the main line", line.words("the main line"));
  }

  double chainage(Point3 at) const {
    const Point3 start = anchor(layout_.main_line.from).position;
    const Point3 zero = layout_.site.chainage_zero ? layout_.site.chainage_zero->value : start;
    return dot(at - zero, unit(span(layout_.main_line)));
  }

  /// The chainages between two anchors, both left out.
  struct Reach {
    double from_m, to_m;
    bool holds(double at_m) const { return at_m > from_m && at_m < to_m; }
    std::string words(std::string_view what) const {
      return fmt::format("{} runs from chainage {} to {}", what, metres(from_m), metres(to_m));
    }
  };
  template <class Known>
  Reach reach(const HungCable<Known>& cable) const {
    const auto [low, high] = std::minmax({chainage(anchor(cable.from).position), chainage(anchor(cable.to).position)});
    return {low, high};
  }

  // The trolley's rest and travel lie on the main line.
  void rest_mark() {
    if (!(norm(span(layout_.main_line)) > 0)) return;
    const Reach line = reach(layout_.main_line);
    const BrakeTrolley& trolley = layout_.brake_trolley;
    const std::string where = line.words("the main line");
    if (!line.holds(trolley.rest_m))
      errors_.add(trolley.rest_m.place, "brake trolley: its rest mark is not on the main line", where);
    else if (!line.holds(trolley.rest_m + trolley.travel_m))
      errors_.add(trolley.travel_m.place,
                  fmt::format("brake trolley: it would travel off the main line, to chainage {}",
                              metres(trolley.rest_m + trolley.travel_m)),
                  where);
  }

  // Riders set off on the main line and come down to the trolley.
  void push_off() {
    if (!layout_.approach || !(norm(span(layout_.main_line)) > 0)) return;
    const Reach line = reach(layout_.main_line);
    const Real &start_m = layout_.approach->start_m, &rest_m = layout_.brake_trolley.rest_m;
    if (!line.holds(start_m))
      errors_.add(start_m.place, "approach: the push-off is not on the main line", line.words("the main line"));
    else if (line.holds(rest_m) && !(start_m < rest_m))
      errors_.add(start_m.place, "approach: the push-off does not lie upstream of the brake trolley",
                  fmt::format("its rest mark is at chainage {}", metres(rest_m)));
  }

  // A block rests beside the main line, its wheels on the support line that carries it.
  void block_rests() {
    if (!(norm(span(layout_.main_line)) > 0)) return;
    const Reach main = reach(layout_.main_line);
    for (const Block& block : layout_.blocks)
      if (block.rest_m && !main.holds(*block.rest_m))
        errors_.add(block.rest_m->place,
                    fmt::format("block \"{}\": it would rest beyond the main line's anchors", block.id.value),
                    main.words("the main line"));
    for (const SupportLine& line : layout_.support_lines) {
      const Block& block = layout_.blocks[static_cast<std::size_t>(line.carries)];
      if (!block.rest_m || !main.holds(*block.rest_m) || !(norm(span(line)) > 0)) continue;
      const double wheel_m = *block.rest_m + line.wheel.value.x;
      if (const Reach support = reach(line); !support.holds(wheel_m))
        errors_.add(block.rest_m->place,
                    fmt::format("block \"{}\": its wheels would rest at chainage {}, off support line \"{}\"",
                                block.id.value, metres(wheel_m), line.id.value),
                    support.words("it"));
    }
  }

  void structures() {
    for (const Structure& structure : layout_.structures)
      if (structure.kind == StructureKind::post && !(norm(structure.to->value - structure.from->value) > 0))
        errors_.add(structure.to->place, fmt::format("structure \"{}\": it ends where it begins", structure.id.value),
                    "give the two ends of the post's axis");
  }

  // Arms reach up from shoulders that are above the feet.
  void rider_reach() {
    const auto& reach = layout_.riders.reach;
    if (reach && !(reach->shoulders_m < reach->down_m))
      errors_.add(reach->shoulders_m.place, "riders reach: \"shoulders\" lie no higher than \"down\"",
                  fmt::format("the feet are {} below the main line", metres(reach->down_m)));
  }

  void lines() {
    for (const Line& line : layout_.lines) {
      if (line.from == line.to && line.route.empty())
        errors_.add(line.to_place, fmt::format("line \"{}\": it ends where it begins", line.id.value));
      for (std::size_t i = 0; i < line.route.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
          if (line.route[i].sheave == line.route[j].sheave) {
            errors_.add(line.route[i].place, fmt::format("line \"{}\": it runs over this sheave twice", line.id.value));
            break;
          }
    }
  }

  void connectors() {
    for (const Line& line : layout_.lines)
      for (const auto& [end, place] : {std::pair{line.from, line.from_place}, std::pair{line.to, line.to_place}})
        if (const auto* id = std::get_if<ConnectorId>(&end)) {
          const Connector& connector = layout_.connectors[static_cast<std::size_t>(*id)];
          if (std::find(connector.joins.begin(), connector.joins.end(), line.id.value) == connector.joins.end())
            errors_.add(
                place, fmt::format("line \"{}\": connector \"{}\" does not join it", line.id.value, connector.id.value),
                fmt::format("name \"{}\" in the connector's \"joins\"", line.id.value));
        }
  }

  // Where a key was written: of one that holds a surveyed point only its item is known.
  template <class T>
  static Place written(const Given<T>& given, Place item) {
    return given.place.file == points_file ? item : given.place;
  }

  void sheave_places() {
    for (const Sheave& sheave : layout_.sheaves) {
      const std::string who = fmt::format("sheave \"{}\": ", sheave.id.value);
      const bool on_anchor = std::holds_alternative<AnchorId>(sheave.on), free = sheave.mount == Mount::free;
      if (on_anchor && sheave.offset)
        errors_.add(sheave.offset->place, who + "it stands on an anchor",
                    free ? "give its \"link\"" : "give its \"position\"");
      if (!on_anchor && sheave.position)
        errors_.add(written(*sheave.position, sheave.place), who + "what carries it moves", "give its \"offset\"");
      mount(sheave, who);
    }
  }

  // What a mount needs, and what only another has.
  void mount(const Sheave& sheave, const std::string& who) {
    const Mount mount = sheave.mount;
    if (mount != Mount::fixed && !std::holds_alternative<AnchorId>(sheave.on)) {
      errors_.add(sheave.mount.place, who + "only a sheave on an anchor swivels or hangs free",
                  "what is on a block or trolley turns with it");
      return;
    }
    if (mount == Mount::free && sheave.position)
      errors_.add(written(*sheave.position, sheave.place), who + "a free sheave hangs where its lines pull it",
                  "give its \"link\"; the centre is a result");
    const auto belongs = [&](const auto& given, std::string_view key, bool wanted, bool needed, std::string_view to) {
      if (given && !wanted)
        errors_.add(written(*given, sheave.place), fmt::format("{}\"{}\" is for {}", who, key, to),
                    "remove it, or give \"mount\"");
      if (!given && needed)
        errors_.add(sheave.mount.place, fmt::format("{}\"{}\" is missing", who, key),
                    fmt::format("{} has one", mount == Mount::free ? "a free sheave" : "a swivel"));
    };
    const bool free = mount == Mount::free, swivel = mount == Mount::swivel;
    belongs(sheave.link_m, "link", free, false, "mount = \"free\"");
    belongs(sheave.swivel_axis, "swivel_axis", swivel, swivel, "mount = \"swivel\"");
    belongs(sheave.swivel_at, "swivel_at", swivel, false, "mount = \"swivel\"");
    belongs(sheave.mass_kg, "mass", free || swivel, free || swivel, "mount = \"swivel\" or \"free\"");
  }

  void pitch_diameters() {
    for (std::size_t i = 0; i < layout_.sheaves.size(); ++i) {
      Sheave& sheave = layout_.sheaves[i];
      if (!sheave.tread_diameter_m) continue;
      std::vector<const Line*> over;
      for (const Line& line : layout_.lines)
        for (const Over& at : line.route)
          if (at.sheave == static_cast<SheaveId>(i)) over.push_back(&line);
      const bool alike = std::all_of(over.begin(), over.end(), [&](const Line* line) {
        return line->diameter_m.value == over.front()->diameter_m.value;
      });
      if (over.empty() && std::holds_alternative<BlockId>(sheave.on)) continue;  // that is the error
      if (over.empty() || !alike) {
        errors_.add(sheave.tread_diameter_m->place,
                    fmt::format("sheave \"{}\": {}, so its pitch diameter is not known", sheave.id.value,
                                over.empty() ? "no line runs over it" : "lines of different diameters run over it"),
                    "give \"pitch_diameter\" instead");
        continue;
      }
      sheave.pitch_diameter_m = {*sheave.tread_diameter_m + over.front()->diameter_m, sheave.tread_diameter_m->place};
    }
  }

  Layout& layout_;
  const Unsound& unsound_;
  Errors& errors_;
};

}  // namespace

void check_consistency(Layout& layout, const Unsound& unsound, Errors& errors) {
  Consistency(layout, unsound, errors).check();
}

}  // namespace fairlead
