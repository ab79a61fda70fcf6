// How near the rider comes to the rig, at the instants that have a name, and the least of every clearance.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "report/drawing/place.hpp"
#include "report/drawing/symbols.hpp"
#include "report/sheets/clearance_profiles.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/views/figures.hpp"
#include "report/views/instant.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;
using clearance::Gap;
using clearance::Passing;
using clearance::Thing;
using views::Instant;
using views::Scene;

namespace {

constexpr double gap_mm = 4, title_mm = 13, foot_mm = 3.5, reach_m = 2;

bool applies(const Dossier& dossier) {
  const clearance::Clearances* solved = dossier.judged.rig.clearance.solved();
  return solved && (!solved->gaps.empty() || !solved->passings.empty());
}

/// What a figure shows.
struct Seen {
  const Gap* gap;
  const clearance::RiderHeld* rider;
  const Passing* passing{};  ///< where it is one
  std::string what;
};

/// The passage in which each redirect and block comes nearest to the rider.
std::vector<Seen> nearest_passings(const Rig& rig, const clearance::Clearances& solved) {
  std::vector<Seen> all;
  for (const Passing& passing : solved.passings) {
    if (passing.met != Passing::Met::at_travel || passing.gaps.empty()) continue;
    const std::string other = tables::thing(rig, passing.other);
    const bool block = passing.other.kind == Thing::Kind::block;
    const Seen seen{&passing.gaps.front(), &passing.rider, &passing,
                    block ? fmt::format("rider and {} pass each other", other) : "rider under " + other};
    auto same = std::find_if(all.begin(), all.end(), [&](const Seen& s) { return s.passing->other == passing.other; });
    if (same == all.end())
      all.push_back(seen);
    else if (seen.gap->least_m.value < same->gap->least_m.value)
      *same = seen;
  }
  return all;
}

/// The rider's moments; none of a place that the views of an instant do not reach, far upstream of the arrest, and
/// beside structures of each kind of them that is followed over the travel.
std::vector<Seen> moments(const Rig& rig, const clearance::Clearances& solved) {
  std::vector<Seen> all;
  for (const clearance::Moment& moment : solved.moments) {
    const Gap& gap = moment.gap;
    const auto& poses = rig.reeving.solved()->sweeps[static_cast<std::size_t>(gap.sweep)].poses;
    if (gap.travel_m < poses.front().travel_m || gap.travel_m > poses.back().travel_m) continue;
    const bool followed = std::any_of(solved.profiles.begin(), solved.profiles.end(), [&](const auto& profile) {
      const Gap& of = solved.gaps[profile.gap];
      return of.a == gap.a && of.b == gap.b;
    });
    if (moment.when == clearance::Moment::When::beside && !followed) continue;
    all.push_back({&gap, &moment.rider, nullptr,
                   fmt::format("rider {} {}", tables::moment(moment.when), tables::thing(rig, gap.b))});
  }
  return all;
}

/// The gap between its two points, and its size.
void dimension_gap(const Canvas& canvas, const View& view, const Gap& gap, const Box& frame, Obstacles& obstacles,
                   const Style& style) {
  const Paper a = view.of(gap.on_a), b = view.of(gap.on_b);
  const Pen pen{narrow_mm, LineType::continuous, Layer::cautions};
  const std::size_t before = canvas.drawing().entities.size();
  constexpr double arrows_mm = 8, arrow_mm = 2;
  if (length(b - a) > arrows_mm) {
    const double angle = std::atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm);
    canvas.line({a, b}, pen);
    arrowhead(canvas, b, angle, pen.layer, arrow_mm);
    arrowhead(canvas, a, angle + std::numbers::pi, pen.layer, arrow_mm);
  } else {
    canvas.line({a, b}, pen);
    for (const Paper end : {a, b}) canvas.circle(end, 0.4, {0, LineType::continuous, pen.layer}, Fill::ink);
  }
  obstacles.add(canvas.drawing(), before);
  const std::string text = "gap " + words::shown(gap.least_m.value, Dimension::length, style);
  place(canvas, {Callout{{0.5 * (a + b), a + 0.3 * (b - a), a + 0.7 * (b - a)}, text, Layer::cautions}}, obstacles,
        frame.grown(-1));
}

/// What a window about the instant must hold, from the rider's wheel.
struct Span2 {
  double low_x{}, high_x{}, low_z{}, high_z{};
};
Span2 span_of(const Instant& instant, const Gap& gap, Point3 other, Vec3 right) {
  Span2 span{0, 0, 0, 0};
  const auto add = [&](Point3 p) {
    const Vec3 d = p - instant.rider;
    span.low_x = std::min(span.low_x, dot(d, right));
    span.high_x = std::max(span.high_x, dot(d, right));
    span.low_z = std::min(span.low_z, d.z);
    span.high_z = std::max(span.high_z, d.z);
  };
  add(gap.on_a);
  add(gap.on_b);
  add(other);
  if (const auto& rider = instant.scene.rider_under_redirect) {
    add(rider->low);
    add(rider->high);
  }
  return span;
}

