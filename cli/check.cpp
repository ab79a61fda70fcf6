#include "cli/commands.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"

namespace fairlead::cli {

int check(const JudgeOptions& options, const std::string& format) {
  const Dossier dossier = judge(options);
  print(format == "json" ? json::write(dossier) : text::write(dossier, style_of(options)));
  return exit_status(dossier.judged.findings);
}

}  // namespace fairlead::cli
