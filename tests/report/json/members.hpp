// Double entry: a number of the record against the member it is named after.
#pragma once

#include <cmath>
#include <nlohmann/json.hpp>

#include "report/json/json.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {

using Json = nlohmann::json;

/// One rig and what was written of it.
struct Recorded {
  Dossier dossier;
  Json json;
  explicit Recorded(Dossier of) : dossier(std::move(of)), json(Json::parse(json::write(dossier))) {}
  const Rig& rig() const { return dossier.judged.rig; }
};

/// The demo with a skew sheave off the plane: no two members are equal by symmetry.
inline const Recorded& skew() {
  static const Recorded recorded{Dossier{judge(
      demo_layout({{"sheave.R1.axle", "[0.62, -0.78, 0.02]"}, {"sheave.R1.position", "[1349.14, 911.78, 331.35]"}}))}};
  return recorded;
}

/// 2:1 on a support line, with structures, a rider's envelope and side wind; the block a little off the plane.
inline const Recorded& reduced() {
  static const Recorded recorded = [] {
    const std::vector<Override> changes = {{"sheave.R1.axle", "[0.29, -0.957, 0.01]"},
                                           {"block.K1.centre_of_mass", "['0.02 m', '0.01 m', '-0.05 m']"}};
    auto layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/marten_ridge.toml", changes);
    if (!layout) throw std::runtime_error(print(layout.error().front()));
    return Recorded{Dossier{Judged{solve(std::move(*layout)), {}}}};
  }();
  return recorded;
}

/// Ten digits were printed: half of the last is 0.5e-9 of the number at most.
inline bool same(const Json& json, double value) {
  if (!std::isfinite(value)) return json.is_null();
  return json.is_number() && std::abs(json.get<double>() - value) <= 0.5e-9 * (1 + 1e-6) * std::abs(value);
}
inline bool same(const Json& json, Vec3 v) { return same(json[0], v.x) && same(json[1], v.y) && same(json[2], v.z); }
inline bool same(const Json& json, Point3 p) { return same(json, Vec3{p.x, p.y, p.z}); }
inline bool same(const Json& json, int value) { return json == value; }
inline bool same(const Json& json, bool value) { return json == value; }

/// The column holds get(rows[first]), get(rows[first + stride]), ...
template <class T, class Get>
bool same_column(const Json& column, const std::vector<T>& rows, Get get, std::size_t first = 0,
                 std::size_t stride = 1) {
  if (column.size() != rows.size() / stride) return false;
  for (std::size_t i = 0; i < column.size(); ++i)
    if (!same(column[i], std::invoke(get, rows[first + i * stride]))) return false;
  return true;
}

}  // namespace fairlead
