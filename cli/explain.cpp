#include "report/words/explain.hpp"

#include <fmt/format.h>

#include "cli/commands.hpp"
#include "geometry/quantity/nearest.hpp"

namespace fairlead::cli {

int explain(const std::string& name) {
  if (name.empty()) {
    print(words::explain_all());
    return cleared;
  }
  if (const Check* check = find_check(name)) {
    print(words::explain(*check));
    return cleared;
  }
  if (const auto help = key_help(name)) {
    print(*help);
    return cleared;
  }
  if (const auto wear = words::explain_wear(name)) {
    print(*wear);
    return cleared;
  }
  const std::string unknown = "error: no check and no key is named \"" + name + "\"; ";
  if (const auto paths = paths_of(name); !paths.empty())
    throw Unusable{fmt::format("{}a key is named with its section: {}\n", unknown, fmt::join(paths, ", "))};
  std::vector<std::string> names;
  for (const Check* check : all_checks()) names.emplace_back(check->name);
  const auto near = nearest(name, names);
  throw Unusable{unknown + (near ? "did you mean \"" + *near + "\"?\n" : "fairlead explain lists the checks\n")};
}

}  // namespace fairlead::cli
