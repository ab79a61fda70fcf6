#include "cli/commands.hpp"
#include "report/changes.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"

namespace fairlead::cli {
namespace {

/// Both layouts, or the errors of both.
std::pair<Layout, Layout> read_both(JudgeOptions options, const std::string& now) {
  std::optional<Layout> layouts[2];
  std::string message;
  for (auto& layout : layouts) {
    try {
      layout = read(options);
    } catch (const Unusable& refused) {
      if (refused.message != message) message += refused.message;  // a bad option is said once
    }
    options.layout = now;
  }
  if (!message.empty()) throw Unusable{message};
  return {std::move(*layouts[0]), std::move(*layouts[1])};
}

}  // namespace

int compare(const JudgeOptions& options, const std::string& now, const std::string& format) {
  const Work work = work_of(options);
  auto [old_layout, new_layout] = read_both(options, now);
  Changes changes;
  changes.was = fairlead::judge(std::move(old_layout), {}, work);
  changes.is = fairlead::judge(std::move(new_layout), {&changes.was.rig}, work);
  refuse_changed_scans(changes.was.rig.layout);
  refuse_changed_scans(changes.is.rig.layout);
  changes.difference = difference(changes.was, changes.is);
  print(format == "json" ? json::write(changes) : text::write(changes, style_of(options)));
  return cleared;
}

}  // namespace fairlead::cli
