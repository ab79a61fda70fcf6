// All legs of a rig whose unknowns lie in a box.
#pragma once

#include <vector>

#include "geometry/reeving/between.hpp"
#include "geometry/reeving/box.hpp"
#include "geometry/reeving/leg_answer.hpp"

namespace fairlead::reeving {

/// The rig's axes: along, across, up, counted from its origin.
struct RigAxes {
  Point3 origin;
  Vec3 along, across, up;
  Vec3 in(Vec3 v) const { return {dot(v, along), dot(v, across), dot(v, up)}; }
  Vec3 in(Point3 p) const { return in(p - origin); }
};

/// A leg over the box.
struct LegOver {
  int line{};
  Body from_on = on_ground, to_on = on_ground;
  int from_sheave = -1, to_sheave = -1;
  Level level;
  EndBand from, to;
  LegAnswer answer;
};

class IntervalLegs {
 public:
  /// `a`: the pose the box counts from; step_m: how far the trolley rolls along, 0 upstream of its mark.
  IntervalLegs(const Inputs& in, const SweepInputs& sweep, const Station& a, double step_m);

  const RigAxes& axes() const { return axes_; }
  std::size_t size() const { return legs_.size(); }
  const LegOver& leg(std::size_t i) const { return legs_[i]; }

  /// Places every end of every leg and hangs the legs; false where one of them cannot be known.
  bool hang(Box& box);

  /// Where contact i (on and off of every sheave) stands at a pose, unit radius in the rig's axes.
  Vec3 contact_e(const Station&, std::size_t i) const;
  /// Contact i for the leg that ends there, as an angle from its first place; anything where the leg may run backward.
  Band contact(std::size_t i) const;
  /// Of the body's own point, or of a plain point's; in the rig's axes.
  Band3 point_of(std::size_t block, Box& box) const;
  /// A vector that turns with its block.
  Band3 turned(std::size_t block, Vec3 at_first, Box& box) const;
  Band3 in_line_axes(int line, const Band3& v) const;
  const Band3& axle(std::size_t sheave) const { return axle_[sheave]; }
  /// Of the point where it is, and from its block's own point to it.
  struct Place {
    Band3 at, arm;
  };
  const Place& centre(int sheave) const { return centre_[static_cast<std::size_t>(sheave)]; }
  Band wrap_rad(int sheave, Box& box) const;
  /// Of a point over the datum of a line's tension, against its load.
  Band height_m(std::size_t line, const Band3& at) const { return dot(line_axes_[line].z, at - Band3(datum_[line])); }
  /// A leg's tension at a point of it, or where its line would be at that tension.
  Band tension_N(const LegOver& leg, const Band3& at, Box& box) const {
    const auto l = static_cast<std::size_t>(leg.line);
    Band level = leg.level.carried * box.tension_N(l);
    for (int j = 0; j < in_.lines[l].sheaves; ++j)
      if (const double raised = leg.level.raised_N_per_m[static_cast<std::size_t>(j)]; raised != 0)
        level += raised * height_m(l, centre(in_.lines[l].first_sheave + j).at);
    return level + load_N_per_m_[l] * height_m(l, at);
  }
  /// What a wrap is stretched by: the mean of both sides at the sheave's centre. `on`: the leg before it.
  Band wrap_tension_N(const LegOver& on, const LegOver& off, int sheave, Box& box) const {
    return 0.5 * (tension_N(on, centre(sheave).at, box) + tension_N(off, centre(sheave).at, box));
  }
  /// From a block's own point to its centre of mass at the first pose.
  Vec3 first_arm(std::size_t block) const {
    const Block& b = in_.blocks[block];
    return axes_.in(a_.lines.blocks[block].turn(b.centre_of_mass - b.drawn));
  }

 private:
  Place place_of(Body, Point3 drawn, Box& box) const;
  EndBand contact_end(std::size_t i, Box& box);

  const Inputs& in_;
  const Station& a_;
  double trolley_moves_m_;
  RigAxes axes_;
  std::vector<LineAxes> line_axes_;
  std::vector<double> load_N_per_m_;
  std::vector<Vec3> datum_;
  std::vector<LegOver> legs_;
  std::vector<std::size_t> leg_at_contact_;
  std::vector<Vec3> first_e_, first_axle_;
  std::vector<Band3> axle_, first_e_now_, first_t_now_;
  std::vector<Place> centre_;
};

}  // namespace fairlead::reeving
