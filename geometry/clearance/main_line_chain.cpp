// The main line as chords: from upstream of all that matters over rider and trolley to its end.
#include <algorithm>
#include <cmath>

#include "geometry/clearance/movers.hpp"

namespace fairlead::clearance {
Solved<mainline::Shape> main_line_at(const Passage& passage, const reeving::Pose& pose, const mainline::Shape* near) {
  const reeving::Inputs& rig = passage.rig;
  const auto x = [&](Point3 p) { return dot(p - rig.origin, rig.along); };
  const double trolley_N = passage.given.trolley_weight_N - dot(pose.pull_on_trolley_N, rig.up),
               rider_N = passage.given.rider_weight_N;
  const auto hang = [&](std::span<const mainline::Load> loads) {
    const bool alike = near && near->loads == static_cast<int>(loads.size());
    return mainline::hang_rolling(passage.given.state.cable, loads, alike ? near : nullptr);
  };
  const mainline::Load apart[2] = {{x(pose.rider), rider_N}, {x(pose.trolley), trolley_N}};
  if (pose.travel_m < 0 && rider_N > 0) return hang(apart);
  const mainline::Load together{x(pose.trolley), trolley_N + rider_N};
  return hang({&together, 1});
}

reeving::LineBetween main_line_between(const Passage& passage, int pose, const mainline::Shape& from,
                                       const mainline::Shape& to, const reeving::LeftOut& left_out) {
  const double trolley_m = passage.stray(pose).trolley_m;
  reeving::OnTheWay wheels{reeving::OnTheWay::Last::height, {trolley_m, 0}};
  if (from.loads == 2) wheels.off = {0, trolley_m};  // the rider weighs what he does
  return line_between(passage.given.state.cable, from, to, wheels, left_out);
}

double bulge_per_m2(const mainline::Cable& cable, const mainline::Shape& shape) {
  double most = 0;
  for (int k = 0; k <= shape.loads; ++k) {
    const mainline::Piece& piece = shape.pieces[static_cast<std::size_t>(k)];
    const double V = greater(std::abs(piece.V_N), std::abs(piece.V_N - cable.weight_N_per_m * piece.unstretched_m));
    most = greater(most, cable.weight_N_per_m * std::hypot(piece.H_N, V) / (piece.H_N * piece.H_N) / 8);
  }
  return most;
}

namespace {

/// From a metre upstream of every leg and of the rider on.
double upstream_end_m(const Passage& passage) {
  const reeving::Inputs& rig = passage.rig;
  double least = rig.rest_m;
  const auto reach = [&](Point3 p) { least = std::min(least, dot(p - rig.origin, rig.along)); };
  for (int i = 0; i < passage.poses; ++i) {
    reach(passage.pose(i).rider);
    for (int leg = 0; leg < static_cast<int>(rig.legs()); ++leg) {
      reach(passage.leg(i, leg).from);
      reach(passage.leg(i, leg).to);
    }
  }
  return std::max(0., least - 1);
}

constexpr std::size_t pieces = 3;  // to the rider, to the trolley, to the end support
using PerPiece = std::array<double, pieces>;

class MainLineChords {
 public:
  explicit MainLineChords(const Passage& passage) : passage_(passage), from_m_(upstream_end_m(passage)) {}

  Solved<Chain> chain() {
    if (const auto hung = hang(); !hung) return tl::unexpected(hung.error());
    share_out();
    std::vector<Point3> at;
    for (int i = 0; i < passage_.poses; ++i) add_pose(i, at);
    Chain chain(chords_[0] + chords_[1] + chords_[2] + 1, std::move(at));
    chain.radius_m = passage_.inputs.main_line_radius_m;
    chain.slack_m = slack_m_;
    chain.stray_m = std::move(stray_m_);
    return chain;
  }

 private:
  using Places = std::array<Point3, pieces + 1>;

  tl::expected<void, Unsolved> hang() {
    for (int i = 0; i < passage_.poses; ++i) {
      const auto shape = main_line_at(passage_, passage_.pose(i), shapes_.empty() ? nullptr : &shapes_.back());
      if (!shape) return tl::unexpected(shape.error());
      shapes_.push_back(*shape);
      per_m2_ = greater(per_m2_, bulge_per_m2(passage_.given.state.cable, *shape));
      if (i == 0) continue;
      const auto between = main_line_between(passage_, i - 1, *(shapes_.end() - 2), *shape, {{from_m_, from_m_}, {}});
      stray_m_.push_back(between.stray_m);
      if (std::isfinite(between.stray_m)) per_m2_ = greater(per_m2_, between.bulge_per_m2);
    }
    return {};
  }

  Point3 on_line(int pose, double x_m, Point3 over) const {
    over.z = passage_.rig.origin.z +
             mainline::line_at(passage_.given.state.cable, shapes_[static_cast<std::size_t>(pose)], x_m).z_m;
    return over;
  }

  Places places(int pose) const {
    const reeving::Inputs& rig = passage_.rig;
    const mainline::Cable& cable = passage_.given.state.cable;
    return {on_line(pose, from_m_, rig.origin + from_m_ * rig.along), passage_.pose(pose).rider,
            passage_.pose(pose).trolley, rig.origin + cable.span_m * rig.along + cable.rise_m * rig.up};
  }

  void share_out() {
    PerPiece reach{};
    for (int i = 0; i < passage_.poses; ++i) {
      const Places at = places(i);
      for (std::size_t k = 0; k < pieces; ++k) reach[k] = greater(reach[k], dot(at[k + 1] - at[k], passage_.rig.along));
    }
    for (std::size_t k = 0; k < pieces; ++k) {
      const double bulge_m = per_m2_ * reach[k] * reach[k];
      chords_[k] = chords_for(bulge_m, passage_.inputs);
      slack_m_ = greater(slack_m_, bulge_m / (chords_[k] * chords_[k]));
    }
  }

  void add_pose(int pose, std::vector<Point3>& out) {
    const Places at = places(pose);
    out.push_back(at[0]);
    for (std::size_t k = 0; k < pieces; ++k) {
      for (int n = 1; n < chords_[k]; ++n) {
        const Point3 chord = at[k] + double(n) / chords_[k] * (at[k + 1] - at[k]);
        out.push_back(on_line(pose, dot(chord - passage_.rig.origin, passage_.rig.along), chord));
      }
      out.push_back(at[k + 1]);
    }
  }

  const Passage& passage_;
  double from_m_;
  std::vector<mainline::Shape> shapes_;
  std::array<int, pieces> chords_{};
  double per_m2_{}, slack_m_{};
  std::vector<double> stray_m_;
};

}  // namespace

// Its chords' ends go evenly along from pose to pose; how far they stray from that in height is proven.
Solved<Chain> main_line_chain(const Passage& passage) { return MainLineChords(passage).chain(); }

}  // namespace fairlead::clearance
