#include "geometry/reeving/leg_answer.hpp"

namespace fairlead::reeving {
namespace {

Band3 into(const LineAxes& axes, const Band3& v) {
  if (!axes.tilted) return v;
  return {dot(axes.x, v), dot(axes.y, v), dot(axes.z, v)};
}

Band3 out_of(const LineAxes& axes, const Band3& v) {
  if (!axes.tilted) return v;
  return v.x * Band3(axes.x) + v.y * Band3(axes.y) + v.z * Band3(axes.z);
}

BandMatrix out_of(const LineAxes& axes, const BandStiffness& m) {
  const BandMatrix own{{m.xx, m.xy, m.xz}, {m.xy, m.yy, m.yz}, {m.xz, m.yz, m.zz}};
  if (!axes.tilted) return own;
  // Rows turned, then columns.
  const Band3 a = out_of(axes, own.x), b = out_of(axes, own.y), c = out_of(axes, own.z);
  const auto row = [&](double x, double y, double z) { return x * a + y * b + z * c; };
  return {row(axes.x.x, axes.y.x, axes.z.x), row(axes.x.y, axes.y.y, axes.z.y), row(axes.x.z, axes.y.z, axes.z.z)};
}

Band3 operator*(const BandMatrix& m, const Band3& v) { return {dot(m.x, v), dot(m.y, v), dot(m.z, v)}; }

void add(LegReply& to, Band share, const LegReply& more) {
  to.length_m += share * more.length_m;
  to.from_pull_N += share * more.from_pull_N;
  to.to_pull_N += share * more.to_pull_N;
  to.mid_N += share * more.mid_N;
}

}  // namespace

LineAxes LineAxes::against(Vec3 load) {
  if (load.x == 0 && load.y == 0) return {};
  LineAxes axes;
  axes.tilted = true;
  axes.z = -unit(load);
  axes.y = unit(cross(axes.z, {1, 0, 0}));
  axes.x = cross(axes.y, axes.z);
  return axes;
}

LegReply LegAnswer::hold(const Band3& span, const Band3& sum, Band tension_N) const {
  LegReply r;
  r.mid_N = tension_N + (load_N_per_m / 2) * dot(against_load, sum);
  r.length_m = dot(per_span, span) + leg.per_mid_m_per_N * r.mid_N;
  const Band3 mean = stiffness_N_per_m * span + r.mid_N * per_span;
  const Band3 weight = (load_N_per_m / 2 * r.length_m) * Band3(against_load);
  r.from_pull_N = mean - weight;
  r.to_pull_N = -mean - weight;
  return r;
}

/// What the contacts do, and their turns that undo their residuals; NaN where these may not exist.
void LegAnswer::slide_on(const EndBand& from_at, const EndBand& to_at) {
  const auto slide = [&](Slide& s, const EndBand& end, const Band3& pull, double side) {
    if (!(end.radius_m > 0)) return;
    s.slides = true;
    s.gain_m = end.radius_m * end.turn;
    s.e = end.e;
    s.lever_N = cross(end.e, pull);
    s.move = end.radius_m * end.tangent;
    s.alone = hold(side * s.move, s.move, 0);
    s.couple_N_m = cross(s.move, pull);
  };
  slide(from, from_at, from_end.pull_N, -1);
  slide(to, to_at, to_end.pull_N, 1);
  // An end without a contact turns nothing.
  Band j[2][2] = {{1, 0}, {0, 1}};
  if (from.slides) j[0][0] = dot(from_end.pull_N, from_at.tangent) + dot(from.e, from.alone.from_pull_N);
  if (to.slides) j[1][1] = dot(to_end.pull_N, to_at.tangent) + dot(to.e, to.alone.to_pull_N);
  if (from.slides && to.slides) {
    j[0][1] = dot(from.e, to.alone.from_pull_N);
    j[1][0] = dot(to.e, from.alone.to_pull_N);
  }
  const Band per_det = Band(-1) / (j[0][0] * j[1][1] - j[0][1] * j[1][0]);
  turn[0][0] = j[1][1] * per_det;
  turn[1][1] = j[0][0] * per_det;
  turn[0][1] = -(j[0][1] * per_det);
  turn[1][0] = -(j[1][0] * per_det);
  // With the wrap: what leaves the leg lies on the sheave.
  const auto wrapped = [&](Slide& s, Band3& pull) {
    if (!s.slides) return;
    s.alone.length_m += s.gain_m;
    pull += Band3((-load_N_per_m * s.gain_m) * against_load);
  };
  wrapped(from, from.alone.from_pull_N);
  wrapped(to, to.alone.to_pull_N);
}

LegAnswer leg_answer(const EndBand& from, const EndBand& to, const Band3& span, Band mid_N, double w,
                     const LineAxes& axes) {
  LegAnswer a;
  a.leg = leg_between(into(axes, span), mid_N, w);
  if (!a.leg.hangs) return a;
  a.load_N_per_m = w;
  a.against_load = axes.z;
  const Band3 from_way = out_of(axes, a.leg.from_way), to_way = out_of(axes, a.leg.to_way);
  const Band half_weight_N = w / 2 * a.leg.rise_m;
  a.from_end = {from_way, mid_N * from_way, mid_N - half_weight_N};
  a.to_end = {to_way, mid_N * to_way, mid_N + half_weight_N};
  a.per_span = out_of(axes, a.leg.per_span);
  a.stiffness_N_per_m = out_of(axes, a.leg.stiffness_N_per_m);
  a.slide_on(from, to);
  a.hangs = a.turn[0][0].low <= a.turn[0][0].high && a.turn[1][1].low <= a.turn[1][1].high;
  return a;
}

LegReply LegAnswer::reply(const LegMotion& motion, Band tension_N) const {
  LegReply r;
  if (motion.moves) {
    r = hold(motion.span, motion.sum, tension_N);
  } else {
    r.mid_N = tension_N;
    r.length_m = leg.per_mid_m_per_N * tension_N;
    const Band3 mean = tension_N * per_span, weight = (load_N_per_m / 2 * r.length_m) * Band3(against_load);
    r.from_pull_N = mean - weight;
    r.to_pull_N = -mean - weight;
  }
  if (!from.slides && !to.slides) return r;
  Band miss[2] = {0, 0};
  if (from.slides)
    miss[0] = dot(from.e, r.from_pull_N) + (motion.from_turns ? dot(motion.from_turn, from.lever_N) : Band(0));
  if (to.slides) miss[1] = dot(to.e, r.to_pull_N) + (motion.to_turns ? dot(motion.to_turn, to.lever_N) : Band(0));
  r.from_turn_rad = turn[0][0] * miss[0] + turn[0][1] * miss[1];
  r.to_turn_rad = turn[1][0] * miss[0] + turn[1][1] * miss[1];
  if (from.slides) add(r, r.from_turn_rad, from.alone);
  if (to.slides) add(r, r.to_turn_rad, to.alone);
  return r;
}

}  // namespace fairlead::reeving
