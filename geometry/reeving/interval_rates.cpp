#include "geometry/reeving/interval_rates.hpp"

namespace fairlead::reeving {
namespace {

constexpr Vec3 unit_axes[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};

int count_unknowns(const Inputs& in, bool moving) {
  int n = moving ? 2 : 1;
  for (const Block& block : in.blocks) n += (block.shifts() ? 3 : 0) + block.turns();
  return n + static_cast<int>(in.lines.size());
}

}  // namespace

IntervalRates::IntervalRates(const Inputs& in, bool moving)
    : in_(in),
      moving_(moving),
      unknowns_(count_unknowns(in, moving)),
      system_(static_cast<std::size_t>(unknowns_)),
      length_(in.lines.size() * static_cast<std::size_t>(unknowns_ + 1)) {
  int next = extension() + 1;
  for (std::size_t b = 0; b < in.blocks.size(); ++b) {
    first_.push_back(next);
    next += freedoms(static_cast<Body>(b));
    hinge_.push_back({dot(in.blocks[b].hinge_axis, in.along), dot(in.blocks[b].hinge_axis, in.across),
                      dot(in.blocks[b].hinge_axis, in.up)});
  }
}

Vec3 IntervalRates::turn_axis(Body body, int turn) const {
  const auto b = static_cast<std::size_t>(body);
  return in_.blocks[b].joint == Joint::hinge ? hinge_[b] : unit_axes[turn];
}

IntervalRates::Columns IntervalRates::columns_of(Body body) const {
  if (body == on_ground) return {};
  if (body == on_trolley) return moving_ ? Columns{2, {0, unknowns_}} : Columns{1, {unknowns_}};
  Columns columns;
  while (columns.count < freedoms(body)) {
    columns.each[columns.count] = first_of(body) + columns.count;
    ++columns.count;
  }
  return columns;
}

Vec3 IntervalRates::turn_for(Body body, int column) const {
  const int i = body >= 0 ? column - first_of(body) : -1;
  return body >= 0 && i >= shifts(body) && i < freedoms(body) ? turn_axis(body, i - shifts(body)) : Vec3{};
}

Band3 IntervalRates::shift_for(Body body, int column, const Band3& arm) const {
  if (body == on_trolley) {
    if (column == unknowns_ && moving_) return unit_axes[0];
    return column == unknowns_ || (column == 0 && moving_) ? Band3(unit_axes[2]) : Band3();
  }
  const int i = body >= 0 ? column - first_of(body) : -1;
  if (i < 0 || i >= freedoms(body)) return {};
  return i < shifts(body) ? Band3(unit_axes[i]) : cross(Band3(turn_axis(body, i - shifts(body))), arm);
}

LegMotion IntervalRates::motion_for(const LegOver& leg, int column) const {
  LegMotion m;
  m.moves = true;
  const Vec3 turn = turn_for(leg.from_on, column), to_turn = turn_for(leg.to_on, column);
  const Band3 from = shift_for(leg.from_on, column, leg.from.arm), to = shift_for(leg.to_on, column, leg.to.arm);
  m.sum = from + to;
  if (leg.from_on >= 0 && leg.from_on == leg.to_on)
    m.span = cross(Band3(turn), leg.to.arm - leg.from.arm);
  else
    m.span = to - from;
  m.from_turn = turn;
  m.to_turn = to_turn;
  m.from_turns = !(turn == Vec3{});
  m.to_turns = !(to_turn == Vec3{});
  return m;
}

Band3 IntervalRates::shift_of(Body body, const Band3& arm, const BandRates& rates) const {
  if (body == on_ground) return {};
  if (body == on_trolley) return {Band(moving_ ? 1 : 0), Band(0), rates.height};
  const auto b = static_cast<std::size_t>(body);
  return rates.shift[b] + cross(rates.turn[b], arm);
}

LegMotion IntervalRates::motion_of(const LegOver& leg, const BandRates& rates) const {
  LegMotion m;
  m.moves = true;
  const auto turn = [&](Body body) { return body >= 0 ? rates.turn[static_cast<std::size_t>(body)] : Band3(); };
  const Band3 from = shift_of(leg.from_on, leg.from.arm, rates), to = shift_of(leg.to_on, leg.to.arm, rates);
  m.sum = from + to;
  m.from_turn = turn(leg.from_on);
  m.to_turn = turn(leg.to_on);
  m.from_turns = leg.from_on >= 0;
  m.to_turns = leg.to_on >= 0;
  m.span = m.from_turns && leg.from_on == leg.to_on ? cross(m.from_turn, leg.to.arm - leg.from.arm) : to - from;
  return m;
}

void IntervalRates::add(int first_row, int column, const Band3& v) {
  at(first_row, column) += v.x;
  at(first_row + 1, column) += v.y;
  at(first_row + 2, column) += v.z;
}

void IntervalRates::add_moment(Body body, int column, const Band3& moment_N_m) {
  for (int i = 0, row = first_of(body) + shifts(body); i < turns(body); ++i)
    at(row + i, column) += dot(turn_axis(body, i), moment_N_m);
}

template <class Use>
void IntervalRates::each_raised(const LegOver& leg, Use use) const {
  const Line& line = in_.lines[static_cast<std::size_t>(leg.line)];
  for (int j = 0; j < line.sheaves; ++j)
    if (leg.level.raised_N_per_m[static_cast<std::size_t>(j)] != 0)
      use(j, in_.sheaves[static_cast<std::size_t>(line.first_sheave + j)].body);
}

/// What sheaves that move do to the tension of a leg on their `from` side, with friction.
void IntervalRates::add_raised(const LegOver& leg, const WheelResponse<Band>& wheel, const IntervalLegs& legs,
                               Box& box) {
  const Line& line = in_.lines[static_cast<std::size_t>(leg.line)];
  each_raised(leg, [&](int j, Body body) {
    const Columns columns = columns_of(body);
    for (int i = 0; i < columns.count; ++i) {
      const Band3 shift = shift_for(body, columns.each[i], legs.centre(line.first_sheave + j).arm);
      const Band change_N = leg.level.raised_N_per_m[static_cast<std::size_t>(j)] * dot(leg.answer.against_load, shift);
      add_column(leg, columns.each[i], {}, change_N, wheel, legs, box);
    }
  });
}

Band IntervalRates::tension_rate(const LegOver& leg, const IntervalLegs& legs, const BandRates& rates) const {
  const auto l = static_cast<std::size_t>(leg.line);
  Band rate = leg.level.carried * rates.tension_N[l];
  each_raised(leg, [&](int j, Body body) {
    const Band3 shift = shift_of(body, legs.centre(in_.lines[l].first_sheave + j).arm, rates);
    rate += leg.level.raised_N_per_m[static_cast<std::size_t>(j)] * dot(leg.answer.against_load, shift);
  });
  return rate;
}

/// What a leg adds to all rows for a unit of one unknown.
void IntervalRates::add_column(const LegOver& leg, int column, const LegMotion& motion, Band tension_N,
                               const WheelResponse<Band>& wheel, const IntervalLegs& legs, Box& box) {
  const LegAnswer& answer = leg.answer;
  const LegReply r = answer.reply(motion, tension_N);
  const auto l = static_cast<std::size_t>(leg.line);
  const double c = in_.lines[l].compliance_per_N;
  if (c > 0) {
    // Legs stretch by their mean tension, wraps by the tension at their sheaves' centres.
    const Band from_gain_m = answer.from.gain_m * r.from_turn_rad, to_gain_m = answer.to.gain_m * r.to_turn_rad;
    const auto unstretched = [&](const LegOver& on, const LegOver& off, int sheave) {
      return Band(1) - c * legs.wrap_tension_N(on, off, sheave, box);
    };
    length(l, column) +=
        (r.length_m - from_gain_m - to_gain_m) * (Band(1) - c * answer.leg.mid_N) - c * (answer.leg.length_m * r.mid_N);
    if (answer.from.slides) length(l, column) += from_gain_m * unstretched(*(&leg - 1), leg, leg.from_sheave);
    if (answer.to.slides) length(l, column) += to_gain_m * unstretched(leg, *(&leg + 1), leg.to_sheave);
  } else {
    length(l, column) += r.length_m;
  }
  if (leg.from_on == on_trolley && moving_) at(0, column) += wheel.dz_dW_m_per_N * r.from_pull_N.z;
  const auto load_body = [&](Body body, const EndBand& end, const Band3& change, const Band3& pull, Vec3 turned,
                             const LegAnswer::Slide& slide, Band slide_rad) {
    if (body < 0) return;
    if (shifts(body) > 0) add(first_of(body), column, change);
    if (turns(body) == 0) return;
    Band3 moment = cross(end.arm, change) + cross(cross(Band3(turned), end.arm), pull);
    if (slide.slides) moment += slide_rad * slide.couple_N_m;
    add_moment(body, column, moment);
  };
  const auto turn = [&](Body body) { return motion.moves ? turn_for(body, column) : Vec3{}; };
  load_body(leg.from_on, leg.from, r.from_pull_N, answer.from_end.pull_N, turn(leg.from_on), answer.from,
            r.from_turn_rad);
  load_body(leg.to_on, leg.to, r.to_pull_N, answer.to_end.pull_N, turn(leg.to_on), answer.to, r.to_turn_rad);
}

/// Stretch of the wraps, and the moment of their loads on blocks that turn. What a wrap gains is the legs'.
void IntervalRates::add_wraps(const IntervalLegs& legs, Box& box) {
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const LegOver& leg = legs.leg(i);
    if (leg.to_sheave < 0) continue;
    const Sheave& sheave = in_.sheaves[static_cast<std::size_t>(leg.to_sheave)];
    const auto l = static_cast<std::size_t>(leg.line);
    const double c = in_.lines[l].compliance_per_N, w = leg.answer.load_N_per_m;
    if (sheave.radius_m == 0) continue;
    const Vec3 k = leg.answer.against_load;
    const Band wrap_m = sheave.radius_m * legs.wrap_rad(leg.to_sheave, box);
    const Level &on = leg.level, &off = legs.leg(i + 1).level;
    length(l, tension_of(l)) += -(c * ((on.carried + off.carried) / 2) * wrap_m);
    each_raised(leg, [&](int j, Body body) {
      const auto n = static_cast<std::size_t>(j);
      const double raised = (on.raised_N_per_m[n] + off.raised_N_per_m[n]) / 2;
      const Columns moved = columns_of(body);
      for (int i_column = 0; i_column < moved.count; ++i_column) {
        const int column = moved.each[i_column];
        const Band3 shift = shift_for(body, column, legs.centre(in_.lines[l].first_sheave + j).arm);
        length(l, column) += -(c * raised * (dot(k, shift) * wrap_m));
      }
    });
    const Band3& arm = legs.centre(leg.to_sheave).arm;
    // The integral of the arm along the arc; that of e over the angle is what axle x e loses.
    const double r2 = sheave.sense * sheave.radius_m * sheave.radius_m;
    const Band3 arc_m2 = wrap_m * arm + r2 * (leg.to.tangent - legs.leg(i + 1).from.tangent);
    const Columns columns = columns_of(sheave.body);
    for (int j = 0; j < columns.count; ++j) {
      const int column = columns.each[j];
      length(l, column) += -(c * w * (dot(k, shift_for(sheave.body, column, arm)) * wrap_m));
      const Vec3 turn = turn_for(sheave.body, column);
      if (turn == Vec3{}) continue;
      add_moment(sheave.body, column, cross(cross(Band3(turn), arc_m2), Band3(-w * k)));
    }
  }
}

