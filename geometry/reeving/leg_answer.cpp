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
BandMatrix operator+(const BandMatrix& a, const BandMatrix& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
BandMatrix operator-(const BandMatrix& a, const BandMatrix& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
BandMatrix transposed(const BandMatrix& m) {
  return {{m.x.x, m.y.x, m.z.x}, {m.x.y, m.y.y, m.z.y}, {m.x.z, m.y.z, m.z.z}};
}
/// k v'.
BandMatrix product(Vec3 k, const Band3& v) { return {k.x * v, k.y * v, k.z * v}; }

/// The two contacts' turns that undo their residuals; NaN where they may not exist.
void undo(LegAnswer& a, const EndBand& from, const EndBand& to) {
  // An end without a contact turns nothing.
  Band j[2][2] = {{1, 0}, {0, 1}};
  if (a.from.slides) j[0][0] = dot(a.from_pull_N, from.tangent) + dot(from.e, a.from_from * a.from.move);
  if (a.to.slides) j[1][1] = dot(a.to_pull_N, to.tangent) + dot(to.e, a.to_to * a.to.move);
  if (a.from.slides && a.to.slides) {
    j[0][1] = dot(from.e, a.from_to * a.to.move);
    j[1][0] = dot(to.e, a.to_from * a.from.move);
  }
  const Band per_det = Band(-1) / (j[0][0] * j[1][1] - j[0][1] * j[1][0]);
  a.turn[0][0] = j[1][1] * per_det;
  a.turn[1][1] = j[0][0] * per_det;
  a.turn[0][1] = -(j[0][1] * per_det);
  a.turn[1][0] = -(j[1][0] * per_det);
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

LegAnswer leg_answer(const EndBand& from, const EndBand& to, Band mid_N, double w, const LineAxes& axes) {
  LegAnswer a;
  a.leg = leg_between(into(axes, to.at - from.at), mid_N, w);
  if (!a.leg.hangs) return a;
  const Vec3 k = axes.z;
  const double half = w / 2;
  a.load_N_per_m = w;
  a.against_load = k;
  const Band3 from_way = out_of(axes, a.leg.from_way), to_way = out_of(axes, a.leg.to_way);
  a.from_pull_N = mid_N * from_way;
  a.to_pull_N = mid_N * to_way;
  a.from_unit = direction_of(from_way);
  a.to_unit = direction_of(to_way);

  const Band3 per_span = out_of(axes, a.leg.per_span);
  const Band m = half * a.leg.per_mid_m_per_N;
  a.per_N = a.leg.per_mid_m_per_N;
  a.per_from = -per_span + m * Band3(k);
  a.per_to = per_span + m * Band3(k);
  const BandMatrix G = out_of(axes, a.leg.stiffness_N_per_m), tighter = product(k, (half * m) * Band3(k)),
                   raised = product(k, half * per_span), lowered = transposed(raised);
  const BandMatrix none{};
  const BandMatrix stiff = none - G - tighter, shear = lowered - raised;
  a.from_from = stiff + (raised + lowered);
  a.to_to = stiff - (raised + lowered);
  a.from_to = G - tighter + shear;
  a.to_from = transposed(a.from_to);

  const auto slide = [&](const EndBand& end, const Band3& pull, const Band3& per_end, const BandMatrix& on_from,
                         const BandMatrix& on_to, bool first) {
    LegAnswer::Slide s;
    if (!(end.radius_m > 0)) return s;
    s.slides = true;
    s.gain_m = end.radius_m * end.turn;
    s.e = end.e;
    s.lever_N = cross(end.e, pull);
    s.move = end.radius_m * end.tangent;
    s.length_m = dot(per_end, s.move) + s.gain_m;
    s.from_pull_N = on_from * s.move;
    s.to_pull_N = on_to * s.move;
    (first ? s.from_pull_N : s.to_pull_N) += Band3((-w * s.gain_m) * k);
    s.couple_N_m = cross(s.move, pull);
    return s;
  };
  a.from = slide(from, a.from_pull_N, a.per_from, a.from_from, a.to_from, true);
  a.to = slide(to, a.to_pull_N, a.per_to, a.from_to, a.to_to, false);
  undo(a, from, to);
  a.hangs = a.turn[0][0].low <= a.turn[0][0].high && a.turn[1][1].low <= a.turn[1][1].high;
  return a;
}

LegReply LegAnswer::reply(const EndMotion& A, const EndMotion& B, Band tension_N) const {
  LegReply r;
  r.length_m = per_N * tension_N;
  r.from_pull_N = -(tension_N * per_from);
  r.to_pull_N = -(tension_N * per_to);
  if (A.moves) {
    r.length_m += dot(per_from, A.shift);
    r.from_pull_N += from_from * A.shift;
    r.to_pull_N += to_from * A.shift;
  }
  if (B.moves) {
    r.length_m += dot(per_to, B.shift);
    r.from_pull_N += from_to * B.shift;
    r.to_pull_N += to_to * B.shift;
  }
  if (!from.slides && !to.slides) return r;
  Band miss[2] = {0, 0};
  if (from.slides) miss[0] = dot(from.e, r.from_pull_N) + (A.turns ? dot(A.turn, from.lever_N) : Band(0));
  if (to.slides) miss[1] = dot(to.e, r.to_pull_N) + (B.turns ? dot(B.turn, to.lever_N) : Band(0));
  r.from_turn_rad = turn[0][0] * miss[0] + turn[0][1] * miss[1];
  r.to_turn_rad = turn[1][0] * miss[0] + turn[1][1] * miss[1];
  for (const auto& [s, angle] : {std::pair<const Slide&, Band>{from, r.from_turn_rad}, {to, r.to_turn_rad}}) {
    if (!s.slides) continue;
    r.length_m += s.length_m * angle;
    r.from_pull_N += angle * s.from_pull_N;
    r.to_pull_N += angle * s.to_pull_N;
  }
  return r;
}

}  // namespace fairlead::reeving
