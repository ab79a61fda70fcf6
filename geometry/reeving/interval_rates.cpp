#include "geometry/reeving/interval_rates.hpp"

namespace fairlead::reeving {
namespace {

constexpr Vec3 axes[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};

int count_unknowns(const Inputs& in, bool moving) {
  int n = moving ? 1 : 0;
  for (const Block& block : in.blocks) n += block.attitude_held ? 3 : 6;
  return n + static_cast<int>(in.lines.size());
}

}  // namespace

IntervalRates::IntervalRates(const Inputs& in, bool moving)
    : in_(in),
      moving_(moving),
      unknowns_(count_unknowns(in, moving)),
      system_(static_cast<std::size_t>(unknowns_)),
      length_(in.lines.size() * static_cast<std::size_t>(unknowns_ + 1)) {
  int next = moving ? 1 : 0;
  for (std::size_t b = 0; b < in.blocks.size(); ++b) {
    first_.push_back(next);
    next += freedoms(static_cast<Body>(b));
  }
}

/// The columns a body moves in; the last column of all is the travel, or upstream the trolley's height.
std::vector<int> IntervalRates::columns_of(Body body) const {
  if (body == on_ground) return {};
  if (body == on_trolley) return moving_ ? std::vector<int>{0, unknowns_} : std::vector<int>{unknowns_};
  std::vector<int> columns;
  for (int i = 0; i < freedoms(body); ++i) columns.push_back(first_of(body) + i);
  return columns;
}

EndMotion IntervalRates::unit_motion(Body body, const EndBand& end, int column) const {
  EndMotion motion;
  motion.moves = true;
  if (body == on_trolley) {
    motion.shift = column == 0 || !moving_ ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
    return motion;
  }
  const int i = column - first_of(body);
  if (i < 3) {
    motion.shift = axes[i];
  } else {
    motion.turn = axes[i - 3];
    motion.turns = true;
    motion.shift = cross(motion.turn, end.arm);
  }
  return motion;
}

void IntervalRates::add_force(Body body, int column, const EndBand& end, const Band3& change, const Band3& force,
                              const EndMotion& own, bool is_own, const LegAnswer::Slide& slide, Band turn) {
  const auto row = static_cast<std::size_t>(first_of(body)), c = static_cast<std::size_t>(column);
  system_.at(row, c) += change.x;
  system_.at(row + 1, c) += change.y;
  system_.at(row + 2, c) += change.z;
  if (freedoms(body) == 3) return;
  Band3 moment = cross(end.arm, change);
  if (is_own && own.turns) moment += cross(cross(own.turn, end.arm), force);
  if (slide.slides) moment += turn * slide.couple_N_m;
  system_.at(row + 3, c) += moment.x;
  system_.at(row + 4, c) += moment.y;
  system_.at(row + 5, c) += moment.z;
}

void IntervalRates::add_column(const LegOver& leg, int column, const EndMotion& from, const EndMotion& to,
                               double newton, const WheelOver& wheel, IntervalLegs& legs, Box& box) {
  const LegReply r = leg.answer.reply(from, to, newton);
  const auto l = static_cast<std::size_t>(leg.line);
  const double c = in_.lines[l].compliance_per_N, w = leg.answer.load_N_per_m;
  const Vec3 k = leg.answer.against_load;
  const Band from_gain = leg.answer.from.slides ? leg.answer.from.gain_m * r.from_turn_rad : Band(0),
             to_gain = leg.answer.to.slides ? leg.answer.to.gain_m * r.to_turn_rad : Band(0);
  if (c > 0) {
    // Leg by its mean tension, wraps by the tension at their sheaves' centres.
    Band3 ends;
    if (from.moves) ends += from.shift;
    if (to.moves) ends += to.shift;
    if (leg.answer.from.slides) ends += r.from_turn_rad * leg.answer.from.move;
    if (leg.answer.to.slides) ends += r.to_turn_rad * leg.answer.to.move;
    const Band mid_rate = newton + (w / 2) * dot(k, ends);
    Band own = (r.length_m - from_gain - to_gain) * (Band(1) - c * leg.answer.leg.mid_N) -
               c * (leg.answer.leg.length_m * mid_rate);
    const auto wrap_share = [&](int sheave) {
      const Band3 centre = legs.centre(static_cast<std::size_t>(sheave)) - Band3(legs.datum(l));
      return Band(1) - c * (box.tension_N(l) + w * dot(k, centre));
    };
    if (leg.from_sheave >= 0) own += from_gain * wrap_share(leg.from_sheave);
    if (leg.to_sheave >= 0) own += to_gain * wrap_share(leg.to_sheave);
    length(leg.line, column) += own;
  } else {
    length(leg.line, column) += r.length_m;
  }
  if (leg.from_on == on_trolley && moving_)
    system_.at(0, static_cast<std::size_t>(column)) += wheel.dz_dW_m_per_N * r.from_pull_N.z;
  const auto own_column = [&](Body b) { return b >= 0 && column >= first_of(b) && column < first_of(b) + freedoms(b); };
  if (leg.from_on >= 0)
    add_force(leg.from_on, column, leg.from, r.from_pull_N, leg.answer.from_pull_N, from, own_column(leg.from_on),
              leg.answer.from, r.from_turn_rad);
  if (leg.to_on >= 0)
    add_force(leg.to_on, column, leg.to, r.to_pull_N, leg.answer.to_pull_N, to, own_column(leg.to_on), leg.answer.to,
              r.to_turn_rad);
}

void IntervalRates::add_leg(const LegOver& leg, IntervalLegs& legs, Box& box, const WheelOver& wheel) {
  add_column(leg, tension_of(leg.line), {}, {}, 1, wheel, legs, box);
  const bool together = leg.from_on == leg.to_on;
  for (const int column : columns_of(leg.from_on))
    add_column(leg, column, unit_motion(leg.from_on, leg.from, column),
               together ? unit_motion(leg.to_on, leg.to, column) : EndMotion{}, 0, wheel, legs, box);
  if (together) return;
  for (const int column : columns_of(leg.to_on))
    add_column(leg, column, {}, unit_motion(leg.to_on, leg.to, column), 0, wheel, legs, box);
}

/// Stretch of the wraps, and the moment of their loads on blocks that turn.
void IntervalRates::add_wraps(IntervalLegs& legs, Box& box) {
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const LegOver& leg = legs.leg(i);
    if (leg.to_sheave < 0) continue;
    const auto s = static_cast<std::size_t>(leg.to_sheave);
    const Sheave& sheave = in_.sheaves[s];
    if (sheave.radius_m == 0) continue;
    const double c = in_.lines[static_cast<std::size_t>(leg.line)].compliance_per_N, w = leg.answer.load_N_per_m;
    const Vec3 k = leg.answer.against_load;
    const Band wrap_m = sheave.radius_m * legs.wrap_rad(s, box);
    length(leg.line, tension_of(leg.line)) += -(c * wrap_m);
    if (sheave.body < 0) continue;
    const Band3 centre_arm = legs.centre(s) - legs.point_of(static_cast<std::size_t>(sheave.body), box);
    const int row = first_of(sheave.body);
    for (int i3 = 0; i3 < 3; ++i3) length(leg.line, row + i3) += -(c * w * dot(k, axes[i3]) * wrap_m);
    if (freedoms(sheave.body) == 3) continue;
    // The wrap's load acts within a radius of the sheave's centre; its gains were put at the contacts, up to two radii
    // from there.
    const double radius_m = sheave.radius_m, load_N = w * wrap_m.greatest_size();
    const Band3 load = -(w * wrap_m) * Band3(k);
    for (int i3 = 0; i3 < 3; ++i3) {
      length(leg.line, row + 3 + i3) += -(c * w * (dot(k, cross(Band3(axes[i3]), centre_arm)) * wrap_m));
      const Band3 moment = wider(cross(cross(Band3(axes[i3]), centre_arm), load), radius_m * load_N);
      for (int j = 0; j < 3; ++j)
        system_.at(static_cast<std::size_t>(row + 3 + j), static_cast<std::size_t>(row + 3 + i3)) += j == 0 ? moment.x
                                                                                                     : j == 1
                                                                                                         ? moment.y
                                                                                                         : moment.z;
    }
  }
}

