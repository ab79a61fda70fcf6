#include "geometry/clearance/plan.hpp"

#include "geometry/clearance/scanned.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::clearance {
namespace {

using Kind = Thing::Kind;

/// What a leg's end is on.
struct Hold {
  int sheave = -1;  ///< -1: a line's own end
  reeving::Body body{};
  Point3 at;  ///< the end, or the sheave's centre; of a block's as drawn
};

struct Leg {
  int line{}, nth{}, index{};
  double radius_m{};
  Hold from, to;
  bool on(int sheave) const { return from.sheave == sheave || to.sheave == sheave; }
  bool on_body(reeving::Body body) const { return from.body == body || to.body == body; }
};

bool lies_in(Point3 p, const Shape& shape, double within_m) {
  return nearest(Segment{p, p}, shape).distance_m <= within_m;
}

/// The box about a sheave's cylinder.
Box box_around(const reeving::Sheave& sheave, const SheaveBody& body) {
  const Vec3 aside = std::abs(sheave.axle.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  const Vec3 y = unit(cross(aside, sheave.axle));
  return {
      sheave.centre, sheave.axle, y, cross(sheave.axle, y), {body.width_m / 2, body.rim_radius_m, body.rim_radius_m}};
}

class Planner {
 public:
  Planner(const Inputs& in, const reeving::Inputs& rig) : in_(in), rig_(rig) {
    for (int l = 0; l < static_cast<int>(rig.lines.size()); ++l)
      for (int k = 0; k <= line(l).sheaves; ++k) legs_.push_back(leg(l, k));
    for (int s = 0; s < static_cast<int>(rig.sheaves.size()); ++s) {
      const reeving::Sheave& sheave = rig.sheaves[static_cast<std::size_t>(s)];
      if (stands_on_anchor(rig, sheave)) standing_.push_back(s);
    }
  }

  Plan plan() {
    if (in_.rider) rider();
    for (int l = 0; l < static_cast<int>(rig_.lines.size()); ++l) of_line(l);
    for (int b = 0; b < static_cast<int>(rig_.blocks.size()); ++b)
      if (box(b)) of_block(b);
    main_line();
    return std::move(plan_);
  }

 private:
  const reeving::Line& line(int l) const { return rig_.lines[static_cast<std::size_t>(l)]; }
  const std::optional<Box>& box(int b) const { return in_.blocks[static_cast<std::size_t>(b)]; }
  const SheaveBody& body(int s) const { return in_.sheaves[static_cast<std::size_t>(s)]; }
  const reeving::Sheave& sheave(int s) const { return rig_.sheaves[static_cast<std::size_t>(s)]; }
  BlockBox block_box(int b) const { return {b, *box(b)}; }
  /// A shape that is part of a sheave on an anchor: it stands, or goes along with the sheave's mount.
  Recipe part_of(int s, const Box& drawn) const {
    return sheave(s).body < 0 ? Recipe{Shape{drawn}} : Recipe{BlockBox{sheave(s).body, drawn}};
  }

  Leg leg(int l, int nth) const {
    const auto over = [&](int s) { return Hold{s, sheave(s).body, sheave(s).centre}; };
    const auto end = [&](const reeving::End& e) { return Hold{-1, e.body, e.at}; };
    const reeving::Line& of = line(l);
    return {l,
            nth,
            static_cast<int>(rig_.legs_before(static_cast<std::size_t>(l))) + nth,
            of.diameter_m / 2,
            nth == 0 ? end(of.from) : over(of.first_sheave + nth - 1),
            nth == of.sheaves ? end(of.to) : over(of.first_sheave + nth)};
  }

  int mover(const Recipe& recipe) {
    const auto found = std::find(plan_.movers.begin(), plan_.movers.end(), recipe);
    if (found == plan_.movers.end()) plan_.movers.push_back(recipe);
    return static_cast<int>(std::find(plan_.movers.begin(), plan_.movers.end(), recipe) - plan_.movers.begin());
  }

  void meet(Pair& pair, const Recipe& a, const Recipe& b) { pair.meetings.push_back({mover(a), mover(b)}); }
  void keep(Pair pair) {
    if (!pair.meetings.empty()) plan_.pairs.push_back(std::move(pair));
  }
  void leave_out(const Exclusion& what) {
    if (std::find(plan_.excluded.begin(), plan_.excluded.end(), what) == plan_.excluded.end())
      plan_.excluded.push_back(what);
  }

  template <class Use>
  void for_legs_of(int l, Use use) const {
    for (const Leg& each : legs_)
      if (each.line == l) use(each);
  }

  // The rider: nothing is left out for being near anything.

  void rider() {
    const Thing rider{Kind::rider, 0};
    leave_out({rider, {Kind::main_line, 0}, Why::rides_on_it});
    for (int l = 0; l < static_cast<int>(rig_.lines.size()); ++l) {
      Pair pair{rider, {Kind::line, l}, {}};
      for_legs_of(l, [&](const Leg& each) {
        Stretch stretch{each.index};
        if (each.from.sheave < 0 && each.from.body == reeving::on_trolley && in_.hands_m > 0) {
          plan_.hands = Pair{rider, {Kind::hands, 0}, {}};
          meet(*plan_.hands, RiderBox{}, Stretch{.leg = each.index, .keep_m = in_.hands_m});
          leave_out({rider, pair.b, Why::judged_as_hands, -1, each.nth, in_.hands_m});
          stretch.skip_from_m = in_.hands_m;
        }
        meet(pair, SwingingRider{}, stretch);
      });
      keep(std::move(pair));
    }
    for (int b = 0; b < static_cast<int>(rig_.blocks.size()); ++b)
      if (box(b)) keep({rider, {Kind::block, b}, {{mover(SwingingRider{}), mover(block_box(b))}}, false});
    for_standing([&](Thing thing, const Recipe& recipe, const Shape&) {
      keep({rider, thing, {{mover(SwingingRider{}), mover(recipe)}}, false});
    });
    against_structures(rider, &Structure::rider, SwingingRider{}, true);
  }

  /// Sheaves on anchors, their frames and the unit: what they are in a passage, and as drawn.
  template <class Use>
  void for_standing(Use use) const {
    for (const int s : standing_) {
      const Shape drawn = post_of(sheave(s), body(s));
      const Recipe recipe = sheave(s).body < 0 ? Recipe{drawn} : part_of(s, box_around(sheave(s), body(s)));
      use(Thing{Kind::sheave, s}, recipe, drawn);
    }
    for (const int s : standing_)
      if (const auto& frame = body(s).frame) use(Thing{Kind::frame, s}, part_of(s, *frame), Shape{*frame});
    if (in_.unit) use(Thing{Kind::unit, 0}, Recipe{Shape{*in_.unit}}, Shape{*in_.unit});
  }

  static Recipe recipe_of(const Structure& structure) {
    return structure.scan ? Recipe{structure.scan} : Recipe{structure.shape};
  }

  void against_structures(Thing thing, bool Structure::*asked, const Recipe& recipe, bool spans = false) {
    for (int i = 0; i < static_cast<int>(in_.structures.size()); ++i) {
      const Structure& structure = in_.structures[static_cast<std::size_t>(i)];
      const Thing other{Kind::structure, i};
      if (structure.*asked)
        keep({thing, other, {{mover(recipe), mover(recipe_of(structure))}}, spans});
      else
        leave_out({thing, other, Why::let_touch});
    }
  }

  // Lines.

  void of_line(int l) {
    for (int other = l; other < static_cast<int>(rig_.lines.size()); ++other) line_line(l, other);
    line_main_line(l);
    for (int b = 0; b < static_cast<int>(rig_.blocks.size()); ++b)
      if (box(b)) line_block(l, b);
    for_standing(
        [&](Thing thing, const Recipe& recipe, const Shape& drawn) { line_standing(l, thing, recipe, drawn); });
    for (int i = 0; i < static_cast<int>(in_.structures.size()); ++i) {
      const Structure& structure = in_.structures[static_cast<std::size_t>(i)];
      const Thing one{Kind::line, l}, other{Kind::structure, i};
      if (!structure.lines) {
        leave_out({one, other, Why::let_touch});
        continue;
      }
      Pair pair{one, other, {}};
      for_legs_of(l, [&](const Leg& each) { meet(pair, short_of_ties(each, other, structure), recipe_of(structure)); });
      keep(std::move(pair));
    }
  }

  void line_line(int l, int other) {
    Pair pair{{Kind::line, l}, {Kind::line, other}, {}};
    for_legs_of(l, [&](const Leg& a) {
      for_legs_of(other, [&](const Leg& b) {
        if (l == other && b.nth <= a.nth) return;
        Stretch of_a{a.index}, of_b{b.index};
        const auto ends = [&](const Hold& one, double& skip_one, const Hold& two, double& skip_two) {
          const std::optional<Why> why = meeting(one, a.radius_m, two, b.radius_m);
          if (!why) return;
          skip_one = skip_two = in_.meeting_m;
          leave_out({pair.a, pair.b, *why, a.nth, b.nth, in_.meeting_m});
        };
        ends(a.from, of_a.skip_from_m, b.from, of_b.skip_from_m);
        ends(a.from, of_a.skip_from_m, b.to, of_b.skip_to_m);
        ends(a.to, of_a.skip_to_m, b.from, of_b.skip_from_m);
        ends(a.to, of_a.skip_to_m, b.to, of_b.skip_to_m);
        meet(pair, of_a, of_b);
      });
    });
    keep(std::move(pair));
  }

  /// Whether two ends of legs are near each other by what they are on. Ends tied to one place touch there.
  static std::optional<Why> meeting(const Hold& a, double a_radius_m, const Hold& b, double b_radius_m) {
    if (a.sheave >= 0 && a.sheave == b.sheave) return Why::meet_at_sheave;
    if (a.body >= 0 && a.body == b.body) return Why::meet_at_block;
    const bool tied = a.sheave < 0 && b.sheave < 0 && a.body == reeving::on_ground && b.body == reeving::on_ground;
    if (tied && norm(a.at - b.at) <= a_radius_m + b_radius_m) return Why::meet_at_end;
    return std::nullopt;
  }

  void line_main_line(int l) {
    const mainline::Cable& cable = rig_.reference.cable;
    const Hold start{-1, reeving::on_ground, rig_.origin},
        end{-1, reeving::on_ground, rig_.origin + cable.span_m * rig_.along + cable.rise_m * rig_.up};
    Pair pair{{Kind::line, l}, {Kind::main_line, 0}, {}};
    for_legs_of(l, [&](const Leg& each) {
      Stretch stretch{each.index};
      const auto skip = [&](const Hold& hold, double& skip_m) {
        const bool on_trolley = hold.sheave < 0 && hold.body == reeving::on_trolley;
        const bool tied = meeting(hold, each.radius_m, start, in_.main_line_radius_m) ||
                          meeting(hold, each.radius_m, end, in_.main_line_radius_m);
        if (!on_trolley && !tied) return;
        skip_m = in_.meeting_m;
        leave_out({pair.a, pair.b, on_trolley ? Why::own_trolley : Why::meet_at_end, each.nth, -1, in_.meeting_m});
      };
      skip(each.from, stretch.skip_from_m);
      skip(each.to, stretch.skip_to_m);
      meet(pair, stretch, MainLineCurve{});
    });
    keep(std::move(pair));
  }

  /// The main line against what the other lines keep clear of.
  void main_line() {
    const Thing one{Kind::main_line, 0};
    const mainline::Cable& cable = rig_.reference.cable;
    const Point3 start = rig_.origin, end = start + cable.span_m * rig_.along + cable.rise_m * rig_.up;
    for (int i = 0; i < static_cast<int>(in_.structures.size()); ++i) {
      const Structure& structure = in_.structures[static_cast<std::size_t>(i)];
      const Thing other{Kind::structure, i};
      if (!structure.lines) {
        leave_out({one, other, Why::let_touch});
        continue;
      }
      const WholeMainLine whole{holds(structure, start, in_.main_line_radius_m),
                                holds(structure, end, in_.main_line_radius_m)};
      if (whole.tied_at_start || whole.tied_at_end) leave_out({one, other, Why::tied_there, -1, -1, in_.meeting_m});
      keep({one, other, {{mover(whole), mover(recipe_of(structure))}}, true});
    }
  }

  void line_block(int l, int b) {
    Pair pair{{Kind::line, l}, {Kind::block, b}, {}};
    for_legs_of(l, [&](const Leg& each) {
      if (each.on_body(b))
        leave_out({pair.a, pair.b, Why::own_block, each.nth});
      else
        meet(pair, Stretch{each.index}, block_box(b));
    });
    keep(std::move(pair));
  }

  void line_standing(int l, Thing thing, const Recipe& recipe, const Shape& drawn) {
    Pair pair{{Kind::line, l}, thing, {}};
    for_legs_of(l, [&](const Leg& each) {
      if (const std::optional<Why> why = belongs_to(each, thing))
        leave_out({pair.a, pair.b, *why, each.nth});
      else
        meet(pair, short_of_ties(each, thing, Structure{drawn, {}}), recipe);
    });
    keep(std::move(pair));
  }

  /// A leg runs onto its own sheaves, through their frames, and the braking line out of the unit. One frame may hold
  /// several sheaves.
  std::optional<Why> belongs_to(const Leg& leg, Thing thing) const {
    if (thing.kind == Kind::unit)
      return leg.line == rig_.braking && leg.nth == line(leg.line).sheaves ? std::optional(Why::own_unit)
                                                                           : std::nullopt;
    if (leg.on(thing.index)) return Why::own_sheave;
    if (thing.kind != Kind::frame) return std::nullopt;
    for (const Hold* hold : {&leg.from, &leg.to})
      if (hold->sheave >= 0 && hold->body == reeving::on_ground && lies_in(hold->at, *body(thing.index).frame, 0))
        return Why::own_sheave;
    return std::nullopt;
  }

  /// Whether a line that ends there is tied to it: it lies in the solid or touches it. A scan has no inside, and what a
  /// line is tied to may stand between its surface and the end: that is as near as lines may be where they meet.
  bool holds(const Structure& structure, Point3 end, double radius_m) const {
    if (!structure.scan) return lies_in(end, structure.shape, radius_m);
    return nearest(Segment{end, end}, *structure.scan, in_.meeting_m).distance_m <= in_.meeting_m;
  }

  /// The leg without what lies beside its end on something that this end is tied to.
  Stretch short_of_ties(const Leg& leg, Thing thing, const Structure& structure) {
    Stretch stretch{leg.index};
    const auto skip = [&](const Hold& hold, double& skip_m) {
      if (hold.sheave >= 0 || hold.body != reeving::on_ground || !holds(structure, hold.at, leg.radius_m)) return;
      skip_m = in_.meeting_m;
      leave_out({{Kind::line, leg.line}, thing, Why::tied_there, leg.nth, -1, in_.meeting_m});
    };
    skip(leg.from, stretch.skip_from_m);
    skip(leg.to, stretch.skip_to_m);
    return stretch;
  }

  // Blocks: the lines are held against them above.

  void of_block(int b) {
    const Thing block{Kind::block, b};
    keep({{Kind::main_line, 0}, block, {{mover(MainLineCurve{}), mover(block_box(b))}}, false});
    for (int other = b + 1; other < static_cast<int>(rig_.blocks.size()); ++other)
      if (box(other)) keep({block, {Kind::block, other}, {{mover(block_box(b)), mover(block_box(other))}}, false});
    for_standing([&](Thing thing, const Recipe& recipe, const Shape&) {
      keep({block, thing, {{mover(block_box(b)), mover(recipe)}}, false});
    });
    against_structures(block, &Structure::blocks, block_box(b));
  }

  const Inputs& in_;
  const reeving::Inputs& rig_;
  std::vector<Leg> legs_;
  std::vector<int> standing_;
  Plan plan_;
};

}  // namespace

bool stands_on_anchor(const reeving::Inputs& rig, const reeving::Sheave& sheave) {
  if (!(sheave.radius_m > 0)) return false;
  return sheave.body == reeving::on_ground ||
         (sheave.body >= 0 && !rig.blocks[static_cast<std::size_t>(sheave.body)].shifts());
}

Post post_of(const reeving::Sheave& sheave, const SheaveBody& body) {
  const Vec3 half = body.width_m / 2 * unit(sheave.axle);
  return {sheave.centre - half, sheave.centre + half, body.rim_radius_m};
}

Plan plan_pairs(const Inputs& in, const reeving::Inputs& rig) { return Planner(in, rig).plan(); }

}  // namespace fairlead::clearance