/// P, Q ... Z, P2 ...
std::string letter_of(std::size_t i) {
  constexpr std::string_view letters = "PQRSTUVWXYZ";
  const std::string letter(1, letters[i % letters.size()]);
  return i < letters.size() ? letter : fmt::format("{}{}", letter, i / letters.size() + 1);
}

/// One instant from the side and from upstream.
class InstantFigure {
 public:
  InstantFigure(const Dossier& dossier, const Style& style, const Scene& scene, Seen seen, std::string letter)
      : rig_(dossier.judged.rig),
        style_(style),
        seen_(std::move(seen)),
        instant_(
            views::instant_of(scene, static_cast<std::size_t>(seen_.gap->sweep), seen_.gap->travel_m, *seen_.rider)),
        letter_(std::move(letter)) {}

  double height(double width_mm) const { return title_mm + frame_height_mm(width_mm) + foot_mm; }

  void draw(const Canvas& canvas, Paper top_left, double width_mm) const {
    const std::string name = "INSTANT " + letter_;
    canvas.text(top_left - Paper{0, title_cap_mm + 1}, name, title_cap_mm, Layer::text);
    canvas.text(top_left + Paper{canvas.width(name, title_cap_mm) + 3, -title_cap_mm - 1},
                fmt::format("1:{:g}, {}", scale(width_mm), seen_.what), note_cap_mm, Layer::text);
    canvas.text(top_left - Paper{0, title_cap_mm + 5.2},
                fmt::format("{}, at travel {}", tables::passage(rig_, gap().sweep),
                            with_minus(words::travel(gap().travel_m, style_))),
                small_cap_mm, Layer::text);
    const double top = top_left.y_mm - title_mm, bottom = top - frame_height_mm(width_mm);
    const double side_mm = side_share * (width_mm - gap_mm);
    view(canvas, {top_left.x_mm, bottom, top_left.x_mm + side_mm, top}, true, width_mm);
    view(canvas, {top_left.x_mm + side_mm + gap_mm, bottom, top_left.x_mm + width_mm, top}, false, width_mm);
  }

 private:
  static constexpr double side_share = 0.54, about_m = 0.5;
  const Gap& gap() const { return *seen_.gap; }
  const Frame& frame() const { return rig_.frame; }
  Span2 side() const { return span_of(instant_, gap(), other_at(), frame().along); }
  Span2 section() const { return span_of(instant_, gap(), other_at(), -1.0 * frame().across); }
  /// The block's point or the redirect's centre that is passed, or what is nearest.
  Point3 other_at() const {
    if (!seen_.passing) return gap().on_b;
    const Thing other = seen_.passing->other;
    const auto index = static_cast<std::size_t>(other.index);
    if (other.kind == Thing::Kind::block) return instant_.scene.rest->blocks[index].at;
    // One on a mount hangs elsewhere than it was drawn.
    for (const views::SheaveSeen& sheave : instant_.scene.sheaves)
      if (sheave.index == rig_.reeved[index]) return sheave.centre;
    return rig_.reeving.inputs->sheaves[index].centre;
  }

  double scale(double width_mm) const {
    const double side_m = side().high_x - side().low_x + 2 * about_m,
                 section_m = section().high_x - section().low_x + 2 * about_m,
                 tall_m = side().high_z - side().low_z + 2 * about_m;
    constexpr double most_mm = 110;
    for (double next : {10.0, 20.0, 50.0, 100.0, 200.0}) {
      const double mm = 1000 / next, room = width_mm - gap_mm;
      if (mm * side_m <= side_share * room && mm * section_m <= (1 - side_share) * room && mm * tall_m <= most_mm)
        return next;
    }
    return 500;
  }
  double frame_height_mm(double width_mm) const {
    constexpr double least_mm = 50;
    return std::max(least_mm, (side().high_z - side().low_z + 2 * about_m) * 1000 / scale(width_mm));
  }
  void view(const Canvas& canvas, const Box& box, bool from_side, double width_mm) const {
    const Span2 span = from_side ? side() : section();
    const double mm = 1000 / scale(width_mm);
    const Paper middle{mm * (span.low_x + span.high_x) / 2, mm * (span.low_z + span.high_z) / 2};
    const Paper at = box.centre() - middle;
    View seen = from_side ? views::side_view(instant_, scale(width_mm), at)
                          : views::section_view(instant_, scale(width_mm), at);
    seen.name += " " + letter_;
    canvas.drawing().views.push_back(seen);
    const std::size_t before = canvas.drawing().entities.size();
    if (from_side)
      views::draw_side(canvas, instant_, seen, box);
    else
      views::draw_section(canvas, instant_, seen, box, reach_m);
    canvas.box(box, {narrow_mm, LineType::continuous, Layer::structure});
    const std::string label = from_side ? "from the side, landing to the right" : "from upstream";
    canvas.text({box.left, box.bottom - foot_mm + 0.5}, label, small_cap_mm, Layer::symbols);
    Obstacles obstacles(canvas.font());
    obstacles.add(canvas.drawing(), before);
    dimension_gap(canvas, seen, gap(), box, obstacles, style_);
    place(canvas, names(seen, box), obstacles, box.grown(-1));
  }

