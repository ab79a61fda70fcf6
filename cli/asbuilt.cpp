#include "geometry/asbuilt/as_built.hpp"

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/points.hpp"
#include "cli/rows.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/survey/points_kept.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"
#include "report/sheets/as_built.hpp"
#include "report/words/names.hpp"

namespace fairlead::cli {
namespace {

constexpr FileKind points_kind{"a points file", "the points file", largest_survey_file};
constexpr FileKind earlier_kind{"a points file", "the earlier points file", largest_survey_file};
constexpr FileKind measurements_kind{"a file of measurements", "the file of measurements", largest_measurements_file};

double uncertainty_of(const std::string& option, const std::string& text) {
  const auto length_m = read_quantity(text, Dimension::length);
  if (!length_m)
    throw Unusable{"error: " + option + ' ' + text + ": " + length_m.error().message + ": " + length_m.error().instead +
                   "\n"};
  if (!(*length_m > 0))
    throw Unusable{"error: " + option + ' ' + text +
                   ": nothing is measured without one: state a length above 0, for "
                   "example \"3 mm\"\n"};
  return *length_m;
}

/// A points file counts to the east, to the north and up.
void refuse_other_axes(const Layout& layout) {
  if (layout.site.axes == std::array<std::string, 3>{"east", "north", "up"}) return;
  throw Unusable{"error: " + layout.files.front() +
                 ": a points file counts to the east, to the north and up, and the "
                 "site's axes are " +
                 layout.site.axes[0] + ", " + layout.site.axes[1] + ", " + layout.site.axes[2] + "\n"};
}

/// What belongs to a points file comes with one, and tapes alone without. Throws Unusable with all that is wrong.
void refuse_what_does_not_go_together(const AsbuiltOptions& built) {
  std::string message;
  const auto refuse = [&](const std::string& what) { message += "error: " + what + '\n'; };
  if (!built.points.empty()) {
    if (built.order.empty() && built.unit.empty() && built.uncertainty.empty() && built.measurements.empty())
      refuse(built.points +
             " is taken for a points file, which needs --order, --unit and --uncertainty; of tapes alone "
             "write --measurements " +
             built.points + " --control and the marks that did not move");
    else if (built.uncertainty.empty())
      refuse("a points file needs --uncertainty, the standard uncertainty (one sigma) of its coordinates");
  } else {
    if (built.measurements.empty())
      refuse("nothing was measured: name a points file, or of tapes alone --measurements FILE");
    if (built.control.empty())
      refuse(
          "tapes alone count from marks that did not move: name three or more, not in one line, like --control "
          "P1,P2,B1");
    for (const auto& [option, given] :
         {std::pair{"--order", !built.order.empty()}, std::pair{"--unit", !built.unit.empty()},
          std::pair{"--uncertainty", !built.uncertainty.empty()}, std::pair{"--since", !built.since.empty()},
          std::pair{"--tilted", built.tilted}})
      if (given) refuse(std::string(option) + " is of a points file, and none is named");
  }
  if (!message.empty()) throw Unusable{message};
}

/// Nothing of tapes alone.
SurveyTerms terms_of(const AsbuiltOptions& built) {
  SurveyTerms terms{.control = built.control,
                    .kind = built.tilted ? FitKind::tilted : FitKind::levelled,
                    .tapes_alone = built.points.empty()};
  if (!terms.tapes_alone) terms.uncertainty_m = uncertainty_of("--uncertainty", built.uncertainty);
  return terms;
}

}  // namespace

int asbuilt(const JudgeOptions& options, const AsbuiltOptions& asbuilt) {
  const std::string format = format_of(asbuilt.format, asbuilt.output, {"pdf", "json", "text"});
  std::optional<Lettering> lettering;
  if (format == "pdf") lettering.emplace(asbuilt.paper);
  refuse_what_does_not_go_together(asbuilt);
  const PointsFormat points = asbuilt.points.empty() ? PointsFormat{} : points_format(asbuilt.order, asbuilt.unit);
  const Work work = work_of(options);
  std::string message;
  Survey survey{.points_file = asbuilt.points, .measurements_file = asbuilt.measurements, .terms = terms_of(asbuilt)};
  if (!asbuilt.since.empty())
    survey.earlier =
        EarlierSurvey{.points_file = asbuilt.since,
                      .points = {},
                      .uncertainty_m = asbuilt.since_uncertainty.empty()
                                           ? survey.terms.uncertainty_m
                                           : uncertainty_of("--since-uncertainty", asbuilt.since_uncertainty)};
  std::optional<Layout> layout;
  try {
    layout = read(options);
  } catch (const Unusable& refused) {
    message = refused.message;
  }
  const auto wanted = layout ? surveyed_ids(*layout, survey.terms) : [](std::string_view) { return false; };
  const auto read_survey = [&](std::string_view text) { return read_wanted_points(text, points, wanted, work); };
  if (!asbuilt.points.empty()) {
    PointsRead read = contents(asbuilt.points, points_kind, survey.points_sha256, message, read_survey);
    survey.points = std::move(read.points);
    survey.points_left_out = read.left_out;
  }
  if (survey.earlier) {
    PointsRead read = contents(asbuilt.since, earlier_kind, survey.earlier->points_sha256, message, read_survey);
    survey.earlier->points = std::move(read.points);
    survey.earlier->points_left_out = read.left_out;
  }
  if (!asbuilt.measurements.empty())
    survey.measurements =
        contents(asbuilt.measurements, measurements_kind, survey.measurements_sha256, message, read_measurements);
  if (!message.empty()) throw Unusable{message};
  refuse_other_axes(*layout);

  const auto built = as_built(std::move(*layout), std::move(survey),
                              {.draws = asbuilt.draws,
                               .seed = asbuilt.seed,
                               .box = asbuilt.windows,
                               .hold_arrest = asbuilt.hold_arrest,
                               .linear = asbuilt.linear},
                              work);
  if (!built)
    throw Unusable{printed(asbuilt.points, built.error().points) +
                   printed(asbuilt.measurements, built.error().measurements) +
                   printed(asbuilt.since, built.error().earlier)};
  const Style style = style_of(options);
  std::string bytes;
  if (lettering) {
    bytes = composed_pdf([&](const sheets::Office& office) { return sheets::compose_as_built(*built, style, office); },
                         *lettering, asbuilt.paper, built->built.rig.layout);
  } else {
    bytes = format == "json" ? json::write(*built) : text::write(*built, style);
  }
  asbuilt.output.empty() ? print(bytes) : write(asbuilt.output, bytes, words::headline(built->built));
  return exit_status(built->built.findings);
}

}  // namespace fairlead::cli
