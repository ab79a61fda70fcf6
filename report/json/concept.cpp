#include "geometry/studies/arrest_figures.hpp"
#include "report/json/json.hpp"
#include "report/json/stages.hpp"
#include "report/words/cautions.hpp"
#include "report/words/version.hpp"

namespace fairlead::json {
namespace {

constexpr int format_version = 1;  ///< rises when a key changes its meaning or goes

void write_zone(Writer& out, const Concept& idea) {
  out.object("concept", [&] {
    out.column("files", idea.files, [](const std::string& file) { return std::string_view(file); });
    out.text("sha256", idea.sha256);
    out.text("owner", idea.project.owner.value);
    out.text("title", idea.project.title.value);
    out.text("number", idea.project.number.value);
    out.text("revision", idea.project.revision.value);
    write_date(out, "date", idea.project.date);
    out.number("ratio", idea.zone.ratio.value);
    out.number("efficiency", idea.zone.efficiency.value);
    out.number("slope", idea.zone.slope.value);
    out.number("travel_m", idea.zone.travel_m.value);
    out.number("rest_extension_m", idea.brake_unit.rest_extension_m.value);
  });
}

void write_rider(Writer& out, std::string_view key, const Reductions::Rider& rider) {
  out.object(key, [&] {
    write_motion(out, rider.motion);
    write_rest(out, rider.rest);
  });
}

void write_reductions(Writer& out, const Dossier& dossier) {
  static const Reductions nothing;
  const Solved<Reductions> unasked = unsolved("not asked for");
  const Solved<Reductions>& solved = dossier.arrest ? dossier.arrest->reductions : unasked;
  const Reductions& all = solved ? *solved : nothing;
  const auto known = [&](double value) { return solved ? std::optional(value) : std::nullopt; };
  out.object("reductions", [&] {
    write_unsolved(out, solved);
    out.number("travel_m", known(all.travel_m));
    out.number("efficiency", known(all.efficiency));
    out.number("slowest_m_per_s", known(all.arrival_m_per_s.low));
    out.number("fastest_m_per_s", known(all.arrival_m_per_s.high));
    out.objects("designs", all.designs, [&](const Reductions::Design& design) {
      out.number("ratio", design.ratio);
      out.number("slope", design.slope);
      write_rider(out, "farthest", design.farthest);
      write_rider(out, "shortest", design.shortest);
      out.number("least_reserve_N", design.least_reserve_N);
      out.flag("resets", design.resets());
    });
  });
}

}  // namespace

std::string write_concept(const Dossier& dossier) {
  const Judged& judged = dossier.judged;
  return Writer::document([&](Writer& out) {
    out.count("format_version", format_version);
    out.text("program", "fairlead");
    out.text("program_version", words::program_version());
    write_zone(out, *judged.rig.idea);
    out.column("first_estimate", words::first_estimate(), [](std::string_view sentence) { return sentence; });
    write_verdict(out, dossier);
    write_findings(out, judged);
    write_arrest_inputs(out, judged.rig.arrest.inputs);
    write_arrest(out, judged.rig);
    write_reductions(out, dossier);
    write_reservations(out, dossier);
  });
}

}  // namespace fairlead::json