void IntervalRates::add_weights(IntervalLegs& legs, Box& box) {
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    if (in_.blocks[b].attitude_held) continue;
    const Band3 arm = legs.turned(b, legs.first_arm(b), box), weight(Vec3{0, 0, -in_.blocks[b].weight_N});
    const auto row = static_cast<std::size_t>(first_[b] + 3);
    for (std::size_t i = 0; i < 3; ++i) {
      const Band3 moment = cross(cross(Band3(axes[i]), arm), weight);
      system_.at(row, row + i) += moment.x;
      system_.at(row + 1, row + i) += moment.y;
      system_.at(row + 2, row + i) += moment.z;
    }
  }
}

void IntervalRates::close(Band slope) {
  for (std::size_t l = 0; l < in_.lines.size(); ++l) {
    const int line = static_cast<int>(l), own = tension_of(line);
    const auto row = static_cast<std::size_t>(own);
    const bool by_unit = in_.lines[l].closing == Closing::unit;
    for (int column = 0; column <= unknowns_; ++column)
      system_.at(row, static_cast<std::size_t>(column)) =
          by_unit ? -(slope * length(line, column)) : length(line, column);
    if (by_unit) system_.at(row, row) += 1;
  }
}

bool IntervalRates::solve(IntervalLegs& legs, Box& box, const WheelOver& wheel, Band slope, BandRates& rates) {
  system_.clear();
  std::fill(length_.begin(), length_.end(), Band(0));
  for (std::size_t i = 0; i < legs.size(); ++i) add_leg(legs.leg(i), legs, box, wheel);
  add_wraps(legs, box);
  add_weights(legs, box);
  if (moving_) {
    system_.at(0, 0) += 1;
    system_.at(0, static_cast<std::size_t>(unknowns_)) += -wheel.dz_dx;
  }
  close(slope);
  if (!system_.solve(solved_)) return false;
  rates.height = moving_ ? solved_[0] : Band(1);
  rates.shift.resize(in_.blocks.size());
  rates.turn.assign(in_.blocks.size(), Band3(Vec3{}));
  for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
    const auto at = [&](int i) { return solved_[static_cast<std::size_t>(first_[b] + i)]; };
    rates.shift[b] = {at(0), at(1), at(2)};
    if (freedoms(static_cast<Body>(b)) == 6) rates.turn[b] = {at(3), at(4), at(5)};
  }
  rates.tension_N.resize(in_.lines.size());
  for (std::size_t l = 0; l < in_.lines.size(); ++l)
    rates.tension_N[l] = solved_[static_cast<std::size_t>(tension_of(static_cast<int>(l)))];
  rates.extension = length(in_.braking, unknowns_);
  for (int column = 0; column < unknowns_; ++column)
    rates.extension += length(in_.braking, column) * solved_[static_cast<std::size_t>(column)];
  return true;
}

EndMotion IntervalRates::motion_of(Body body, const EndBand& end, const BandRates& rates) const {
  EndMotion motion;
  motion.moves = body != on_ground;
  if (body == on_trolley) motion.shift = {Band(moving_ ? 1 : 0), Band(0), rates.height};
  if (body < 0) return motion;
  const auto b = static_cast<std::size_t>(body);
  motion.shift = rates.shift[b];
  if (freedoms(body) == 3) return motion;
  motion.turns = true;
  motion.turn = rates.turn[b];
  motion.shift += cross(motion.turn, end.arm);
  return motion;
}

}  // namespace fairlead::reeving