void IntervalRates::add_weights(const IntervalLegs& legs, Box& box) {
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const auto body = static_cast<Body>(b);
    if (turns(body) == 0) continue;
    const Band3 arm = legs.turned(b, legs.first_arm(b), box), weight(Vec3{0, 0, -in_.blocks[b].weight_N});
    for (int i = 0; i < turns(body); ++i)
      add_moment(body, first_[b] + shifts(body) + i, cross(cross(Band3(turn_axis(body, i)), arm), weight));
  }
}

void IntervalRates::close(Band slope) {
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const int row = tension_of(l);
    if (in_.lines[l].closing == Closing::unit) {
      at(row, row) = 1;
      at(row, extension()) = -slope;
    } else {
      for (int column = 0; column <= unknowns_; ++column) at(row, column) = length(l, column);
    }
  }
  for (int column = 0; column <= unknowns_; ++column)
    at(extension(), column) = -length(static_cast<std::size_t>(in_.braking), column);
  at(extension(), extension()) += 1;
}

bool IntervalRates::solve(const IntervalLegs& legs, Box& box, const WheelResponse<Band>& wheel, Band slope,
                          BandRates& rates) {
  system_.clear();
  std::fill(length_.begin(), length_.end(), Band(0));
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const LegOver& leg = legs.leg(i);
    add_column(leg, tension_of(static_cast<std::size_t>(leg.line)), {}, leg.level.carried, wheel, legs, box);
    add_raised(leg, wheel, legs, box);
    for (const Body body : {leg.from_on, leg.to_on}) {
      const Columns columns = columns_of(body);
      for (int j = 0; j < columns.count; ++j)
        add_column(leg, columns.each[j], motion_for(leg, columns.each[j]), 0, wheel, legs, box);
      if (leg.from_on == leg.to_on) break;
    }
  }
  add_wraps(legs, box);
  add_weights(legs, box);
  if (moving_) {
    at(0, 0) += 1;
    at(0, unknowns_) += -wheel.dz_dx;
  }
  close(slope);
  if (!system_.solve(solved_)) return false;
  const auto of = [&](int column) { return solved_[static_cast<std::size_t>(column)]; };
  rates.height = moving_ ? of(0) : Band(1);
  rates.extension = of(extension());
  rates.shift.resize(in_.blocks.size());
  rates.turn.assign(in_.blocks.size(), Band3());
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const auto body = static_cast<Body>(b);
    int i = first_[b];
    rates.shift[b] = {};
    if (shifts(body) > 0) {
      rates.shift[b] = {of(i), of(i + 1), of(i + 2)};
      i += 3;
    }
    for (int turn = 0; turn < turns(body); ++turn) rates.turn[b] += of(i + turn) * Band3(turn_axis(body, turn));
  }
  rates.tension_N.resize(in_.lines.size());
  for (std::size_t l = 0; l < in_.lines.size(); ++l) rates.tension_N[l] = of(tension_of(l));
  return true;
}

}  // namespace fairlead::reeving
