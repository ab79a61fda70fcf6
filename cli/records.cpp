#include "geometry/records/records.hpp"

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/rows.hpp"
#include "geometry/checks/judged_on.hpp"
#include "report/formats/records_text.hpp"
#include "report/json/records.hpp"
#include "report/sheets/inspection.hpp"

namespace fairlead::cli {
namespace {

constexpr FileKind register_kind{"a register of parts", "the register of parts", largest_records_file};
constexpr FileKind log_kind{"a log of findings", "the log of findings", largest_records_file};
constexpr FileKind measurements_kind{"a file of measurements", "the file of measurements", largest_measurements_file};

}  // namespace

int records(const JudgeOptions& options, const RecordsOptions& asked) {
  const std::string format = format_of(asked.format, asked.output, {"pdf", "json", "text"});
  std::optional<Lettering> lettering;
  if (format == "pdf") lettering.emplace(asked.paper);
  std::string message, sha256;
  std::optional<Layout> layout;
  try {
    layout = read(options);
  } catch (const Unusable& refused) {
    message = refused.message;
  }
  RecordsInput input;
  const std::vector<std::string> known = layout ? parts_in_service(*layout) : std::vector<std::string>{};
  input.parts = contents(asked.parts, register_kind, sha256, message,
                         [&](std::string_view text) { return read_register(text, known); });
  if (!asked.log.empty())
    input.log =
        contents(asked.log, log_kind, sha256, message, [&](std::string_view text) { return read_log(text, known); });
  if (!asked.measurements.empty())
    input.measurements = contents(asked.measurements, measurements_kind, sha256, message, read_measurements);
  if (!message.empty()) throw Unusable{message};
  const auto judged = judge_records(*layout, judged_on(*layout), std::move(input));
  if (!judged)
    throw Unusable{printed(asked.parts, judged.error().parts) + printed(asked.log, judged.error().log) +
                   printed(asked.measurements, judged.error().measurements)};
  const Style style = style_of(options);
  std::string bytes;
  if (lettering) {
    Dossier dossier{fairlead::judge(*layout, {}, work_of(options))};
    dossier.setting_out = setting_out(dossier.judged.rig);
    bytes = composed_pdf(
        [&](const sheets::Office& office) { return sheets::compose_inspection(dossier, *judged, style, office); },
        *lettering, asked.paper, *layout, sheets::written_in(judged->input));
  } else {
    bytes = format == "json" ? json::write(*judged, *layout) : text::write(*judged, *layout, style);
  }
  asked.output.empty() ? print(bytes) : write(asked.output, bytes, text::headline(*judged));
  return judged->verdict == Verdict::pass ? cleared : not_cleared;
}

}  // namespace fairlead::cli
