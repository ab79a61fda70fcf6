// What must agree between the kind of a termination and what it ends, and what a kind holds.
#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "geometry/layout/line_fields.hpp"
#include "geometry/layout/sections.hpp"
#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

/// What it ends: who it is in messages, what it is made of, whether that is steel, its diameter.
struct Ended {
  std::string who;
  std::string of;
  bool steel;
  double diameter_m;
};

class Terminations {
 public:
  explicit Terminations(Errors& errors) : errors_(errors) {}

  template <class T>
  void ends_of(const T& line, const Ended& ended) {
    if (line.from_end) one(*line.from_end, ended, ended.who + " from end");
    if (line.to_end) one(*line.to_end, ended, ended.who + " to end");
  }

 private:
  void one(const Termination& end, const Ended& ended, const std::string& who) {
    const TerminationKind kind = end.kind;
    if (ended.steel ? is_of_fibre(kind) : is_of_steel(kind)) return wrong_kind(end, ended, who);
    if (!efficiency_of(end, ended.diameter_m))
      errors_.add(end.place,
                  fmt::format("{}: \"efficiency\" is missing, and no figure is published for \"{}\"{}", who,
                              word_of(kind), is_of_steel(kind) ? " on rope above 1 in" : ""),
                  "add it: the share of the breaking strength that its maker or a test gives; for example efficiency = "
                  "\"90 %\"");
    if (kind != TerminationKind::clips) {
      for_clips(end.clips, "clips", who);
      for_clips(end.turnback_m, "turnback", who);
      for_clips(end.torque_N_m, "torque", who);
    } else if (end.clips && *end.clips != std::floor(*end.clips)) {
      errors_.add(end.clips->place, fmt::format("{}: \"clips\" is a whole number", who), "count them");
    }
  }

  void wrong_kind(const Termination& end, const Ended& ended, const std::string& who) {
    errors_.add(end.kind.place,
                fmt::format("{}: \"{}\" is for {}, and it ends {}", who, word_of(end.kind.value),
                            ended.steel ? "fibre and webbing" : "steel wire rope", ended.of),
                ended.steel ? "write \"poured socket\", \"swaged\", \"sleeve splice\", \"wedge\" or \"clips\", or "
                              "\"other\" with its \"efficiency\""
                            : "write \"eye splice\", \"knot\", \"sewn\" or \"other\", with its \"efficiency\"");
  }

  void for_clips(const std::optional<Real>& given, std::string_view key, const std::string& who) {
    if (given)
      errors_.add(given->place, fmt::format("{}: \"{}\" is for clips", who, key),
                  "remove it, or give kind = \"clips\"");
  }

  Errors& errors_;
};

template <class Cable>
Ended cable(const Cable& cable, std::string who) {
  return {std::move(who), "a cable of steel", true, cable.diameter_m};
}

}  // namespace

bool is_of_steel(TerminationKind kind) { return kind <= TerminationKind::clips; }
bool is_of_fibre(TerminationKind kind) { return !is_of_steel(kind) && kind != TerminationKind::other; }

std::optional<double> published_efficiency(TerminationKind kind, double diameter_m) {
  // As far as reading "25.4 mm" and 1 in may round apart.
  const double inch_m = find_unit("in", Dimension::length)->to_si * (1 + 4 * std::numeric_limits<double>::epsilon());
  switch (kind) {
    case TerminationKind::poured_socket:
      return 1.0;
    case TerminationKind::swaged:
      return 0.95;
    case TerminationKind::sleeve_splice:
      return diameter_m <= inch_m ? std::optional(0.95) : std::nullopt;
    case TerminationKind::wedge:
      return 0.75;
    case TerminationKind::clips:
      return 0.80;
    case TerminationKind::eye_splice:
    case TerminationKind::knot:
    case TerminationKind::sewn:
    case TerminationKind::other:
      return std::nullopt;
  }
  return std::nullopt;
}

std::optional<double> efficiency_of(const Termination& end, double diameter_m) {
  return end.efficiency ? std::optional(end.efficiency->value) : published_efficiency(end.kind, diameter_m);
}

void check_terminations(const Layout& layout, const Unsound& unsound, Errors& errors) {
  Terminations all(errors);
  if (!unsound.contains("main_line")) all.ends_of(layout.main_line, cable(layout.main_line, "main line"));
  if (!unsound.contains("parallel_line"))
    for (const ParallelLine& line : layout.parallel_lines)
      all.ends_of(line, cable(line, fmt::format("parallel line \"{}\"", line.id.value)));
  if (!unsound.contains("support_line"))
    for (const SupportLine& line : layout.support_lines)
      all.ends_of(line, cable(line, fmt::format("support line \"{}\"", line.id.value)));
  if (!unsound.contains("line"))
    for (const Line& line : layout.lines)
      all.ends_of(line,
                  {fmt::format("line \"{}\"", line.id.value), fmt::format("a line of {}", word_of(line.material.value)),
                   line.material == LineMaterial::steel, line.diameter_m});
}

}  // namespace fairlead
