// How a leg and the wraps it ends on answer their bodies' motion and their line's tension, in bands, contacts
// following.
//
// With w the load per metre, k against it, l = dL/dspan and m = dL/dTm of leg_band.hpp, G its stiffness, a move A of
// the first end, B of the second and a newton more along the whole line (T = T0 + w (p - datum) . k held otherwise)
// change Tm by w/2 k . (A + B) + 1 newton, so
//     dL/dA = -l + w/2 m k,   dL/dB = l + w/2 m k,   dF/dT0 = -dL/d(end) for the pull F on either end,
//     dF_A/dA = -G + w/2 (l k' + k l') - w^2/4 m k k',   dF_B/dB = -G - w/2 (l k' + k l') - w^2/4 m k k',
//     dF_A/dB = G + w/2 (l k' - k l') - w^2/4 m k k'.
// A contact keeps F . e = 0. By an angle about its axle k_s it moves r t, t = k_s x e, along the line but for the fleet
// angle; what that takes from the leg it gives to the wrap, so that of lengths and forces together it changes nothing
// where the fleet angle is nothing.
#pragma once

#include "geometry/reeving/leg_band.hpp"

namespace fairlead::reeving {

/// Rows of a matrix in bands.
struct BandMatrix {
  Band3 x, y, z;
};

/// Axes of a line: z against its load per metre. They are those of the rig unless the wind tilts them.
struct LineAxes {
  Vec3 x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};
  bool tilted = false;
  /// Those nearest the rig's own.
  static LineAxes against(Vec3 load);
};

/// Where a leg ends. `arm`: from its body's own point.
struct EndBand {
  Band3 at, arm;
  double radius_m{};  ///< 0: a point, the rest is not read
  double turn{};      ///< as in LegEnd
  Band3 axle, e, tangent;
};

/// Of a body at a leg's end: shift of the point where the leg ends, were it fixed to the body, and turn.
struct EndMotion {
  Band3 shift, turn;
  bool moves = false, turns = false;
};

/// Of a leg, with what its contacts give to their wraps.
struct LegReply {
  Band length_m;
  Band3 from_pull_N, to_pull_N;     ///< with the load of what the wrap gains
  Band from_turn_rad, to_turn_rad;  ///< of the contacts against their bodies
};

struct LegAnswer {
  LegBand leg;
  Band3 from_pull_N, to_pull_N;
  Band3 from_unit, to_unit;  ///< the pulls' directions
  Band3 per_from, per_to;    ///< of the length, contacts held
  Band per_N;
  BandMatrix from_from, from_to, to_from, to_to;  ///< of the pull on the first end for the second: from_to
  double load_N_per_m{};
  Vec3 against_load;

  /// One contact: what a radian of it changes.
  struct Slide {
    bool slides = false;
    double gain_m{};   ///< of the wrap
    Band3 e, lever_N;  ///< e and e x F
    Band3 move;        ///< of the contact
    Band length_m;
    Band3 from_pull_N, to_pull_N;
    Band3 couple_N_m;  ///< of the pull, which moves with the contact
  };
  Slide from, to;
  Band turn[2][2];  ///< of the contacts for their residuals F . e: minus the inverse
  bool hangs = false;

  LegReply reply(const EndMotion& from, const EndMotion& to, Band tension_N) const;
};

/// mid_N: mean of the leg's end tensions; all vectors in the rig's axes.
LegAnswer leg_answer(const EndBand& from, const EndBand& to, Band mid_N, double load_N_per_m, const LineAxes&);

}  // namespace fairlead::reeving
