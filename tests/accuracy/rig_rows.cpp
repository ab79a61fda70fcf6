// Whole layouts, against tests/references, which solves them by separate code.
#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "geometry/layout/read.hpp"
#include "geometry/rig/rig.hpp"
#include "tests/accuracy/accuracy.hpp"

namespace fairlead::accuracy {
namespace {

/// What tests/references/recompute.py prints of a layout: the empty trolley on the cold lines at full travel, and the
/// finished lengths.
struct Printed {
  const char* name;
  const char *height_m, *extension_m, *pull_N;
  std::vector<const char*> finished_m;
};

void add_layout(const Printed& printed, std::vector<Row>& rows) {
  const auto layout = read_layout(fmt::format(FAIRLEAD_SOURCE_DIR "/layouts/{}.toml", printed.name));
  // The poses at the ends of a sweep are the same however coarsely it is bounded.
  const std::optional<Rig> rig = layout ? std::optional(solve(*layout, {}, Resolution{10, 10})) : std::nullopt;
  const reeving::Reeving* reeved = rig ? rig->reeving.solved() : nullptr;
  const auto add = [&](const std::string& quantity, const char* expected, const char* unit, auto ours) {
    rows.push_back({"rig", fmt::format("{}: {}", printed.name, quantity), "ANEW, own", expected, unit,
                    reeved ? ours() : std::nan("")});
  };
  const auto pose = [&]() -> const reeving::Pose& { return reeved->sweeps.front().poses.back(); };
  add("height of the empty trolley at full travel, cold", printed.height_m, "m", [&] { return pose().trolley.z; });
  add("extension there", printed.extension_m, "m", [&] { return pose().extension_m; });
  add("pull on the trolley there", printed.pull_N, "N", [&] { return norm(pose().pull_on_trolley_N); });
  for (std::size_t l = 0; l < printed.finished_m.size(); ++l)
    add(fmt::format("finished length of line {}", l + 1), printed.finished_m[l], "m",
        [&] { return reeved->finished_length_m[l]; });
}

}  // namespace

std::vector<Row> rig_rows() {
  std::vector<Row> rows;
  add_layout({"heron_gully", "330.428637", "15.213968", "163.49134", {"32.381548"}}, rows);
  add_layout({"marten_ridge", "402.191219", "7.311945", "152.90504", {"31.769522", "11.830956", "27.502251"}}, rows);
  add_layout({"sable_weir", "511.096039", "4.234914", "136.77545", {"45.664151", "11.830469", "27.502318"}}, rows);
  return rows;
}

}  // namespace fairlead::accuracy
