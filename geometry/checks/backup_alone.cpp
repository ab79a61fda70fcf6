#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const auto& backup = rig.layout.backup_brake;
  Finding finding{.check = &backup_alone, .subject = {Item::Kind::backup_brake, 0}};
  if (backup) finding.place = backup->place;
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (!backup || !backup->resistance_N || !backup->stroke_m) {
    leave_not_judged(finding, "its resistance over its compression, or its stroke, is not given");
  } else if (!arrest) {
    leave_undetermined(finding, rig.arrest.result->error());
  } else if (!arrest->backup) {
    leave_undetermined(finding, arrest->backup.error());
  } else {
    const arrest::BackupAlone& alone = *arrest->backup;
    finding.value = finding.bound = *backup->stroke_m - alone.compression_m;
    finding.measured = true;
    finding.facts = {{"corner", corner_of(rig, alone.corner)},
                     {"speed", Quantity{alone.speed_m_per_s, Dimension::speed}},
                     {"force", Quantity{alone.force_N, Dimension::force}}};
    // Affirmative: a number that is not one does not stop anybody.
    finding.verdict = alone.residual_m_per_s == 0 && finding.value >= 0 ? Verdict::pass : Verdict::fail;
    if (finding.verdict == Verdict::fail)
      finding.facts.push_back({"left", Quantity{alone.residual_m_per_s, Dimension::speed}});
  }
  out.push_back(finding);
}

}  // namespace

const Check backup_alone{
    .name = "backup-alone",
    .title = "The backup brake alone stops every rider",
    .sentence =
        "the primary brake lost at contact, it is met at {speed}; {left} are left at the end of its stroke; "
        "{value} of its stroke are left, force {force} at most ({corner})",
    .formula =
        "energy of all that hangs on the line, nothing lost in the impact, against the backup brake's resistance "
        "over its compression",
    .source = "own definition",
    .remedy = "take a longer or stiffer backup brake, or let it engage earlier",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead
