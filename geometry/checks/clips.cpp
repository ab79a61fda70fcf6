#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>

#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"
#include "geometry/quantity/units.hpp"

namespace fairlead {
namespace {

double inches_m(double count) { return count * find_unit("in", Dimension::length)->to_si; }
double foot_pounds_N_m(double count) { return count * find_unit("ft lb", Dimension::moment)->to_si; }
/// What "12.7 mm" and 1/2 in round apart by: each is read and multiplied once.
constexpr double rounding = 4 * std::numeric_limits<double>::epsilon();

/// Wire rope clips, at least. Source: 8 CCR 8497 (California), second-hand.
struct Row {
  double rope_in, clips, turnback_in, torque_ft_lb;
};
constexpr Row rows[] = {
    {1. / 2, 3, 11.5, 65}, {5. / 8, 3, 12, 95}, {3. / 4, 4, 18, 130}, {7. / 8, 4, 19, 225}, {1, 5, 26, 225}};

/// A rope between two sizes takes what the next larger one needs; null where the table does not reach.
const Row* row_of(double diameter_m) {
  if (!(diameter_m * (1 + rounding) >= inches_m(rows[0].rope_in))) return nullptr;
  const auto found = std::find_if(std::begin(rows), std::end(rows),
                                  [&](const Row& row) { return diameter_m <= inches_m(row.rope_in) * (1 + rounding); });
  return found == std::end(rows) ? nullptr : found;
}

/// One thing that is counted or measured at the clips.
struct Asked {
  std::string_view key, wanted_fact;
  const std::optional<Real>& given;
  double wanted;
  Dimension dimension;
  std::string write;  ///< what to write where it is missing
};

std::variant<Quantity, Item, std::string> told(double si, Dimension dimension) {
  if (dimension == Dimension::none) return fmt::format("{:g}", si);
  return Quantity{si, dimension};
}

void measure(const Termination& end, std::string_view key, const Row& row, Finding& finding) {
  const Asked all[] = {
      {"clips", "clips_wanted", end.clips, row.clips, Dimension::none, fmt::format("clips = {:g}", row.clips)},
      {"turnback", "turnback_wanted", end.turnback_m, inches_m(row.turnback_in), Dimension::length,
       fmt::format("turnback = \"{:g} in\"", row.turnback_in)},
      {"torque", "torque_wanted", end.torque_N_m, foot_pounds_N_m(row.torque_ft_lb), Dimension::moment,
       fmt::format("torque = \"{:g} ft lb\"", row.torque_ft_lb)}};
  std::string missing;
  for (const Asked& asked : all) {
    if (!asked.given) {
      missing += (missing.empty() ? "" : ", ") + asked.write;
      continue;
    }
    const double share = *asked.given / asked.wanted;
    finding.value = finding.bound = finding.measured ? lesser(finding.value, share) : share;
    finding.measured = true;
    finding.facts.push_back({asked.key, told(*asked.given, asked.dimension)});
    finding.facts.push_back({asked.wanted_fact, told(asked.wanted, asked.dimension)});
  }
  const bool enough = finding.measured && finding.value * (1 + rounding) >= 1;
  finding.verdict = !missing.empty() && (enough || !finding.measured) ? Verdict::not_judged
                    : enough                                          ? Verdict::pass
                                                                      : Verdict::fail;
  if (finding.verdict == Verdict::not_judged)
    finding.why = fmt::format("not all is given of its {}: write {}, or more", key, missing);
}

class Judge {
 public:
  explicit Judge(std::vector<Finding>& out) : out_(out) {}

  template <class T>
  void ends_of(Item item, const T& line) {
    one(item, line.from_end, "from_end", line.diameter_m);
    one(item, line.to_end, "to_end", line.diameter_m);
  }

 private:
  void one(Item item, const std::optional<Termination>& end, std::string_view key, const Real& diameter_m) {
    if (!end || end->kind != TerminationKind::clips) return;
    Finding finding{.check = &clips, .subject = item, .place = end->kind.place};
    finding.facts.push_back({"end", std::string(key)});
    finding.facts.push_back({"diameter", Quantity{diameter_m, Dimension::length}});
    if (const Row* row = row_of(diameter_m))
      measure(*end, key, *row, finding);
    else
      leave_not_judged(finding, fmt::format("{}: the table of clips runs from 1/2 in to 1 in of rope, and this one has "
                                            "{:.1f} mm: judge them by their maker's table",
                                            key, 1000 * diameter_m));
    out_.push_back(finding);
  }

  std::vector<Finding>& out_;
};

void run(const Rig& rig, std::vector<Finding>& out) {
  const Layout& layout = rig.layout;
  Judge judge(out);
  const auto each = [&](const auto& lines, Item::Kind kind) {
    for (std::size_t i = 0; i < lines.size(); ++i) judge.ends_of({kind, static_cast<int>(i)}, lines[i]);
  };
  judge.ends_of({Item::Kind::main_line, 0}, layout.main_line);
  each(layout.parallel_lines, Item::Kind::parallel_line);
  each(layout.support_lines, Item::Kind::support_line);
  each(layout.lines, Item::Kind::line);
}

}  // namespace

const Check clips{.name = "clips",
                  .title = "Wire rope clips: their number, turnback and torque",
                  .sentence =
                      "its {end}, of rope of {diameter}; {clips} of {clips_wanted} clips; {turnback} of "
                      "{turnback_wanted} turned back; {torque} of {torque_wanted} on the nuts",
                  .formula =
                      "least of number, turnback and torque over those of the table, >= 1; rope in: clips, "
                      "turnback in, torque ft lb: 1/2: 3, 11.5, 65; 5/8: 3, 12, 95; 3/4: 4, 18, 130; 7/8: 4, "
                      "19, 225; 1: 5, 26, 225; between two sizes the next larger",
                  .source = "California Code of Regulations, title 8, section 8497; steel wire rope only",
                  .remedy = "use {clips_wanted} clips; turn back {turnback_wanted}; tighten to {torque_wanted}",
                  .dimension = Dimension::ratio,
                  .run = run};

}  // namespace fairlead
