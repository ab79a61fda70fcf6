#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"

namespace fairlead::cli {

int arrest(const JudgeOptions& options, const ArrestOptions& arrest) {
  const std::string format = format_of(arrest.format, arrest.output, {"json", "text"});
  const Dossier dossier = judge(options);
  const std::string text = format == "json" ? json::write(dossier) : text::write_arrest(dossier, style_of(options));
  arrest.output.empty() ? print(text) : write(arrest.output, text, dossier.judged);
  return exit_status(dossier.judged.findings);
}

}  // namespace fairlead::cli
