// How a leg and the wraps it ends on answer their bodies' motion and their line's tension, in bands, contacts
// following.
//
// With w the load per metre, k against it, l = dL/dspan, m = dL/dTm and G the stiffness of leg_band.hpp: ends that move
// by A and B and t newtons more along the whole line (T = T0 + w (p - datum) . k) change the span by D = B - A, Tm by
//     dTm = t + w/2 k . (A + B),   the length by dL = l . D + m dTm,
// and the pulls on the two ends by +-(G D + l dTm) - w/2 dL k.
// A contact keeps F . e = 0. By an angle about its axle a it moves r t, t = a x e, along the line but for the fleet
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

/// Of the bodies at a leg's two ends: how the points move where the leg ends, were they fixed to the bodies, and how
/// the bodies turn.
struct LegMotion {
  Band3 span, sum;  ///< second end's less the first's, and both together
  Band3 from_turn, to_turn;
  bool moves = false, from_turns = false, to_turns = false;
};

/// Of a leg, with what its contacts give to their wraps.
struct LegReply {
  Band length_m;
  Band3 from_pull_N, to_pull_N;     ///< with the load of what the wrap gains
  Band mid_N;                       ///< the mean tension
  Band from_turn_rad, to_turn_rad;  ///< of the contacts against their bodies
};

struct LegAnswer {
  /// The leg's pull on what holds an end.
  struct End {
    Band3 way;  ///< in shares of the mean tension
    Band3 pull_N;
    Band tension_N;
    Band3 unit() const { return direction_of(way); }
    /// Of the unit vector, for this rate of the pull.
    Band3 unit_rate(const Band3& unit, const Band3& pull_rate) const {
      return (Band(1) / tension_N) * (pull_rate - dot(unit, pull_rate) * unit);
    }
  };
  LegBand leg;
  End from_end, to_end;
  Band3 per_span;  ///< l
  BandMatrix stiffness_N_per_m;
  double load_N_per_m{};
  Vec3 against_load;

  /// One contact: what a radian of it changes.
  struct Slide {
    bool slides = false;
    double gain_m{};   ///< of the wrap
    Band3 e, lever_N;  ///< e and e x F
    Band3 move;        ///< of the contact
    LegReply alone;    ///< the leg's and the wrap's
    Band3 couple_N_m;  ///< of the pull, which moves with the contact
  };
  Slide from, to;
  Band turn[2][2];  ///< of the contacts for their residuals F . e: minus the inverse
  bool hangs = false;

  LegReply reply(const LegMotion&, Band tension_N) const;

 private:
  friend LegAnswer leg_answer(const EndBand&, const EndBand&, const Band3&, Band, double, const LineAxes&);
  LegReply hold(const Band3& span, const Band3& sum, Band tension_N) const;
  void slide_on(const EndBand& from_at, const EndBand& to_at);
};

/// `span` from the first end to the second, mid_N the mean of the leg's end tensions; all vectors in the rig's axes.
LegAnswer leg_answer(const EndBand& from, const EndBand& to, const Band3& span, Band mid_N, double load_N_per_m,
                     const LineAxes&);

}  // namespace fairlead::reeving
