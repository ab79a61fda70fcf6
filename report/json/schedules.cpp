// What is to be bought, made and fitted.
#include <numeric>

#include "geometry/rig/adjuster.hpp"
#include "report/json/stages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/names.hpp"

namespace fairlead::json {
namespace {

std::optional<double> plain(const std::optional<Real>& given) {
  return given ? std::optional<double>(given->value) : std::nullopt;
}

void write_adjuster(Writer& out, const Rig& rig, int line) {
  const auto need = adjuster_need(rig, line);
  if (!need) return out.null("adjuster_need");
  out.object("adjuster_need", [&] {
    out.number("shorter_m", need->shorter_m);
    out.number("longer_m", need->longer_m);
    out.number("stretch_m", need->stretch_m);
    out.number("tolerance_m", need->tolerance_m);
    out.number("take_in_m", need->take_in_m());
    out.number("let_out_m", need->let_out_m());
    out.number("whole_m", need->whole_m());
    need->unknown.empty() ? out.null("unknown") : out.text("unknown", need->unknown);
  });
}

void write_line(Writer& out, const Rig& rig, std::size_t index) {
  const Line& line = rig.layout.lines[index];
  const int i = static_cast<int>(index);
  out.text("id", line.id.value);
  out.number("unloaded_length_m", tables::unloaded_length_m(rig, {Item::Kind::line, i}));
  out.column("made_lengths_m", made_lengths_m(rig, i), [](double m) { return m; });
  out.flag("taken_up_by_unit", i == rig.braking_line);
  out.number("adjuster_m", plain(line.adjuster_m));
  write_adjuster(out, rig, i);
}

}  // namespace

void write_schedules(Writer& out, const Rig& rig) {
  out.object("schedules", [&] {
    std::vector<std::size_t> lines(rig.layout.lines.size());
    std::iota(lines.begin(), lines.end(), std::size_t{0});
    out.objects("lines", lines, [&](std::size_t index) { write_line(out, rig, index); });
  });
}

}  // namespace fairlead::json
