// The rig as it was built: measured, solved and judged anew, with what was not measured and what the uncertainties
// leave open. A finding passes here only where nothing it rests on went unmeasured and the draws bear it out. Of tapes
// alone the control marks were not measured either: that they stand where the layout has them is what whoever names
// them says. A finding may pass on that word only where the readings would have shown otherwise, and it is told which
// ones do.
#pragma once

#include "geometry/asbuilt/characteristics.hpp"
#include "geometry/asbuilt/draws.hpp"
#include "geometry/asbuilt/line_shots.hpp"
#include "geometry/asbuilt/placing.hpp"
#include "geometry/asbuilt/since.hpp"
#include "geometry/checks/check.hpp"
#include "geometry/studies/placement.hpp"
#include "geometry/survey/measurements_file.hpp"

namespace fairlead {

/// What was measured, as it was read.
struct Survey {
  std::string points_file, measurements_file;  ///< names; the first empty of tapes alone, the second where none is
  std::vector<SurveyPoint> points;
  std::vector<Measurement> measurements;
  SurveyTerms terms;
  std::size_t points_left_out = 0;  ///< so many more stand in the file, which the layout does not know
  std::string points_sha256{}, measurements_sha256{};  ///< of the files' bytes, 64 hex digits; empty like the names
  std::optional<EarlierSurvey> earlier{};              ///< what the points are compared with, in the same terms
};

struct BuiltTerms {
  int draws = 100;  ///< fewest_draws or more
  std::uint64_t seed = 1;
  bool box = false;  ///< find the box in which all marks may stand at once
  /// How riders are stopped is held as it is at the measured places, instead of solved in every draw.
  bool hold_arrest = false;
  /// The first draws are judged exactly and the rest told straight from them: finding_draws.
  bool linear = false;
};

/// A measured characteristic that is no place. Values SI, directions in the site frame.
struct MeasuredValue {
  int characteristic{};
  unsigned line{};                         ///< of its first number in the measurements file
  std::vector<double> value, uncertainty;  ///< in the order of its measurands; uncertainty: standard
};

/// Behind one finding of the built rig.
struct Basis {
  Verdict as_measured = Verdict::undetermined;  ///< at the measured places, before unmeasured things and draws count
  std::vector<int> unmeasured;                  ///< characteristics that it rests on and that were not measured
  std::vector<int> held;                        ///< those that it rests on by itself and that are held as drawn
  std::optional<Conformity> conformity;         ///< none where it rests on something unmeasured
};

struct AsBuilt {
  Survey survey;
  BuiltTerms terms;
  Judged design;
  std::vector<SetOutPoint> marks;  ///< of the design
  Placing placing;
  std::vector<Vec3> place_uncertainty_m;  ///< standard, per placed point: along, across and up of the design, by draws
  /// The main line by what was shot on it; none where nothing was. Its doubt: why its tension is not believed.
  struct {
    std::optional<Solved<LineByShots>> solved;
    std::string doubt;
  } main_line;
  std::optional<Since> since;          ///< where there is an earlier survey
  std::optional<Placement> placement;  ///< of the design, where the box was asked for
  std::vector<Characteristic> characteristics;
  std::vector<char> measured;  ///< per characteristic
  std::vector<char> held;      ///< likewise: not measured, said to stand as drawn, and readings would show otherwise
  std::vector<MeasuredValue> values;  ///< in the order of the characteristics
  Judged built;              ///< what was not measured stands in it as drawn, and leaves its findings undetermined
  std::vector<Basis> basis;  ///< per finding of `built`
};

/// How far a placed point stands from where it is drawn: along, across (to the left) and up of the design.
Vec3 off_by(const AsBuilt&, std::size_t point);

/// Against what all marks may be off at once, guarded by 1.645 uncertainties, the one-sided 95 % of a normal error
/// (JCGM106). Not judged where no box was found or asked for.
Verdict in_box(const AsBuilt&, std::size_t point);

/// What is wrong with points and measurements against the layout.
struct SurveyErrors {
  PointsErrors points, measurements, earlier;
};

/// Judges the layout as drawn, then as measured; then moves whatever was not measured, either way, to find what rests
/// on it; then draws all that was measured from its uncertainty. Throws Cancelled.
tl::expected<AsBuilt, SurveyErrors> as_built(Layout, Survey, const BuiltTerms&, const Work& = {});

}  // namespace fairlead
