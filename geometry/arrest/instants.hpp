// The instants of the arrests that can govern what the rig carries.
#pragma once

#include <vector>

#include "geometry/arrest/motion.hpp"

namespace fairlead::arrest {

/// All that trolleys and rider ask of main line and lines at one instant.
struct LoadInstant {
  double t_s{};                         ///< after contact
  double travel_m{}, rider_travel_m{};  ///< of the brake trolley, and of the rider's, upstream of it when apart
  double line_speed_m_per_s{};          ///< drawn in < 0: the sheaves' friction turns with it
  double unit_tension_N{}, extension_m{};
  double lanyard_N{}, lean_rad{};         ///< what the rider pulls his trolley by, down and forward
  double rider_down_N{}, brake_down_N{};  ///< of each trolley on the main line: weight, lanyard, mass times its
                                          ///< acceleration upward; the pull of its line not counted
  double rider_acceleration_m_per_s2{}, brake_acceleration_m_per_s2{};  ///< along x
  double rider_rise_m_per_s2{}, brake_rise_m_per_s2{};                  ///< upward, along their paths
  bool apart = false;

  double down_N() const { return rider_down_N + brake_down_N; }
};

/// Instants are compared over cells of travel: narrow ones near the mark, where the first leg turns fastest.
inline constexpr double near_m = 2, narrow_cell_m = 0.25, wide_cell_m = 1;
/// The cell that a travel lies in, and where it begins; one at its end lies in the next.
int load_cell(double travel_m);
double cell_begins_m(int cell);

/// Of greatest tension and load: instants no farther outside the hull of those that are kept are left out.
inline constexpr double left_out_share = 0.0025;

/// Of one motion those at corners of the convex hull of (unit tension, load on the main line) of all instants that are
/// in one cell of travel with the lines running one way: what grows evenly with both is nowhere greater than at one of
/// them, but for left_out_share. Where the trolleys are apart both travels count for the cell. Also the instant of the
/// greatest extension.
std::vector<LoadInstant> load_instants(const Track&, const Bodies&, const std::vector<Instant>& record,
                                       const std::vector<Instant>& edges);

/// One of several motions'.
struct OfMotion {
  int motion{};
  LoadInstant at;
};
/// The same of all of them together; left_out_share once more.
std::vector<OfMotion> governing_instants(const std::vector<OfMotion>&);

}  // namespace fairlead::arrest
