#include <cmath>
#include <limits>

#include "geometry/arrest/arrest.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {
namespace {

std::vector<bool> ends_of(const mainline::Span& span) {
  return span.low < span.high ? std::vector<bool>{false, true} : std::vector<bool>{false};
}

double end_of(const mainline::Span& span, bool high) { return high ? span.high : span.low; }

/// All corners of one path.
void add_corners(const Inputs& in, int path, bool heaviest, std::vector<Corner>& corners) {
  const mainline::Span& speeds = in.measured_speed_m_per_s ? *in.measured_speed_m_per_s : in.push_off_m_per_s;
  const std::vector<Wind> winds =
      in.wind_m_per_s > 0 ? std::vector<Wind>{Wind::head, Wind::tail} : std::vector<Wind>{Wind::none};
  for (const bool fastest : ends_of(speeds))
    for (const Wind wind : winds)
      for (const bool high_rolling : ends_of(in.rolling))
        for (const bool strong : ends_of(in.brake_share))
          corners.push_back({path, heaviest, fastest, wind, high_rolling, strong});
}

double wind_of(const Inputs& in, Wind wind) {
  return wind == Wind::head ? -in.wind_m_per_s : wind == Wind::tail ? in.wind_m_per_s : 0;
}

double rider_kg(const Inputs& in, const Corner& corner) { return in.rider_kg[corner.heaviest ? 1 : 0]; }

/// The same rider, weather and push-off: the brake makes no difference before contact.
bool same_approach(Corner a, Corner b) {
  a.strong_brake = b.strong_brake;
  return a == b;
}

Solved<Approach> approach_of(const Inputs& in, const mainline::State& state, double air_kg_per_m3,
                             const mainline::Path& path, const Corner& corner) {
  return approach(path, state.cable.weight_N_per_m,
                  {.start_m = *in.start_m,
                   .start_speed_m_per_s = end_of(in.push_off_m_per_s, corner.fastest),
                   .mass_kg = rider_kg(in, corner) + in.rider_trolley_kg,
                   .rolling = end_of(in.rolling, corner.high_rolling),
                   .drag_area_m2 = in.drag_area_m2,
                   .density_kg_per_m3 = air_kg_per_m3,
                   .wind_m_per_s = wind_of(in, corner.wind)});
}

/// Of the path toward the trolley: a knot a metre.
Solved<mainline::Path> path_toward_trolley(const Inputs& in, const mainline::State& state, double rider_kg) {
  const int knots = std::max(4, static_cast<int>(std::ceil(in.rest_m - *in.start_m)) + 1);
  return mainline::Path::solve(state.cable, (rider_kg + in.rider_trolley_kg) * standard_gravity, *in.start_m,
                               in.rest_m - mainline::meeting_m, knots,
                               mainline::Load{in.rest_m, in.brake_trolley_kg * standard_gravity});
}

}  // namespace

std::vector<Corner> corners_of(const Inputs& in, const mainline::MainLine& main_line) {
  std::vector<Corner> corners;
  for (std::size_t p = 0; p < main_line.paths.size(); ++p) {
    const mainline::Loading loading = main_line.paths[p].loading;
    if (loading != mainline::Loading::empty)
      add_corners(in, static_cast<int>(p), loading == mainline::Loading::heaviest, corners);
  }
  return corners;
}

std::vector<Corner> plain_corners(const Inputs& in) {
  std::vector<Corner> corners;
  for (const bool heaviest : {false, true}) add_corners(in, heaviest ? 1 : 0, heaviest, corners);
  return corners;
}

