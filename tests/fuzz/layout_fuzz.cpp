// Any bytes are a layout, or are refused in words that may be printed. Lines "#set key=value" are the command line.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <tuple>
#include <vector>

#include "geometry/layout/layout.hpp"
#include "geometry/layout/read.hpp"

namespace {

using namespace fairlead;

void require(bool holds) {
  if (!holds) std::abort();
}

std::vector<Override> command_line(const std::string& text) {
  constexpr std::size_t most = 4;
  const std::string mark = "#set ";
  std::vector<Override> all;
  for (std::size_t at = text.find(mark); at != text.npos && all.size() < most; at = text.find(mark, at + 1)) {
    const std::string change = text.substr(at + mark.size(), text.find('\n', at) - at - mark.size());
    const std::size_t equals = change.find('=');
    if (equals != change.npos) all.push_back({change.substr(0, equals), change.substr(equals + 1)});
  }
  return all;
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

void check_layout(const Layout& layout) {
  const auto sound = [](double value) { return std::isfinite(value); };
  for (const Anchor& anchor : layout.anchors) {
    require(anchor.wll_N.has_value() != anchor.mbs_N.has_value());
    require(sound(anchor.position.value.x) && sound(anchor.position.value.y) && sound(anchor.position.value.z));
    require((anchor.wll_N ? *anchor.wll_N : *anchor.mbs_N) > 0);
  }
  for (const Sheave& sheave : layout.sheaves) {
    require(sheave.pitch_diameter_m > 0 && sound(sheave.pitch_diameter_m));
    require(sound(norm(unit(sheave.axle))));
    require(std::holds_alternative<AnchorId>(sheave.on) == sheave.position.has_value());
  }
  for (const Line& line : layout.lines)
    for (const Over& over : line.route) require(static_cast<std::size_t>(over.sheave) < layout.sheaves.size());
  const auto& retraction = layout.brake_unit.retraction_N.value.points();
  for (std::size_t i = 1; i < retraction.size(); ++i) require(retraction[i - 1].x < retraction[i].x);
  require(retraction.size() >= 2 && retraction.front().x == 0);
  require(layout.main_line.from != layout.main_line.to);
  require(static_cast<std::size_t>(layout.main_line.to) < layout.anchors.size());
  require(layout.site.coldest_K <= layout.site.warmest_K);
  require(layout.sha256.size() == 64);
  assumptions(layout);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto layout = read_layout_text(text, "fuzz.toml", command_line(text));
  if (layout)
    check_layout(*layout);
  else
    check_errors(layout.error());
  return 0;
}
