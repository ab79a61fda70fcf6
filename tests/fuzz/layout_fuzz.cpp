// Any bytes are a layout or a concept, or are refused in words that may be printed. Lines "#set key=value" are the
// command line, lines
// "#csv A1,1,2,3" the points file.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "geometry/layout/items.hpp"
#include "geometry/layout/layout.hpp"
#include "geometry/layout/read.hpp"

namespace {

using namespace fairlead;

void require(bool holds) {
  if (!holds) std::abort();
}

// What stands behind `mark` in the lines that have it.
std::vector<std::string> behind(const std::string& mark, const std::string& text, std::size_t most) {
  std::vector<std::string> all;
  for (std::size_t at = text.find(mark); at != text.npos && all.size() < most; at = text.find(mark, at + 1))
    all.push_back(text.substr(at + mark.size(), text.find('\n', at) - at - mark.size()));
  return all;
}

std::vector<Override> command_line(const std::string& text) {
  std::vector<Override> all;
  for (const std::string& change : behind("#set ", text, 4)) {
    const std::size_t equals = change.find('=');
    if (equals != change.npos) all.push_back({change.substr(0, equals), change.substr(equals + 1)});
  }
  return all;
}

std::string points_of(const std::string& text) {
  std::string csv;
  for (const std::string& line : behind("#csv ", text, 100)) csv += line + "\n";
  return csv;
}

void check_errors(const Diagnostics& errors) {
  require(!errors.empty());
  const auto place = [](const Diagnostic& d) { return std::tuple(d.place.file, d.place.line, d.place.column); };
  const auto last = errors.size() > 200 ? errors.end() - 1 : errors.end();  // the count of the rest
  require(std::is_sorted(errors.begin(), last, [&](const auto& a, const auto& b) { return place(a) < place(b); }));
  for (const Diagnostic& error : errors) {
    require(!error.message.empty());
    for (const char c : print(error))
      require(c == '\n' || c == '\t' || (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F));
  }
}

// Every line but the braking line has a length or a block of its own that gives it one.
void check_lines(const Layout& layout) {
  std::set<BlockId> closing;
  const auto at_unit = [&](const LineEnd& end) { return bearing_of(layout, end) == LineEnd{BrakeUnitEnd{}}; };
  for (const Line& line : layout.lines) {
    for (const Over& over : line.route) require(static_cast<std::size_t>(over.sheave) < layout.sheaves.size());
    const bool braking = at_unit(line.from) || at_unit(line.to);
    require(line.length_m.has_value() + line.closed_by.has_value() == (braking ? 0 : 1));
    if (line.closed_by) require(closing.insert(*line.closed_by).second);
  }
  for (std::size_t i = 0; i < layout.blocks.size(); ++i)
    require(layout.blocks[i].rest_m.has_value() == closing.contains(static_cast<BlockId>(i)));
  std::set<BlockId> carried;
  for (const SupportLine& line : layout.support_lines) {
    require(static_cast<std::size_t>(line.carries) < layout.blocks.size());
    require(carried.insert(line.carries).second);
    require(line.from != line.to);
    require(line.ea_N.has_value() != line.construction.has_value());
  }
}

void check_structure(const Structure& structure) {
  const bool box = structure.kind == StructureKind::box, post = structure.kind == StructureKind::post,
             plane = structure.kind == StructureKind::plane;
  require(structure.centre.has_value() == box && structure.size_m.has_value() == box);
  require(structure.from.has_value() == post && structure.to.has_value() == post);
  require(structure.diameter_m.has_value() == post);
  require(structure.through.has_value() == plane && structure.normal.has_value() == plane);
  if (box) require(structure.size_m->value.along_m > 0 && structure.size_m->value.across_m > 0);
  if (box) require(structure.size_m->value.up_m > 0 && std::isfinite(structure.bearing_rad));
  if (plane) require(std::isfinite(norm(unit(structure.normal->value))));
  require(!structure.clear_of.value.empty());
}

void check_layout(const Layout& layout) {
  const auto sound = [](double value) { return std::isfinite(value); };
  // What is built up of members may leave its capacity to them.
  std::set<std::size_t> built_up;
  for (const Member& member : layout.members) built_up.insert(static_cast<std::size_t>(member.anchor));
  for (std::size_t a = 0; a < layout.anchors.size(); ++a) {
    const Anchor& anchor = layout.anchors[a];
    require(!(anchor.wll_N && anchor.mbs_N));
    require(anchor.wll_N || anchor.mbs_N || built_up.count(a) > 0);
    require(sound(anchor.position.value.x) && sound(anchor.position.value.y) && sound(anchor.position.value.z));
    require(!anchor.wll_N || *anchor.wll_N > 0);
    require(!anchor.mbs_N || *anchor.mbs_N > 0);
  }
  for (const Sheave& sheave : layout.sheaves) {
    require(sheave.pitch_diameter_m > 0 && sound(sheave.pitch_diameter_m));
    require(sound(norm(unit(sheave.axle))));
    const bool free = sheave.mount == Mount::free, swivels = sheave.mount == Mount::swivel;
    require((std::holds_alternative<AnchorId>(sheave.on) && !free) == sheave.position.has_value());
    require(free == sheave.link_m.has_value() && swivels == sheave.swivel_axis.has_value());
    require((free || swivels) == sheave.mass_kg.has_value());
    require(!sheave.friction || *sheave.friction >= 1);
  }
  check_lines(layout);
  for (const Structure& structure : layout.structures) check_structure(structure);
  const auto& retraction = layout.brake_unit.retraction_N.value.points();
  for (std::size_t i = 1; i < retraction.size(); ++i) require(retraction[i - 1].x < retraction[i].x);
  require(retraction.size() >= 2 && retraction.front().x == 0);
  require(layout.main_line.from != layout.main_line.to);
  require(static_cast<std::size_t>(layout.main_line.to) < layout.anchors.size());
  require(layout.site.coldest_K <= layout.site.warmest_K);
  require(layout.sha256.size() == 64);
  require(layout.files.size() == (layout.points ? 3u : 2u));
  assumptions(layout);
}

void check_concept(const Concept& idea) {
  require(idea.zone.ratio >= 1 && std::isfinite(idea.zone.ratio));
  require(idea.zone.efficiency > 0 && idea.zone.efficiency <= 1);
  require(std::abs(idea.zone.slope) <= 1 + 1e-12);
  require(idea.zone.travel_m > 0 && std::isfinite(idea.zone.travel_m));
  require(idea.riders.arrival_speed_m_per_s.has_value());
  require(idea.brake_unit.magnetic_N.has_value() != idea.brake_unit.eddy.has_value());
  require(idea.brake_unit.rest_extension_m < idea.brake_unit.extension_limit_m);
  require(!idea.backup_brake || idea.backup_brake->engages_m > 0);
  require(idea.sha256.size() == 64 && idea.files.size() == 2);
  assumptions(idea);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto layout =
      read_layout_text(text, "fuzz.toml", command_line(text), [&](const std::string&) { return points_of(text); });
  if (layout)
    check_layout(*layout);
  else
    check_errors(layout.error());
  // Both readers see every text: what is one of the two is none of the other.
  const auto idea = read_concept_text(text, "fuzz.toml", command_line(text));
  if (idea) {
    require(is_concept(text) && !layout);
    check_concept(*idea);
  } else {
    check_errors(idea.error());
  }
  return 0;
}