Bodies bodies_of(const Inputs& in, const Corner& corner, double air_kg_per_m3) {
  return {.rider_kg = rider_kg(in, corner),
          .rider_trolley_kg = in.rider_trolley_kg,
          .brake_trolley_kg = in.brake_trolley_kg,
          .hanging_m = in.hanging_m,
          .lanyard_N_per_m = in.lanyard_N_per_m,
          .lanyard_damping = in.lanyard_damping,
          .bumper_N_per_m = in.bumper_N_per_m,
          .bumper_damping = in.bumper_damping,
          .bumper_give_m = in.bumper_give_m,
          .rolling = end_of(in.rolling, corner.high_rolling),
          .drag_kg_per_m = air_kg_per_m3 / 2 * in.drag_area_m2,
          .wind_m_per_s = wind_of(in, corner.wind),
          .held_back = in.held_back,
          .coupled = in.coupled};
}

Unit unit_of(const Inputs& in, const Corner& corner) {
  return {.law = in.unit,
          .share = end_of(in.brake_share, corner.strong_brake),
          .return_share = in.return_share,
          .extension_limit_m = in.extension_limit_m};
}

Solved<Approaches> solve_approaches(const Inputs& in, const mainline::MainLine& main_line, const Work& work) {
  Approaches found;
  found.corners = corners_of(in, main_line);
  const std::size_t corners = found.corners.size();
  found.computed.assign(corners, unsolved("no push-off is given"));
  found.speed_m_per_s.assign(corners, std::numeric_limits<double>::quiet_NaN());
  if (in.start_m) {
    for_each_index(work, static_cast<int>(main_line.paths.size()), [&](int p) {
      const mainline::StatePath& loaded = main_line.paths[static_cast<std::size_t>(p)];
      if (loaded.loading == mainline::Loading::empty) return;
      const auto state = static_cast<std::size_t>(loaded.state);
      const auto path = path_toward_trolley(in, main_line.states[state],
                                            in.rider_kg[loaded.loading == mainline::Loading::heaviest ? 1 : 0]);
      for (std::size_t c = 0; c < corners; ++c) {
        if (found.corners[c].path != p) continue;
        if (!path)
          found.computed[c] = tl::unexpected(path.error());
        else if (c > 0 && same_approach(found.corners[c], found.corners[c - 1]))
          found.computed[c] = found.computed[c - 1];
        else
          found.computed[c] =
              approach_of(in, main_line.states[state], in.air_kg_per_m3[state], *path, found.corners[c]);
      }
    });
  }
  for (std::size_t c = 0; c < corners; ++c) {
    if (in.measured_speed_m_per_s) {
      found.speed_m_per_s[c] = end_of(*in.measured_speed_m_per_s, found.corners[c].fastest);
    } else {
      if (!found.computed[c]) return tl::unexpected(found.computed[c].error());
      found.speed_m_per_s[c] = found.computed[c]->arrival_speed_m_per_s;
    }
    // A rider who stalls short has no speed, and is not the fastest.
    if (found.speed_m_per_s[c] > found.fastest_m_per_s) found.fastest_m_per_s = found.speed_m_per_s[c];
  }
  return found;
}

double Approaches::acceleration_m_per_s2(std::size_t corner) const {
  const auto& approach = computed[corner];
  return approach && !approach->stalled_at_m ? approach->acceleration_m_per_s2 : 0;
}

bool CornerResult::comes_to_rest(double extension_limit_m) const {
  return rest && rest->how != FinalRest::How::runs_on && greatest_extension_m().value < extension_limit_m;
}

double CornerResult::farthest_travel_m() const {
  if (!motion) return std::numeric_limits<double>::quiet_NaN();
  return rest ? greater(motion->stop_travel_m, rest->latest_m) : motion->stop_travel_m;
}

Peak CornerResult::greatest_extension_m() const {
  if (!motion) return {.value = std::numeric_limits<double>::quiet_NaN()};
  const Peak& moving = motion->extension_m;
  if (!rest || greater(moving.value, rest->extension_m) == moving.value) return moving;
  return {.value = greater(moving.value, rest->extension_m), .at_s = motion->end_s, .travel_m = rest->latest_m};
}

}  // namespace fairlead::arrest