  std::vector<Callout> names(const View& view, const Box& box) const {
    std::vector<Callout> all;
    const Scene& scene = instant_.scene;
    if (const auto& rider = scene.rider_under_redirect) {
      const Paper a = view.of(rider->low), b = view.of(rider->high);
      const Box r = bounds(a, b);
      all.push_back({{{r.left, r.centre().y_mm}, {r.right, r.centre().y_mm}, {r.centre().x_mm, r.bottom}},
                     "rider envelope",
                     Layer::envelope,
                     0,
                     small_cap_mm});
    }
    for (const Thing& thing : {gap().a, gap().b})
      if (thing.kind != Thing::Kind::rider)
        all.push_back({{view.of(&thing == &gap().a ? gap().on_a : gap().on_b)},
                       tables::thing(rig_, thing),
                       Layer::text,
                       0,
                       small_cap_mm});
    if (seen_.passing && !(seen_.passing->other == gap().b))
      all.push_back({{view.of(other_at())}, tables::thing(rig_, seen_.passing->other), Layer::text, 2, small_cap_mm});
    all.push_back({{view.of(instant_.rider)}, "main line", Layer::text, 0.6, small_cap_mm});
    for (const views::MemberSeen& member : scene.members) {
      Callout name{{}, words::member_words(rig_.layout, member.index), Layer::text, 0, small_cap_mm};
      for (const double share : {0.5, 0.4, 0.3, 0.2, 0.1, 0.05, 0.6, 0.8})
        if (const Point3 p = member.seen_to(share);
            std::abs(frame().chainage_m(p) - frame().chainage_m(instant_.rider)) <= reach_m)
          name.targets.push_back(view.of(p));
      all.push_back(std::move(name));
    }
    for (Callout& c : all) std::erase_if(c.targets, [&](Paper p) { return !box.contains(p); });
    std::erase_if(all, [](const Callout& c) { return c.targets.empty(); });
    return all;
  }

  const Rig& rig_;
  const Style& style_;
  Seen seen_;
  Instant instant_;
  std::string letter_;
};

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const Rig& rig = dossier.judged.rig;
  const clearance::Clearances& solved = *rig.clearance.solved();
  const Scene scene = views::scene_of(rig);
  Pages pages(dossier, office, out);
  pages.begin({"Clearances", "Clearance drawing", "as shown", {}}, {pages.left_column(), pages.right_column()});
  std::vector<Seen> instants = nearest_passings(rig, solved);
  for (Seen& moment : moments(rig, solved)) instants.push_back(std::move(moment));
  for (std::size_t i = 0; i < instants.size(); ++i) {
    const auto figure = std::make_shared<InstantFigure>(dossier, style, scene, std::move(instants[i]), letter_of(i));
    constexpr double least_mm = 150;
    pages.put(Block{[](const Canvas&) { return least_mm; },
                    [figure](const Canvas&, double width) { return figure->height(width); },
                    [figure](const Canvas& canvas, Paper at, double width) { figure->draw(canvas, at, width); },
                    "INSTANT " + letter_of(i)});
  }
  pages.put(
      block_of(Paragraphs("NOTES",
                          {{"–",
                            "Gaps lie between surfaces: a line's own radius and the faces of what the rider can reach. "
                            "In contact it is drawn in a few leans from the farthest back to the farthest forward, the "
                            "nearest among them, and beside structures as wide as a side wind from either side may "
                            "have it; gaps hold all between.",
                            Layer::notes},
                           {"–",
                            "Each instant is drawn in the passage in which its gap is least. Leaning farthest back or "
                            "forward: that lean alone. The centre of mass is drawn plumb under the wheel.",
                            Layer::notes},
                           {"–",
                            fmt::format("Gaps that stay more than {} beyond their limit are not plotted over the "
                                        "travel; the table has them.",
                                        words::shown(clearance::profile_reach_m, Dimension::length, style)),
                            Layer::notes}},
                          {small_cap_mm})));
  for (const Block& profile : clearance_profiles(dossier, style)) pages.put(profile);
  pages.put(tables::named_instants(dossier, style), style);
  pages.put(tables::clearances(dossier, style), style);
  pages.put(tables::exclusions(dossier, style), style);
  for (Body& body : out) body.scale = body.drawing.views.empty() ? "none" : "as shown";
}

}  // namespace

const SheetKind clearances_sheet{"clearances", applies, compose};

}  // namespace fairlead::sheets
