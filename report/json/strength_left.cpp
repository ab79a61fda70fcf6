#include "geometry/rig/strength_left.hpp"

#include "geometry/layout/termination_fields.hpp"
#include "report/json/stages.hpp"
#include "report/words/names.hpp"

namespace fairlead::json {
namespace {

void write_end(Writer& out, std::string_view key, const std::optional<Termination>& end, double diameter_m) {
  if (!end) return out.null(key);
  out.object(key, [&] {
    out.text("kind", word_of(end->kind.value));
    out.number("efficiency", efficiency_of(*end, diameter_m));
    out.flag("published", !end->efficiency);
    out.number("clips", plain(end->clips));
    out.number("turnback_m", plain(end->turnback_m));
    out.number("torque_N_m", plain(end->torque_N_m));
  });
}

template <class T>
void write_line(Writer& out, const Layout& layout, Item item, const T& line, const std::optional<Tightest>& tightest) {
  out.text("kind", words::kind_of(item.kind));
  out.text("id", words::id_of(layout, item));
  write_end(out, "from_end", line.from_end, line.diameter_m);
  write_end(out, "to_end", line.to_end, line.diameter_m);
  tightest ? out.text("tightest_sheave", words::id_of(layout, {Item::Kind::sheave, static_cast<int>(tightest->sheave)}))
           : out.null("tightest_sheave");
  out.number("sheave_ratio", tightest ? std::optional(tightest->ratio) : std::nullopt);
  out.number("held_over_sheave", tightest ? tightest->held : std::nullopt);
}

}  // namespace

void write_strength_left(Writer& out, const Layout& layout) {
  std::vector<Item> items{{Item::Kind::main_line, 0}};
  const auto add = [&](std::size_t count, Item::Kind kind) {
    for (std::size_t i = 0; i < count; ++i) items.push_back({kind, static_cast<int>(i)});
  };
  add(layout.parallel_lines.size(), Item::Kind::parallel_line);
  add(layout.support_lines.size(), Item::Kind::support_line);
  add(layout.lines.size(), Item::Kind::line);
  out.objects("strength_left", items, [&](Item item) {
    const auto i = static_cast<std::size_t>(item.index);
    if (item.kind == Item::Kind::main_line) return write_line(out, layout, item, layout.main_line, {});
    if (item.kind == Item::Kind::parallel_line) return write_line(out, layout, item, layout.parallel_lines[i], {});
    if (item.kind == Item::Kind::support_line) return write_line(out, layout, item, layout.support_lines[i], {});
    write_line(out, layout, item, layout.lines[i], tightest_sheave(layout, layout.lines[i]));
  });
}

}  // namespace fairlead::json
