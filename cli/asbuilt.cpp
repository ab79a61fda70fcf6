#include "geometry/asbuilt/as_built.hpp"

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/points.hpp"
#include "cli/rows.hpp"
#include "geometry/quantity/units.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"
#include "report/sheets/as_built.hpp"
#include "report/words/names.hpp"

namespace fairlead::cli {
namespace {

constexpr FileKind points_kind{"a points file", "the points file", largest_points_file};
constexpr FileKind earlier_kind{"a points file", "the earlier points file", largest_points_file};
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

}  // namespace

int asbuilt(const JudgeOptions& options, const AsbuiltOptions& asbuilt) {
  const std::string format = format_of(asbuilt.format, asbuilt.output, {"pdf", "json", "text"});
  std::optional<Lettering> lettering;
  if (format == "pdf") lettering.emplace(asbuilt.paper);
  const PointsFormat points = points_format(asbuilt.order, asbuilt.unit);
  const Work work = work_of(options);
  std::string message;
  Survey survey{.points_file = asbuilt.points,
                .measurements_file = asbuilt.measurements,
                .terms = {.control = asbuilt.control,
                          .kind = asbuilt.tilted ? FitKind::tilted : FitKind::levelled,
                          .uncertainty_m = uncertainty_of("--uncertainty", asbuilt.uncertainty)}};
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
  survey.points = contents(asbuilt.points, points_kind, survey.points_sha256, message,
                           [&](std::string_view text) { return read_points(text, points); });
  if (survey.earlier)
    survey.earlier->points = contents(asbuilt.since, earlier_kind, survey.earlier->points_sha256, message,
                                      [&](std::string_view text) { return read_points(text, points); });
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
