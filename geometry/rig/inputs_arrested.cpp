#include <algorithm>
#include <cmath>
#include <tuple>

#include "geometry/arrest/names.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

/// Whether a corner is known to its end, or why it is not. A rider who stalls short has no arrest: where he hangs he
/// loads the rig as one on the open span.
std::string unknown_of(const arrest::CornerResult& corner, const Solved<arrest::Approach>& approach) {
  if (corner.arrival_speed_m_per_s == 0 && approach && approach->stalled_at_m) return "";
  if (!corner.motion) return corner.motion.error().why;
  switch (corner.motion->outcome) {
    case arrest::Outcome::stops:
    case arrest::Outcome::creeps:
      return "";
    default:
      return "he " + std::string(arrest::word_for(corner.motion->outcome)) + ", and what follows is not known";
  }
}

/// Between two instants of the record the peaks stand a little above both; and what the instants leave out.
double beyond_share(const arrest::CornerResult& corner, const arrest::Inputs& in) {
  double tension_N = 0, lanyard_N = 0;
  for (const arrest::LoadInstant& i : corner.load_instants) {
    tension_N = std::max(tension_N, i.unit_tension_N);
    lanyard_N = std::max(lanyard_N, i.lanyard_N);
  }
  const double weight_N = standard_gravity * in.rider_kg[corner.corner.heaviest ? 1 : 0];
  return 2 * arrest::left_out_share + std::max({0.0, corner.motion->unit_tension_N.value / tension_N - 1,
                                                corner.motion->load_raw.value * weight_N / lanyard_N - 1});
}

}  // namespace

loads::Arrested arrested(const Frame& frame, const mainline::MainLine& main_line,
                         const Stage<arrest::Inputs, arrest::Approaches>& approach,
                         const Stage<arrest::Inputs, arrest::Arrest>& arrest) {
  loads::Arrested out;
  if (!arrest.solved()) {
    out.missing = "riders' arrests are not solved: " + arrest.result->error().why;
    return out;
  }
  const arrest::Inputs& in = *arrest.inputs;
  out.missing.clear();
  for (int cell = 0; cell <= arrest::load_cell(in.travel_m); ++cell) out.cells_m.push_back(arrest::cell_begins_m(cell));
  out.rider_trolley_kg = in.rider_trolley_kg;
  out.brake_trolley_kg = in.brake_trolley_kg;
  const std::vector<arrest::CornerResult>& corners = arrest.solved()->corners;
  std::vector<std::vector<arrest::OfMotion>> of_path(main_line.paths.size());
  for (std::size_t c = 0; c < corners.size(); ++c) {
    const arrest::CornerResult& corner = corners[c];
    out.corners.push_back({arrest::name_of(in, main_line, corner.corner), corner.corner.path,
                           corner.motion ? beyond_share(corner, in) : 0});
    const std::string unknown = unknown_of(corner, approach.solved()->computed[c]);
    if (!unknown.empty() && out.missing.empty()) out.missing = out.corners.back().name + ": " + unknown;
    for (const arrest::LoadInstant& i : corner.load_instants)
      of_path[static_cast<std::size_t>(corner.corner.path)].push_back({static_cast<int>(c), i});
  }
  const auto add = [&](const arrest::OfMotion& one, reeving::Friction friction) {
    const arrest::LoadInstant& i = one.at;
    out.instants.push_back(
        {.corner = one.motion,
         .t_s = i.t_s,
         // A trolley that is back at its mark has passed it by rounding.
         .travel_m = std::max(0.0, i.travel_m),
         .rider_travel_m = i.rider_travel_m,
         .unit_tension_N = i.unit_tension_N,
         .friction = friction,
         .lanyard_N = i.lanyard_N * (std::sin(i.lean_rad) * frame.along - std::cos(i.lean_rad) * frame.up),
         .rider_m_per_s2 = i.rider_acceleration_m_per_s2 * frame.along + i.rider_rise_m_per_s2 * frame.up,
         .brake_m_per_s2 = i.brake_acceleration_m_per_s2 * frame.along + i.brake_rise_m_per_s2 * frame.up,
         .apart = i.apart});
  };
  for (std::vector<arrest::OfMotion>& instants : of_path)
    for (const arrest::OfMotion& one : arrest::governing_instants(instants)) {
      if (one.at.line_speed_m_per_s >= 0) add(one, reeving::Friction::paying_out);
      if (one.at.line_speed_m_per_s <= 0) add(one, reeving::Friction::returning);
    }
  const auto order = [&](const loads::ArrestInstant& i) {
    return std::tuple(out.corners[static_cast<std::size_t>(i.corner)].path, i.friction, i.travel_m, i.unit_tension_N,
                      i.corner, i.t_s);
  };
  std::ranges::sort(out.instants, {}, order);
  out.instants.erase(std::unique(out.instants.begin(), out.instants.end()), out.instants.end());
  return out;
}

}  // namespace fairlead
